"""The words map: a maker's own TOML on what remarks and words mean in their motion files.

No program's remarks are known here: what a line of the file says, and which kind of line that is, stands in the map
alone.
"""

from collections.abc import Mapping

from profilesmith.foundation.problem import Problem, did_you_mean
from profilesmith.foundation.quantity import read_quantity
from profilesmith.foundation.toml_table import TomlTable, TooManyMistakes, parse_toml
from profilesmith.motion.doubt import EVERYTHING, Subject
from profilesmith.motion.figures import PREPARATION
from profilesmith.motion.practice import Practice

KINDS: Mapping[str, str] = {
    "outer_wall": "walls that are seen",
    "inner_wall": "walls behind them",
    "infill": "filling",
    "top": "closing layers above",
    "bottom": "closing layers below",
    "closing": "closing layers, above and below by one remark",
    "bridge": "lines over air",
    "support": "support",
    "support_contact": "dense layers between support and part",
    "raft": "raft",
    "brim": "brim",
    "skirt": "skirt",
    "other": "anything else that is laid",
    PREPARATION: "strokes that prime the nozzle: no part",
}
FORM = "words map"
_MODES = ("absolute", "relative")


def read_words_map(raw: bytes, name: str) -> tuple[Practice | None, list[Problem]]:
    """The map of a file's bytes, or all of its mistakes in one run. name: for messages."""
    top, problems = parse_toml(raw, name, FORM)
    if top is None:
        return None, problems
    try:
        practice = _read(top)
    except TooManyMistakes:
        return None, top.file.problems
    return (None if top.file.problems else practice), top.file.problems


def _read(top: TomlTable) -> Practice:
    head, machine = top.table("words"), top.table("practice")
    for key in ("name", "about"):
        head.text(key)
    head.done()
    practice = _machine(machine)
    machine.done()
    lines = _lines(top)
    words = _words(top)
    top.whole("format")
    top.done()
    return practice._replace(lines=lines, words=words)


def _machine(table: TomlTable) -> Practice:
    diameter = table.text("filament_diameter")
    size = read_quantity(diameter, "length") if diameter else None
    if isinstance(size, str):
        table.complain("wrong-value", f"{size}.", "filament_diameter", 'Write filament_diameter = "1.75 mm".')
        size = None
    return Practice(
        dwell_p={"": None, "s": 1.0, "ms": 0.001}.get(_one_of(table, "dwell_p", ("s", "ms"))),
        absolute=_absolute(table, "distance"),
        strand_absolute=_absolute(table, "strand"),
        resets_strand=table.flag("distance_sets_strand") if table.has("distance_sets_strand") else None,
        rapid_at_feed=table.flag("rapid_at_feed") if table.has("rapid_at_feed") else None,
        run_slashed={"": None, "run": True, "skip": False}.get(_one_of(table, "block_delete", ("run", "skip"))),
        filament_diameter_mm=None if size is None else float(size),
    )


def _absolute(table: TomlTable, key: str) -> bool | None:
    said = _one_of(table, key, _MODES)
    return None if not said else said == "absolute"


def _one_of(table: TomlTable, key: str, words: tuple[str, ...]) -> str:
    said = table.text(key)
    if said and said not in words:
        table.complain("wrong-value", f"{said!r} is not known here.", key, f"Write one of {', '.join(words)}.")
        return ""
    return said


def _lines(top: TomlTable) -> dict[str, str]:
    kinds: dict[str, str] = {}
    for table in top.tables("line"):
        kind = table.text("is", required=True)
        says = table.texts("says", required=True) or ()
        table.done()
        if kind and kind not in KINDS:
            hint = did_you_mean(kind, KINDS, f"Known: {', '.join(KINDS)}.")
            table.complain("unknown-kind", f"{kind!r} is no kind of line.", "is", hint)
        for text in says:
            if kinds.get(text.strip(), kind) != kind:
                message = f"{text!r} is said of two kinds of line: {kinds[text.strip()]} and {kind}."
                table.complain("said-twice", message, "says", "Keep one of them.")
            kinds[text.strip()] = kind
    return kinds


def _words(top: TomlTable) -> dict[str, tuple[Subject, ...]]:
    subjects: dict[str, tuple[Subject, ...]] = {}
    for table in top.tables("word"):
        word = table.text("word", required=True)
        changes = table.texts("changes", required=True) or ()
        table.done()
        for subject in changes:
            if subject not in EVERYTHING:
                hint = did_you_mean(subject, EVERYTHING, f"Known: {', '.join(EVERYTHING)}.")
                table.complain("unknown-subject", f"{subject!r} is no subject of a figure.", "changes", hint)
        subjects[word.strip()] = tuple(subject for subject in EVERYTHING if subject in changes)
    return subjects
