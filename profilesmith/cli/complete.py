"""What the shell offers behind an option: names of the library, of the vocabulary, and files where a file is taken.

Each function takes what stands there so far and gives what could stand there. A completion never fails: it runs on
every press of a key.
"""

import os
from collections.abc import Iterable, Iterator
from pathlib import Path

import typer

from profilesmith.foundation.problem import Refused


def _matching(words: Iterable[str], begun: str) -> list[str]:
    return [word for word in words if word.startswith(begun)]


def _files(begun: str, ending: str) -> Iterator[str]:
    """Folders, with a slash, and files of one ending below what was begun."""
    import glob  # on the press of a key only, not at every start

    for name in sorted(glob.glob(f"{glob.escape(begun)}*")):
        if os.path.isdir(name):
            yield f"{name}/"
        elif name.endswith(ending):
            yield name


def _named(kind: str, ctx: typer.Context, begun: str) -> list[str]:
    """Names of the library, the one of ``--library`` first, then files."""
    from profilesmith.library.find import names

    library = ctx.params.get("library") if ctx.params else None
    try:
        known = [name for name, _ in names(kind, Path(library) if library else None)]
    except (OSError, Refused):  # an unreadable library is told when the command runs
        known = []
    return [*_matching(known, begun), *_files(begun, ".toml")]


def recipes(ctx: typer.Context, incomplete: str) -> list[str]:
    return _named("recipe", ctx, incomplete)


def key_maps(ctx: typer.Context, incomplete: str) -> list[str]:
    return _named("key map", ctx, incomplete)


def fact_files(ctx: typer.Context, incomplete: str) -> list[str]:
    return _named("facts", ctx, incomplete)


def settings(incomplete: str) -> list[str]:
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    return _matching(load_vocabulary().settings, incomplete)


def words(incomplete: str) -> list[str]:
    """Settings, groups, facts and troubles: what ``vocabulary`` looks up."""
    from profilesmith.facts.facts import fact_kinds
    from profilesmith.mend.load_troubles import shipped_troubles
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    vocabulary = load_vocabulary()
    return _matching(
        [*vocabulary.settings, *vocabulary.groups, *fact_kinds(), *shipped_troubles().troubles], incomplete
    )


def answers(incomplete: str) -> list[str]:
    """``machine.drive=``, and behind the sign the values where there are few."""
    from profilesmith.facts.facts import fact_kinds

    name, sign, begun = incomplete.partition("=")
    if not sign:
        return [f"{known}=" for known in _matching(fact_kinds(), name)]
    kind = fact_kinds().get(name)
    return [f"{name}={value}" for value in _matching(kind.values if kind else (), begun)]


def set_values(incomplete: str) -> list[str]:
    """``support.on=``, and behind the sign the values of a switch or a choice."""
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    known = load_vocabulary().settings
    name, sign, begun = incomplete.partition("=")
    if not sign:
        return [f"{whole}=" for whole in _matching(known, name)]
    setting = known.get(name)
    values = () if setting is None else ("on", "off") if setting.kind == "switch" else setting.values
    return [f"{name}={value}" for value in _matching(values, begun)]


def groups(incomplete: str) -> list[str]:
    """Areas and groups, for ``compare --only``."""
    from profilesmith.vocabulary.load_vocabulary import load_vocabulary

    vocabulary = load_vocabulary()
    return _matching([*vocabulary.areas, *vocabulary.groups], incomplete)


def forms(incomplete: str) -> list[str]:
    from profilesmith.cli.forms import REVIEW, shown_name

    return _matching((shown_name(form) for form in REVIEW if not form.endswith("-page")), incomplete)


def materials(incomplete: str) -> list[str]:
    from profilesmith.checks.materials import materials as known

    return _matching(known(), incomplete)


def schemas(incomplete: str) -> list[str]:
    from profilesmith.library.schemas.load_schema import SCHEMAS

    return _matching(SCHEMAS, incomplete)


def rule_numbers(incomplete: str) -> list[str]:
    from profilesmith.lint.rules import rule_texts
    from profilesmith.lint.trial_rules import TRIALS

    return _matching((rule.number for rule in (*rule_texts(), *TRIALS)), incomplete)


def guide_pages(incomplete: str) -> list[str]:
    from profilesmith.workflows.guide import TOPICS

    return _matching(TOPICS, incomplete)
