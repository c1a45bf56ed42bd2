"""Files that somebody lays on the table after a print, in any order, sorted by what a ledger says of them."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Collection, Iterable, Sequence

from profilesmith.browser.offer import LEDGER, Offer
from profilesmith.engine.derived_file import DerivedFile, TextAsItLies, laid_in, open_ledger
from profilesmith.engine.read import Source
from profilesmith.foundation.digest import sha256_hex
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused, refuse_if
from profilesmith.ledger import FileHash
from profilesmith.ledger.packed import unpack
from profilesmith.ledger.read import Stored
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.recipe.recipe import Recipe
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary


class LaidFiles(NamedTuple):
    """raw: the ledger's bytes; file: what lies beside it, as it is now; named: the recipes without those of this
    profile alone. bases: what was derived from; () where not all of it came.
    """

    raw: bytes
    file: DerivedFile
    named: tuple[Recipe, ...]
    key_map: Source | None
    bases: tuple[Source, ...]

    @property
    def stored(self) -> Stored:
        return self.file.stored

    @property
    def map_name(self) -> str:
        """The map that the ledger names, for messages."""
        return self.stored.file.key_map_file or self.stored.file.key_map


def lay(sources: Sequence[Source], offer: Offer) -> LaidFiles:
    """Sort them. Raises Refused without a ledger that can be read, or with several."""
    ledgers = [source for source in sources if source.name.endswith(LEDGER)]
    if len(ledgers) != 1:
        message = "There are several ledgers." if ledgers else "There is no ledger among the files."
        hint = f"Choose the derived text and the file beside it whose name ends in {LEDGER}."
        raise Refused([Problem("no-ledger", message, hint=hint)])
    stored = open_ledger(ledgers[0])
    refuse_if([*stored.ledger.problems, *_no_texts(stored, ledgers[0].name)])
    others = [source for source in sources if source is not ledgers[0]]
    texts = [source for source in others if not source.name.endswith(".toml")]
    key_map = _key_map(stored, [source for source in others if source not in texts], offer)
    outputs, bases = stored.file.outputs, stored.file.files
    pile, of_bases = _Pile(texts), {item.sha256 for item in bases}
    derived = [pile.claim(item, of_bases) for item in outputs]
    came_from = [pile.claim(item) for item in bases]
    if derived.count(None) == 1 and len(pile.left) == 1:  # it was given another name, and edited
        derived[derived.index(None)] = pile.left[0][0]
    read_map = load_key_map(key_map.raw, key_map.name, load_vocabulary())[0] if key_map else None
    lying = tuple(
        TextAsItLies(source.name, source.raw) if source else TextAsItLies(item.name, None, False)
        for item, source in zip(outputs, derived, strict=True)
    )
    named = tuple(_recipes(stored, offer))
    file = DerivedFile(lying[0].name, stored, lying, read_map, (*named, *recipes_of(laid_in(stored))))
    whole = [source._replace(name=name) for source, name in zip(came_from, _names(stored), strict=True) if source]
    return LaidFiles(ledgers[0].raw, file, named, key_map, tuple(whole) if len(whole) == len(bases) else ())


def _names(stored: Stored) -> list[str]:
    """What was derived from, as seen from the ledger: so a ledger that is made again names it."""
    words = stored.file.call.bases if stored.file.call else ()
    return list(map(posixpath.normpath, words)) or [item.name for item in stored.file.files]


def _no_texts(stored: Stored, name: str) -> list[Problem]:
    hint = "Choose the ledger that was saved beside a derived text."
    return [] if stored.file.outputs else [Problem("no-texts", "The ledger names no derived text.", Place(name), hint)]


class _Pile:
    """Texts that nobody has claimed yet."""

    def __init__(self, sources: Sequence[Source]) -> None:
        self.left = [(source, sha256_hex(source.raw)) for source in sources]

    def take(self, is_it: Callable[[str, str], bool]) -> Source | None:
        """The first of which name and hash say so."""
        for number, (source, digest) in enumerate(self.left):
            if is_it(source.name, digest):
                del self.left[number]
                return source
        return None

    def claim(self, item: FileHash, never: Collection[str] = ()) -> Source | None:
        """The text that a ledger means: its bytes under its name, else its name, else its bytes under another name.

        never: hashes of what has that name and is something else.
        """
        last = item.name.rpartition("/")[2]
        return (
            self.take(lambda name, digest: name == last and digest == item.sha256)
            or self.take(lambda name, digest: name == last and digest not in never)
            or self.take(lambda name, digest: digest == item.sha256)
        )


def _key_map(stored: Stored, maps: Sequence[Source], offer: Offer) -> Source | None:
    """The map that the ledger names: of those that came along, else one of the library."""
    call = stored.file.call
    word = call.key_map if call else stored.file.key_map
    last = (stored.file.key_map_file or word).rpartition("/")[2]
    came = next((item for item in maps if item.name == last), None)
    ours, then = offer.library["maps"].get(word), stored.file.key_map_sha256
    is_it = ours is not None and then in ("", sha256_hex(ours.raw))
    return came or (ours if is_it or "." not in word else None)  # a file of that name may be another one


def _recipes(stored: Stored, offer: Offer) -> Iterable[Recipe]:
    """Those that were named then: of the library by their word, else as the ledger keeps them. Raises Refused."""
    words = stored.file.call.recipes if stored.file.call else ()
    for number, use in enumerate(stored.named):
        word = words[number] if len(words) == len(stored.named) else use.name
        source = offer.library["recipes"].get(word)
        raw, name = (source.raw, source.name) if source else (unpack(use.text), use.name)
        recipe, problems = load_recipe(raw, name, load_vocabulary()) if raw else (None, [])
        hint = "Ask your club for a page that has it."
        refuse_if(
            problems or ([] if recipe else [Problem("not-found", f"The recipe {use.name!r} is not here.", hint=hint)])
        )
        assert recipe is not None
        yield recipe


def recipes_of(laid: Sequence[Source]) -> list[Recipe]:
    """The recipes of this profile alone. Raises Refused."""
    recipes = []
    for source in laid:
        recipe, problems = load_recipe(source.raw, source.name, load_vocabulary())
        refuse_if(problems)
        recipes += [recipe] if recipe else []
    return recipes
