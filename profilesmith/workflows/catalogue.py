"""Catalogue: a library's recipes read, tried on its reference profiles, and written as a folder of pages."""

from __future__ import annotations

from collections.abc import Iterator
from importlib import import_module
from pathlib import Path

from profilesmith import __version__
from profilesmith.catalogue.catalogue import Catalogue, RecipeEntry, Trial, UnreadRecipe
from profilesmith.catalogue.write_folder import folder_free, write_folder
from profilesmith.engine.derivation_review import derivation_file
from profilesmith.evidence.file_name import safe_stem
from profilesmith.facts.facts import Facts
from profilesmith.foundation.named_tuple import NamedTuple
from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, refuse_if
from profilesmith.foundation.read_file import at_most, cannot_read, must_be_plain
from profilesmith.library.find import names, shipped
from profilesmith.library.library import DESCRIPTION, Library, ReferenceProfile, inside, load_library
from profilesmith.library.open_files import open_facts, open_key_map, open_recipe
from profilesmith.recipe.apply_recipes import apply_recipes
from profilesmith.recipe.recipe import Recipe
from profilesmith.review.build_review import ledger_review
from profilesmith.revision.on_profiles import TrialProfile
from profilesmith.text.document import Document, Habits
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.ledger_to_edits import write_ledger
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.evidence_of import evidence_path, tally_of
from profilesmith.workflows.library.folder import library_folder
from profilesmith.workflows.library.starter import is_example_profile, suits
from profilesmith.workflows.recipe_history import Dated, history_of, versions_of

FORMS = {"page": "profilesmith.catalogue.page", "markdown": "profilesmith.catalogue.markdown"}
MOST_PROFILES = 30  # on one page
LARGEST_TEXT = 20_000_000  # bytes


class Written(NamedTuple):
    """files: how many. unread: what is on the index as unreadable."""

    folder: Path
    files: int
    unread: tuple[str, ...]


DERIVE = "derive.html"


class CatalogueGround(NamedTuple):
    """A reference profile, read once. problems: sentences; then there is no translation. is_example: of a new library,
    as it was laid out: it says nothing of a real recipe.
    """

    profile: ReferenceProfile
    translation: Translation | None
    facts: Facts
    problems: tuple[str, ...]
    is_example: bool = False


def write_catalogue(folder: Path | None, out: Path, form: str, overwrite: bool = False, derive: str = "") -> Written:
    """Write the pages of a library: the one that ``library_folder`` finds. Raises Refused; then nothing was written.

    derive: the text of a page that derives in a browser, to stand beside them.
    """
    refuse_if(folder_free(out, overwrite))
    catalogue = gather(library_folder(folder))._replace(derive=DERIVE if derive else "")
    files: dict[str, str] = import_module(FORMS[form]).render(catalogue)
    if derive:
        hint = "Give the recipe another name."
        refuse_if(
            [Problem("same-output", f"A recipe's page is called {DERIVE!r}.", hint=hint)] if DERIVE in files else []
        )
        files[DERIVE] = derive
    refuse_if(write_folder(out, files, overwrite))
    return Written(out, len(files), tuple(item.word for item in catalogue.unread))


def gather(folder: Path) -> Catalogue:
    """All that the pages show. Names of files are told from the library on, so that the pages are the same
    everywhere.
    """
    library, problems = load_library(folder)
    refuse_if(problems)
    assert library is not None
    home, borrowed = library, False
    if not library.profiles:
        own, _ = load_library(shipped())
        home, borrowed = own or library, True
    grounds = [
        _ground(home, profile)._replace(is_example=is_example_profile(home, profile))
        for profile in home.profiles[:MOST_PROFILES]
    ]
    recipes: dict[str, tuple[Path, Recipe]] = {}
    unread: list[UnreadRecipe] = []
    for word, path in _recipe_files(folder):
        recipe, faults = open_recipe(path, _below(folder, path))
        if recipe is None:
            unread.append(UnreadRecipe(word, tuple(faults)))
        else:
            recipes[word] = (path, recipe)
    versions = versions_of(folder, dict(item for item in recipes.values() if item[0].is_relative_to(folder)))
    entries = [
        _entry(folder, word, path, recipe, grounds, versions.get(path, ())) for word, (path, recipe) in recipes.items()
    ]
    return Catalogue(
        library.name,
        library.about,
        library.licence,
        library.keepers,
        tuple(entries),
        tuple(unread),
        f"profilesmith {__version__}",
        borrowed and bool(grounds),
        contact=library.contact,
    )


