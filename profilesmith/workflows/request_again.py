"""A stored ledger to the request that makes its derivation again, on newer bases and with what the user names
instead.
"""

from __future__ import annotations

import os
from collections.abc import Collection, Sequence
from pathlib import Path

from profilesmith.engine.derived_file import answers_then, facts_then, followed_then, laid_in, shares_then
from profilesmith.facts.facts import fact_kinds
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import names_a_file
from profilesmith.ledger import Call
from profilesmith.ledger.not_as_then import NotAsThen
from profilesmith.ledger.read import Stored
from profilesmith.library.find import names
from profilesmith.workflows.facts_now import FactsNow, facts_now
from profilesmith.workflows.read import read_facts, read_recipes
from profilesmith.workflows.request import Request, word_at


class RequestAgain(NamedTuple):
    """request: what to derive. call: the same as the next ledger remembers it, with what was asked for in the first
    one.

    not_as_then: what could not be taken over.
    """

    request: Request
    call: Request
    not_as_then: NotAsThen


def request_again(stored: Stored, folder: Path, asked: Request, keep_facts: bool = True) -> RequestAgain:
    """What to derive. asked: bases is what to derive from; whatever else it leaves empty is as the ledger has it.

    keep_facts: facts stay as the ledger holds them, else as the files that it names say now; a named file or an answer
    goes before both. Raises Refused.
    """
    problems: list[Problem] = []
    call = stored.file.call
    library = asked.library or (Path(word_at(folder, call.library)) if call and call.library else None)
    named = asked.recipes or recipe_words(stored, folder)
    recipes = read_recipes(named, library, problems)
    known = {f"{recipe.name}.{name}" for recipe in recipes for name in recipe.inputs}
    files = read_facts(asked.facts, library, problems)
    refuse_if(problems)
    answers, left_out = answers_then(stored, recipes)
    now = FactsNow(facts_then(stored), ()) if keep_facts else facts_now(stored, folder, library)
    request = Request(
        bases=asked.bases,
        key_map=asked.key_map or key_map_word(stored, folder),
        recipes=tuple(named),
        facts=asked.facts,
        answers={**answers, **asked.answers},
        library=library,
        follow_literals=asked.follow_literals or followed_then(stored),
        shares=asked.shares or shares_then(stored),
        laid=laid_in(stored) if asked.laid is None else asked.laid,
        held=now.facts,
    )
    not_as_then = NotAsThen(left_out, now.changes, now.unread, tuple(_rounded(stored, {*files, *asked.answers})))
    remembered = _remembered(call, folder, request, asked, {*known, *fact_kinds()} - {*files})
    return RequestAgain(request, remembered, not_as_then)


def _remembered(call: Call | None, folder: Path, request: Request, asked: Request, open_: set[str]) -> Request:
    """The request with what was asked for in the first one. open_: facts and inputs that its answers may still
    speak of.
    """
    if call is None:
        return request
    facts = [word_at(folder, word) for word in call.facts]
    inputs = {name.rpartition(".")[2] for name in open_ - {*fact_kinds()}}
    answers = {name: text for name, text in call.answers.items() if name in open_ or name in inputs}
    return request._replace(
        key_map=asked.key_map or word_at(folder, call.key_map),
        facts=tuple(dict.fromkeys((*facts, *asked.facts))),
        answers={**answers, **asked.answers},
    )


def _rounded(stored: Stored, again: Collection[str]) -> list[str]:
    """What is only as exact as it was shown, unless it was said again."""
    return [name for name in stored.rounded if name not in again and name.rpartition(".")[2] not in again]


def recipe_words(stored: Stored, folder: Path) -> tuple[str, ...]:
    """The recipes as they were named then; by their own name where a file is gone or the ledger is an older one."""
    words = stored.file.call.recipes if stored.file.call else ()
    names = [use.name for use in stored.named]
    called = []
    for number, name in enumerate(names):
        word = word_at(folder, words[number]) if len(words) == len(names) else name
        is_file = names_a_file(word)
        called.append(name if is_file and not os.path.isfile(word) else word)
    return tuple(called)


def key_map_word(stored: Stored, folder: Path) -> str:
    """The map's file as seen from the ledger, else its name."""
    path = stored_map(stored, folder)
    return str(path) if path and stored.file.key_map_file else stored.file.key_map


def stored_map(stored: Stored, folder: Path) -> Path | None:
    """The map that a ledger in a folder names, as seen from here; None when there is none.

    One that came with the package goes by its name. A stranger's ledger names no device and no pipe.
    """
    named = stored.file.key_map_file
    if not named:
        word = stored.file.call.key_map if stored.file.call else ""
        return None if names_a_file(word) else dict(names("key map", None)).get(word)
    path = folder / named
    if Path(named).is_absolute() or not os.path.isfile(path):
        return None
    plain = Path(os.path.normpath(path))
    return plain if os.path.isfile(plain) and os.path.samefile(plain, path) else path


def base_words(stored: Stored, folder: Path) -> list[Path]:
    """Where the bases were: as seen from the ledger, or as they were named then."""
    words = stored.file.call.bases if stored.file.call else ()
    named = [folder / word for word in words] or [_nearest(folder, item.name) for item in stored.file.files]
    return [Path(os.path.normpath(path)) for path in named]


def _nearest(folder: Path, name: str) -> Path:
    beside = folder / Path(name).name
    return Path(name) if os.path.isfile(name) else beside


def derived_paths(derived: Sequence[str], stored: Stored) -> list[Path]:
    """All derived files of a ledger. Raises Refused for a file that is none of them."""
    first = Path(derived[0])
    outputs = stored.file.outputs
    # One file may have been renamed together with its ledger.
    paths = [first.with_name(item.name) for item in outputs] if len(outputs) > 1 else [first]
    known = {path.resolve() for path in paths}
    hint = "Re-derive the files of one ledger at a time; --check takes many."
    refuse_if(
        Problem("other-ledger", f"The ledger beside {first.name!r} is not this file's.", Place(name), hint)
        for name in derived
        if Path(name).resolve() not in known
    )
    return paths
