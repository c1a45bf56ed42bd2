"""What a text says of its own units in its remarks: ``lengths in microns, paces in millimetres a minute``."""

import re

from profilesmith.suggest.key_words import split_words
from profilesmith.suggest.lexicon import Lexicon
from profilesmith.suggest.remark_units import named_units, speaks_of_share

_CLAUSES = re.compile(r"[,;.](?=\s)|[()]")  # "paces in mm/s, shares as parts of one": no pace is a share
_PER_TIME = re.compile(r"(?:[^\W\d_]+ ){1,3}(?:per|an?|pro|je|par) (s|sec|seconds?|sekunde|seconde|min|minutes?)", re.I)
NAMED = 2.2  # how much likelier (in e-folds) a unit is that a remark names


def base_words(remarks: list[str], lexicon: Lexicon) -> frozenset[str]:
    """The words of remarks that say what speeds are shares of: ``house pace in mm/s, all other paces as a share of
    it``.
    """
    said = [remark for remark in remarks if speaks_of_share(remark, lexicon) and named_units(remark, lexicon.units)]
    return frozenset(term.text for remark in said for term in lexicon.read(split_words(remark)))


def stated_units(remarks: list[str], lexicon: Lexicon) -> dict[str, float]:
    """Unit -> bonus; ``share:speed`` where a remark says that numbers of a kind are shares of another."""
    stated: dict[str, float] = {}
    for remark in remarks:
        for clause in _CLAUSES.split(remark):  # "speeds per second" of numbers in inches
            said = _PER_TIME.fullmatch(clause.strip(" ."))
            if said:
                stated["/min" if said[1].casefold().startswith("m") else "/s"] = 0.0
        for name in named_units(remark, lexicon.units):
            stated[name] = NAMED
        for clause in _CLAUSES.split(remark) if speaks_of_share(remark, lexicon) else ():
            if not speaks_of_share(clause, lexicon):
                continue
            terms = (term for term in lexicon.read(split_words(clause)) if not term.small)
            ideas = {idea for term in terms for idea in term.ideas}
            for kind, idea in (("speed", "speed"), ("length", "width"), ("acceleration", "acceleration")):
                if idea in ideas:
                    stated[f"share:{kind}"] = 1.0
    return stated
