"""Explain: what a derivation did with one setting."""

from __future__ import annotations

import os
from pathlib import Path

from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, did_you_mean
from profilesmith.ledger import Ledger
from profilesmith.ledger.place import ledger_beside
from profilesmith.recipe.constants import Limit, hard_limits
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.vocabulary.setting import SEE_SETTINGS, Setting
from profilesmith.workflows.derive import apply
from profilesmith.workflows.derived_file import load_ledger
from profilesmith.workflows.edits_beside import edits_beside
from profilesmith.workflows.known_map import known_map
from profilesmith.workflows.request import Request


class ExplainedSetting(NamedTuple):
    """ledger: of the whole derivation. limits: of the vocabulary and the machine. edits: by hand, since then."""

    setting: Setting
    ledger: Ledger
    limits: tuple[Limit, ...]
    edits: tuple[str, ...] = ()


def explain(name: str, request: Request) -> ExplainedSetting:
    """Raises Refused for an unknown setting or wrong input."""
    vocabulary = load_vocabulary()
    setting = vocabulary.settings.get(name)
    if setting is None:
        hint = did_you_mean(name, vocabulary.settings, SEE_SETTINGS)
        raise Refused([Problem("unknown-setting", f"{name!r} is not a setting.", Place("SETTING"), hint)])
    ledger, facts = _ledger_of(request)
    edits = () if request.key_map else edits_beside(request.bases[:1])
    mine = tuple(text for text in edits if text.startswith(f"{name} "))
    return ExplainedSetting(setting, ledger, tuple(hard_limits(setting, facts)), mine)


def _ledger_of(request: Request) -> tuple[Ledger, Facts]:
    """The ledger that a derivation would write; of a derived text alone the one that lies beside it."""
    if request.key_map:
        return _derived_now(request)
    text = request.bases[0]
    asked = request.recipes or request.facts or request.answers or request.shares
    if not asked and os.path.isfile(ledger_beside(Path(text))):
        ledger = load_ledger(text).ledger
        return ledger, ledger.facts
    return _derived_now(request._replace(key_map=known_map(request.bases[:1]).path))


def _derived_now(request: Request) -> tuple[Ledger, Facts]:
    translation, _, facts, ledger = apply(request)
    return write_ledger(ledger, translation, load_vocabulary()).ledger, facts