def _recipe_files(folder: Path) -> Iterator[tuple[str, Path]]:
    """The library's own recipes, no link out of it among them, and those that ship and were tried here."""
    for word, path in sorted(names("recipe", folder)):
        own = path.is_relative_to(folder) and inside(folder, path)
        if own or (path.is_relative_to(shipped()) and evidence_path(folder, word).is_file()):
            yield word, path


def _below(folder: Path, path: Path) -> str:
    return path.relative_to(folder).as_posix() if path.is_relative_to(folder) else path.name


def _entry(
    folder: Path, word: str, path: Path, recipe: Recipe, grounds: list[CatalogueGround], versions: tuple[Dated, ...]
) -> RecipeEntry:
    tally, problems = tally_of(recipe._replace(file=str(path)), folder)
    faults = tuple(_sentence(_told_below(folder, problem)) for problem in problems[:20])
    suited = [ground for ground in grounds if suits((word,), ground.is_example)]
    trials = tuple(_trial(recipe, ground) for ground in suited)
    samples = [
        TrialProfile(item.profile.name, item.translation.profile, item.facts) for item in suited if item.translation
    ]
    ships = not path.is_relative_to(folder)
    return RecipeEntry(safe_stem(word), word, recipe, tally, trials, faults, ships, history_of(versions, samples))


def _ground(library: Library, profile: ReferenceProfile) -> CatalogueGround:
    """Read a reference profile: its texts through its map, and its facts."""
    problems: list[Problem] = []
    map_path = _named(library, "key map", profile.key_map, problems)
    facts, faults = open_facts(
        [
            (path, _below(library.folder, path))
            for name in profile.facts
            if (path := _named(library, "facts", name, problems))
        ]
    )
    problems += faults
    translation = None
    if map_path is not None:
        key_map, faults = open_key_map(map_path, _below(library.folder, map_path))
        problems += faults
        if key_map is not None:
            documents = [_document(library, text, key_map.habits, problems) for text in profile.texts]
            read = tuple(document for document in documents if document is not None)
            translation = translate(read, key_map, load_vocabulary())
            problems += translation.problems
    return CatalogueGround(
        profile, None if problems else translation, facts, tuple(_sentence(problem) for problem in problems[:5])
    )


def _sentence(problem: Problem) -> str:
    return f"{problem.place}: {problem.message}" if str(problem.place) else problem.message


def _told_below(folder: Path, problem: Problem) -> Problem:
    return problem._replace(place=problem.place._replace(file=_below(folder, Path(problem.place.file))))


def _named(library: Library, kind: str, name: str, problems: list[Problem]) -> Path | None:
    """A map or facts file by its name alone: a library's description leads to no file outside."""
    path = dict(names(kind, library.folder)).get(name)
    if path is None or not (inside(library.folder, path) or inside(shipped(), path)):
        problems.append(Problem("not-found", f"There is no {kind} called {name!r} in the library.", Place(DESCRIPTION)))
        return None
    return path


def _document(library: Library, text: str, habits: Habits, problems: list[Problem]) -> Document | None:
    path = library.folder / text
    try:
        must_be_plain(path)
        with path.open("rb") as stream:
            raw = at_most(stream, LARGEST_TEXT + 1)
    except OSError as error:
        problems.append(cannot_read(text, error))
        return None
    if len(raw) > LARGEST_TEXT:
        problems.append(Problem("too-large", f"The text is larger than {LARGEST_TEXT:,} bytes.", Place(text)))
        return None
    return read_document(raw, text, habits)


def _trial(recipe: Recipe, ground: CatalogueGround) -> Trial:
    """What a recipe does to a reference profile. Nothing is written for it."""
    if ground.translation is None:
        return Trial(ground.profile.name, ground.profile.facts, None, ground.problems)
    vocabulary = load_vocabulary()
    ledger = apply_recipes(ground.translation.profile, [recipe], ground.facts, {}, vocabulary)
    ledger = write_ledger(ledger, ground.translation, vocabulary).ledger
    file = derivation_file(ground.translation, ledger, ())
    review = ledger_review(ledger, vocabulary, ground.profile.name, file)
    return Trial(
        ground.profile.name, ground.profile.facts, review, tuple(problem.message for problem in ledger.problems)
    )
