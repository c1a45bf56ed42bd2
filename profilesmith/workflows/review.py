"""Review again: the ledger beside a derived file, in any form, and whether the file was edited since."""

import hashlib
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem, Refused
from profilesmith.foundation.toml_table import cannot_read
from profilesmith.merge.decision import remembered
from profilesmith.review.build_review import ledger_review
from profilesmith.review.hand_edits import hand_edits
from profilesmith.review.ledger_from_json import LARGEST_LEDGER, Stored, read_ledger
from profilesmith.review.review import Review
from profilesmith.review.wording import visible
from profilesmith.text.read_document import read_document
from profilesmith.translation.document_to_profile import Translation, translate
from profilesmith.translation.load_key_map import load_key_map
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.text_notes import unmapped_lines
from profilesmith.write_files import unfinished

BROKEN_OFF = "Broken off: a run that wrote here did not end"


class Again(NamedTuple):
    """edited: sentences on what was changed by hand; empty when every file is as it was written."""

    review: Review
    edited: tuple[str, ...]


def ledger_beside(derived: str) -> Path:
    """The ledger of a derived file."""
    path = Path(derived)
    return path.with_name(path.name + ".ledger.json")


def load_ledger(derived: str) -> Stored:
    """The stored ledger of a derived file. Raises Refused."""
    path = ledger_beside(derived)
    try:
        with path.open("rb") as stream:
            text = stream.read(LARGEST_LEDGER + 1).decode("utf-8")
    except FileNotFoundError as error:
        hint = "Name a file that 'derive' wrote; its ledger must lie beside it."
        raise Refused([Problem("no-ledger", f"There is no ledger {path.name!r} beside it.", Place(derived), hint)]) from error
    except (OSError, UnicodeDecodeError) as error:
        reason = error if isinstance(error, OSError) else OSError(0, "it is not UTF-8 text")
        raise Refused([cannot_read(str(path), reason)]) from error
    found = read_ledger(text, str(path), load_vocabulary())
    if isinstance(found, Problem):
        raise Refused([found])
    return found


def review_again(derived: str) -> Again:
    """The review of a derived file as it was written, and what was edited since. Raises Refused."""
    stored = load_ledger(derived)
    edited = tuple(edits_since(stored, Path(derived)))
    subject = f"{derived}, derived from {', '.join(item['name'] for item in stored.data['files'])}"
    notes = [f"{since(text)}." for text in edited] or ["The derived file is as it was written."]
    review = ledger_review(
        stored.ledger, load_vocabulary(), subject, stored.data["literals"], stored.unmapped, (), notes, stored.data
    )
    return Again(review._replace(edits=tuple(map(visible, remembered(stored.data.get("history", ()))))), edited)


def since(text: str) -> str:
    """A sentence of ``edits_since`` with its head."""
    return text if text.startswith(BROKEN_OFF) else f"Edited since: {text}"


def edits_since(stored: Stored, derived: Path) -> list[str]:
    """Sentences on edits of the derived files since the ledger was written."""
    changed = []
    for item in stored.data.get("outputs", ()):
        path = derived.with_name(item["name"])
        if not path.is_file():  # also a pipe or a device, which has no end
            changed.append(f"{path} is gone")
            continue
        try:
            same = hashlib.sha256(path.read_bytes()).hexdigest() == item["sha256"]
        except OSError:
            changed.append(f"{path} is gone")
            continue
        if not same:
            changed.append(str(path))
    if not changed:
        return []
    left = unfinished(ledger_beside(str(derived)))
    if left:
        return [f"{BROKEN_OFF} ({left[0].name} was left): text and ledger may be of two derivations; derive again"]
    found = _where(stored, derived)
    return found or [f"{name}, outside of all that the map knows" for name in changed]


def _where(stored: Stored, derived: Path) -> list[str]:
    """Which settings and which unmapped lines differ, as far as the key map can still be read."""
    now = _translation(stored, derived)
    if now is None:
        return []
    settings = hand_edits(stored.ledger, now.profile, load_vocabulary())
    lines = {(line.key, line.line): line.text for line in unmapped_lines(now)}
    old = {(line.key, line.line): line.text for line in stored.unmapped}
    texts = [f"line {line}: {key} = {text}" for (key, line), text in lines.items() if old.get((key, line)) != text]
    return settings + texts


def _translation(stored: Stored, derived: Path) -> Translation | None:
    key_map_file = derived.parent / str(stored.data.get("key_map_file", ""))
    if Path(str(stored.data.get("key_map_file", ""))).is_absolute() or not key_map_file.is_file():
        return None  # a stranger's ledger names no device and no pipe
    key_map, _ = load_key_map(key_map_file, str(key_map_file), load_vocabulary())
    if key_map is None:
        return None
    paths: Sequence[Path] = [derived.with_name(item["name"]) for item in stored.data["outputs"]]
    try:
        documents = tuple(read_document(path.read_bytes(), str(path), key_map.habits) for path in paths)
    except OSError:
        return None
    return translate(documents, key_map, load_vocabulary())
