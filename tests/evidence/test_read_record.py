"""Records are strangers' texts: read back as written, closed, bounded, every mistake with its line."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.evidence.load_evidence import LARGEST_FILE, LONGEST_LINE, MOST_RECORDS, load_evidence, parse_evidence
from profilesmith.evidence.read_record import LONGEST_NOTE, read_record
from profilesmith.evidence.record import Record, record_json, record_line
from profilesmith.evidence.tried_mend import TriedMend
from profilesmith.foundation.place import Place
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

PLACE = Place("club/evidence/slow.jsonl", 7)


def parsed(raw: str | bytes) -> Any:
    return parse_evidence(raw.encode() if isinstance(raw, str) else raw, "slow.jsonl", load_vocabulary())


def test_a_record_is_read_back_as_it_was_written(record: Record) -> None:
    line = record_line(record)
    assert line.count("\n") == 1
    assert line.endswith("}\n")
    found, problems = read_record(line, PLACE, load_vocabulary())
    assert problems == []
    assert found == record._replace(place=PLACE)
    assert json.loads(line)["id"] == record.id


def test_troubles_and_mends_are_read_back_as_they_were_written(record: Record) -> None:
    mend = TriedMend(
        "2030-01-30", {"stringing": "poor"}, ("stringing",), {"nozzle.temperature": ("215 °C", "210 °C")}, (), "better"
    )
    whole = record._replace(seen={"stringing": "good"}, mends=(TriedMend(did=("dry the spool",)), mend))
    assert read_record(record_line(whole), PLACE, load_vocabulary()) == (whole._replace(place=PLACE), [])


def test_a_record_from_before_troubles_were_recorded_still_reads() -> None:
    """The line is as the version before wrote it, with its id."""
    line = (
        '{"format": 1, "id": "5b1fd59ae0859933", "date": "2030-01-31", "recipe": "slow", '
        '"version": "1.0.0", "outcome": "worked", '
        '"judged": {"adhesion": "good"}, "facts": {}, "values": {"raft.on": "on"}, "by_hand": '
        '["raft.on"], "mark": "0a1b2c3d"}'
    )
    found, problems = read_record(line, PLACE, load_vocabulary())
    assert problems == []
    assert found is not None
    assert (found.seen, found.mends) == ({}, ())


def test_the_id_is_a_hash_of_all_the_rest(record: Record) -> None:
    changed = (
        record._replace(note="other"),
        record._replace(by="Ada"),
        record._replace(date="2030-02-01"),
        record._replace(outcome="failed"),
        record._replace(version="1.0.1"),
        record._replace(facts={}),
        record._replace(values={}),
        record._replace(judged={}),
        record._replace(mark="00000000"),
        record._replace(seen={"stringing": "fair"}),
        record._replace(mends=(TriedMend(did=("dry the spool",)),)),
        record._replace(mends=(TriedMend(did=("dry the spool",), came="better"),)),
    )
    assert len({record.id, *(item.id for item in changed)}) == len(changed) + 1
    turned = record._replace(facts=dict(reversed(record.facts.items())))
    assert turned.id == record.id, "the order of members says nothing"


WRONG = [
    ({"format": 2}, "newer-format"),
    ({"format": "1"}, "wrong-format"),
    ({"format": True}, "wrong-format"),
    ({"format": 0}, "wrong-format"),
    ({"date": "2030-02-31"}, "value"),
    ({"date": "31.1.2030"}, "value"),
    ({"date": "２０３０-01-31"}, "value"),
    ({"recipe": ""}, "value"),
    ({"recipe": 5}, "wrong-type"),
    ({"recipe": "x" * 81}, "too-long"),
    ({"recipe": "a\u202eb"}, "control"),
    ({"version": "1.0"}, "value"),
    ({"version": "1.0.0\n"}, "control"),
    ({"outcome": "great"}, "value"),
    ({"outcome": ["worked"]}, "value"),
    ({"judged": {"adhesion": "best"}}, "value"),
    ({"judged": {"adhesion": ["good"]}}, "value"),
    ({"judged": {"taste": "good"}}, "unknown-key"),
    ({"judged": []}, "wrong-type"),
    ({"facts": {"machine.name": "Bessie"}}, "unknown-key"),
    ({"facts": {"part.thickness": "2 mm"}}, "unknown-key"),
    ({"facts": {"machine.drive": "belt"}}, "fact-value"),
    ({"facts": {"machine.tube_length": "400"}}, "fact-value"),
    ({"facts": {"machine.tube_length": "9000 m"}}, "fact-value"),
    ({"facts": {"machine.tube_length": 400}}, "value"),
    ({"facts": {"spool.material": "x" * 81}}, "value"),
    ({"facts": {"spool.material": "PLA\x1b[2J"}}, "value"),
    ({"values": {"outer_wall.sped": "40 mm/s"}}, "unknown-key"),
    ({"values": {"outer_wall.speed": "40"}}, "setting-value"),
    ({"values": {"outer_wall.speed": "1e999 mm/s"}}, "setting-value"),
    ({"values": {"outer_wall.speed": "-4 mm/s"}}, "setting-value"),
    ({"values": {"outer_wall.speed": []}}, "value"),
    ({"values": {"outer_wall.speed": ["40 mm/s"] * 65}}, "value"),
    ({"values": {"outer_wall.speed": [["40 mm/s"]]}}, "value"),
    ({"values": {"raft.on": True}}, "value"),
    ({"values": None}, "wrong-type"),
    ({"together": {}}, "value"),
    ({"together": ["x"]}, "value"),
    ({"together": {"x": "1"}}, "value"),
    ({"together": {" ": "1.0.0"}}, "value"),
    ({"together": {"a\u202e": "1.0.0"}}, "value"),
    ({"together": {f"r{number}": "1.0.0" for number in range(40)}}, "value"),
    ({"together": {"x": "1.0.0-" + "a" * 90}}, "value"),
    ({"by_hand": []}, "value"),
    ({"by_hand": "outer_wall.speed"}, "value"),
    ({"by_hand": ["outer_wall.sped"]}, "value"),
    ({"by_hand": [["x"]]}, "value"),
    ({"by_hand": ["raft.on", "raft.on"]}, "value"),
    ({"seen": {}}, "value"),
    ({"seen": ["stringing"]}, "value"),
    ({"seen": {"stringing": "bad"}}, "value"),
    ({"seen": {"stringing": ["poor"]}}, "value"),
    ({"seen": {"a\u202e": "poor"}}, "value"),
    ({"seen": {f"t{number}": "good" for number in range(61)}}, "value"),
    ({"mends": []}, "value"),
    ({"mends": {"did": ["dry the spool"]}}, "value"),
    ({"mends": [{"did": ["dry the spool"]}] * 13}, "value"),
    ({"mends": ["dry the spool"]}, "value"),
    ({"mends": [{"came": "better"}]}, "value"),
    ({"mends": [{"did": []}]}, "value"),
    ({"mends": [{"did": ["dry", "dry"]}]}, "value"),
    ({"mends": [{"did": ["dry\n"]}]}, "value"),
    ({"mends": [{"did": ["dry"], "came": ""}]}, "value"),
    ({"mends": [{"did": ["dry"], "came": "great"}]}, "value"),
    ({"mends": [{"did": ["dry"], "date": "2030-02-31"}]}, "value"),
    ({"mends": [{"did": ["dry"], "saw": {"stringing": "bad"}}]}, "value"),
    ({"mends": [{"did": ["dry"], "troubles": "stringing"}]}, "value"),
    ({"mends": [{"did": ["dry"], "printer": "Bessie"}]}, "unknown-key"),
    ({"mends": [{"changes": {}}]}, "value"),
    ({"mends": [{"changes": {"bed.temp": ["50 °C", "60 °C"]}}]}, "unknown-key"),
    ({"mends": [{"changes": {"bed.temperature": ["50 °C"]}}]}, "value"),
    ({"mends": [{"changes": {"bed.temperature": ["50 °C", 60]}}]}, "value"),
    ({"mends": [{"changes": {"bed.temperature": ["50 °C", "60"]}}]}, "setting-value"),
    ({"mends": [{"changes": {"bed.temperature": ["50 °C", "900 °C"]}}]}, "setting-value"),
    ({"mark": "xyz"}, "value"),
    ({"note": "two\nlines"}, "control"),
    ({"note": "x" * (LONGEST_NOTE + 1)}, "too-long"),
    ({"note": " "}, "value"),
    ({"by": "\u2067hidden"}, "control"),
    ({"note": "\ud800"}, "control"),
    ({"email": "a@b"}, "unknown-key"),
    ({"id": "0" * 16}, "id"),
    ({"id": None}, "id"),
    ({"note": "changed since"}, "id"),
]


@pytest.mark.parametrize(("change", "code"), WRONG, ids=lambda item: str(item)[:40] if isinstance(item, dict) else item)
def test_what_does_not_belong_is_refused_with_its_line(record: Record, change: dict[str, Any], code: str) -> None:
    found, problems = read_record(json.dumps({**record_json(record), **change}), PLACE, load_vocabulary())
    assert found is None
    assert problems[0].code == code
    assert all((problem.place.file, problem.place.line) == PLACE[:2] for problem in problems)
    assert all(len(problem.message) < 400 for problem in problems)


@pytest.mark.parametrize(
    "member", ["format", "id", "date", "recipe", "version", "outcome", "judged", "facts", "values", "mark"]
)
def test_nothing_may_be_left_out(record: Record, member: str) -> None:
    data = record_json(record)
    del data[member]
    found, problems = read_record(json.dumps(data), PLACE, load_vocabulary())
    assert found is None
    assert problems


def test_an_edited_record_is_not_handed_the_id_that_would_fit(record: Record) -> None:
    edited = record._replace(note="Another note.")
    _, problems = read_record(json.dumps({**record_json(edited), "id": record.id}), PLACE, load_vocabulary())
    assert edited.id not in str(problems[0])
    assert "Put the record back as it was, or add a new one" in problems[0].hint


def test_what_was_printed_together_and_edited_is_read_back(record: Record) -> None:
    whole = record._replace(together={"part-soft": "1.2.0"}, by_hand=("outer_wall.speed",))
    found, problems = read_record(record_line(whole), PLACE, load_vocabulary())
    assert problems == []
    assert found == whole._replace(place=PLACE)
    assert len({record.id, whole.id, whole._replace(together={}).id, whole._replace(by_hand=()).id}) == 4
    assert "together" not in record_json(record)


HOSTILE = [
    "",
    "{",
    "[1]",
    "null",
    "7",
    '"text"',
    "NaN",
    '{"format": 1e999}',
    '{"format": NaN}',
    '{"format": ' + "9" * 5000 + "}",
    "[" * 15000,
    '{"a":' * 3000,
    '{"format": 1, "format": 1}',
    "<<<<<<< HEAD",
    "=======",
    ">>>>>>> theirs",
    "\x00",
]


@pytest.mark.parametrize("line", HOSTILE, ids=lambda line: repr(line[:12]))
def test_a_hostile_line_is_a_problem_and_no_traceback(line: str) -> None:
    found, problems = read_record(line, PLACE, load_vocabulary())
    assert found is None
    assert len(problems) == 1


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=12),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
MEMBERS = st.sampled_from(
    [
        "format",
        "id",
        "date",
        "recipe",
        "version",
        "outcome",
        "judged",
        "facts",
        "values",
        "mark",
        "note",
        "by",
        "together",
        "by_hand",
        "else",
    ]
)


@given(st.dictionaries(MEMBERS, JSON, max_size=6))
def test_any_json_is_read_or_refused(change: dict[str, Any]) -> None:
    record = Record("2030-01-31", "slow", "1.0.0", "worked", {}, {}, {}, "0a1b2c3d")
    found, problems = read_record(json.dumps({**record_json(record), **change}), PLACE, load_vocabulary())
    assert (found is None) == bool(problems)


def test_repeated_lines_count_once(record: Record) -> None:
    other = record._replace(mark="ffffffff")
    loaded = parsed(record_line(record) + record_line(other) + "\n" + record_line(record))
    assert [item.id for item in loaded.records] == [record.id, other.id]
    assert loaded.repeated == 1
    assert loaded.problems == ()


def test_other_line_ends_a_byte_order_mark_and_a_missing_last_end_are_read(record: Record) -> None:
    line = record_line(record).rstrip("\n")
    for raw in (line, f"{line}\r\n", f"\ufeff{line}\n"):
        assert [item.id for item in parsed(raw).records] == [record.id]


def test_every_mistake_has_its_line_and_good_records_stay(record: Record) -> None:
    loaded = parsed(f"{record_line(record)}nonsense\n\n<<<<<<< ours\n")
    assert [problem.place.line for problem in loaded.problems] == [2, 4]
    assert len(loaded.records) == 1


def test_sizes_and_counts_are_bounded(record: Record) -> None:
    assert [problem.code for problem in parsed(b" " * (LARGEST_FILE + 1)).problems] == ["too-large"]
    assert [problem.code for problem in parsed('{"a": "' + "x" * LONGEST_LINE + '"}').problems] == ["too-long"]
    assert len(parsed("{}\n" * 1000).problems) <= 101
    assert parsed(b"\xff\xfe").problems[0].code == "not-utf8"
    many = parsed('{"format": 1}\n' * (MOST_RECORDS + 5)).problems
    assert many[-1].code == "too-many"


def test_a_file_that_is_not_there(tmp_path: Any) -> None:
    assert load_evidence(tmp_path / "none.jsonl", "none.jsonl", load_vocabulary()).problems[0].code == "no-file"
    assert load_evidence(tmp_path, "folder", load_vocabulary()).problems[0].code == "is-folder"
