"""A stored ledger shown again, and edits since then found and named with the rule that they overrule."""

import hashlib
import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from profilesmith.foundation.problem import Refused
from profilesmith.ledger.packed import pack
from profilesmith.reports.ages import age_sentence
from profilesmith.review.render import RENDERERS, render
from profilesmith.workflows.check import check
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.derive import derive, write
from profilesmith.workflows.rederive.check import check_all
from profilesmith.workflows.rederive.rederive import rederive
from profilesmith.workflows.request import Request
from profilesmith.workflows.review import review_again
from tests.shipped import version


@pytest.fixture
def soft(tmp_path: Path) -> Path:
    run_demo(str(tmp_path / "heron"))
    return tmp_path / "heron" / "soft.settings"


def test_untouched(soft: Path) -> None:
    again = review_again(str(soft))
    assert again.edited == ()
    assert "as it was written" in again.review.notes[0]


@pytest.mark.parametrize("form", ["terminal", "markdown", "page"])
def test_shows_the_same_changes_as_before(soft: Path, form: str, tmp_path: Path) -> None:
    first = run_demo(str(tmp_path / "again")).review
    again = review_again(str(soft)).review
    before = [
        (group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes])
        for group in first.groups
    ]
    after = [
        (group.title, [(change.setting, change.base, change.derived, change.reasons) for change in group.changes])
        for group in again.groups
    ]
    assert before == after
    assert form in RENDERERS
    assert "support.density" in render(again, form)


def test_an_edit_is_named_with_the_rule_that_it_overrules(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    assert "feed = 2400" in text
    soft.write_text(
        text.replace("feed = 2400", "feed = 2700").replace("lid_lamp = 60", "lid_lamp = 61"), encoding="utf-8"
    )
    edited = review_again(str(soft)).edited
    wall = next(line for line in edited if line.startswith("outer_wall.speed"))
    assert "40 mm/s → 45 mm/s" in wall
    assert f"flexible-pla {version('flexible-pla')}, rule 1: at most 40 mm/s" in wall
    assert any("lid_lamp 60 → 61" in line for line in edited)


def test_an_edit_that_the_map_does_not_know(soft: Path) -> None:
    number = soft.read_bytes().count(b"\n") + 1
    soft.write_bytes(soft.read_bytes() + b"# a remark\n")
    assert review_again(str(soft)).edited == (f'1 line was put in ({soft}): {number} "# a remark"',)


def edit(soft: Path, *pairs: tuple[str, str]) -> tuple[str, ...]:
    text = soft.read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    soft.write_text(text, encoding="utf-8")
    return review_again(str(soft)).edited


def test_lines_that_moved_down_are_not_edited(soft: Path) -> None:
    edited = edit(
        soft,
        ("# Heron workshop", "# mine\n# Heron workshop"),
        ("\npad_slabs = 3", "\npad_slabs = 4"),
        ("tags = ", "  tags = "),
    )
    assert list(edited) == [
        f"raft.layers 3 → 4 ({soft}:84); it meets flexible-pla {version('flexible-pla')}, rule 18: at least 2",
        f'1 line was put in ({soft}): 1 "# mine"',
        f'1 line was changed around their values ({soft}): 12 "tags = rigid,everyday,heron"',
    ]


def test_only_a_broken_rule_is_overruled_and_what_follows_says_so(soft: Path) -> None:
    edited = edit(
        soft,
        ("only_past = 1.5", "only_past = 2"),
        ("feed = 2400", "feed = 2700"),
        ("\npair = 215/65", "\npair = 215/60"),
    )
    told = {line.split()[0]: line for line in edited}
    assert "1.5 mm → 2 mm" in told["retraction.minimum_travel"]
    assert (
        f"it meets flexible-pla {version('flexible-pla')}, rule 14: at least 1.5 mm"
        in told["retraction.minimum_travel"]
    )
    assert f"it meets flexible-pla {version('flexible-pla')}, rule 6: 40 °C to 65 °C" in told["bed.temperature"]
    assert f"overrules flexible-pla {version('flexible-pla')}, rule 1: at most 40 mm/s" in told["inner_wall.speed"]
    assert told["inner_wall.speed"].endswith("it is written relative to outer_wall.speed")
    assert not any("210" in line or "first_pair" in line for line in edited)


def test_lines_taken_out_and_more_than_a_few(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    edited = edit(soft, ("lid_lamp = 60\n", ""), ("# Heron workshop", "# 1\n# 2\n# 3\n# 4\n# Heron workshop"))
    assert f'4 lines were put in ({soft}): 1 "# 1", 2 "# 2", 3 "# 3" and 1 more' in edited
    assert f'1 line was taken out ({soft}): {text.splitlines().index("lid_lamp = 60") + 1} "lid_lamp = 60"' in edited
    assert len(edited) == 2


def test_a_ledger_without_the_text_matches_keys_by_name(soft: Path) -> None:
    ledger = soft.with_name("soft.settings.ledger.json")
    data = json.loads(ledger.read_text(encoding="utf-8"))
    del data["made"]
    ledger.write_text(json.dumps(data), encoding="utf-8")
    edited = edit(
        soft,
        ("# Heron workshop", "# mine\n# Heron workshop"),
        ("lid_lamp = 60", "lid_lamp = 61"),
        ("edition = 14\n", "editor = 14\n"),
    )
    assert set(edited) == {
        f"[desk] lid_lamp 60 → 61 ({soft}:181)",
        f"[sheet] editor = 14 was put in ({soft}:8)",
        "[sheet] edition = 14 was taken out",
    }


def test_without_its_map_where_is_not_known(soft: Path) -> None:
    (soft.parent / "keymap.toml").unlink()
    soft.write_bytes(soft.read_bytes() + b"# a remark\n")
    assert review_again(str(soft)).edited == (f"{soft}; where is not known, as its key map cannot be read",)


def test_a_re_derived_file_is_held_against_its_own_text(soft: Path) -> None:
    edit(soft, ("\npad_slabs = 3", "\npad_slabs = 4"), ("lid_lamp = 60", "lid_lamp = 61"))
    again = soft.with_name("again.settings")
    write(rederive([str(soft)], Request((), ""), lambda decision: "").derivation, str(again))
    assert review_again(str(again)).edited == ()
    assert edit(again, ("lid_lamp = 61", "lid_lamp = 62")) == (f"[desk] lid_lamp 61 → 62 ({again}:180)",)


def test_gone_or_damaged(soft: Path) -> None:
    with pytest.raises(Refused, match="no ledger"):
        review_again(str(soft.parent / "base.settings"))
    ledger = soft.with_name("soft.settings.ledger.json")
    whole = ledger.read_text(encoding="utf-8")
    for broken in (
        whole[:200],
        whole.replace('"format": 2', '"format": 9', 1),
        whole.replace('"changed"', '"chnged"'),
        "[]",
    ):
        ledger.write_text(broken, encoding="utf-8")
        with pytest.raises(Refused):
            review_again(str(soft))


def change_ledger(soft: Path, change: Callable[[dict[str, Any]], None]) -> None:
    path = soft.with_name("soft.settings.ledger.json")
    data = json.loads(path.read_text(encoding="utf-8"))
    change(data)
    path.write_text(json.dumps(data), encoding="utf-8")


def faster(soft: Path, ledger_too: bool) -> None:
    """An outer wall of 120 mm/s under the hash that fits it; its ledger's copy and values as well, or not."""
    raw = soft.read_bytes().replace(b"feed = 2400", b"feed = 7200")
    soft.write_bytes(raw)

    def change(data: dict[str, Any]) -> None:
        data["outputs"][0]["sha256"] = hashlib.sha256(raw).hexdigest()
        if ledger_too:
            data["made"] = [pack(raw)]
            for name, value in data["derived"].items():
                data["derived"][name] = 120 if value == 40 else 60 if value == 20 else value
            for row in data["rows"]:
                row["derived"] = data["derived"].get(row["setting"], row["derived"])

    change_ledger(soft, change)


def test_a_hash_that_fits_an_edited_text_is_not_believed(soft: Path) -> None:
    faster(soft, ledger_too=False)
    again = review_again(str(soft))
    assert any("keeps another text" in text for text in again.edited)
    assert any("outer_wall.speed 40 mm/s → 120 mm/s" in text for text in again.edited)
    assert not any("as it was written" in note for note in again.review.notes)
    (age,) = check_all([str(soft)], (), None)
    assert age.state == "unknown"


def test_a_row_that_its_own_recipe_contradicts_is_named(soft: Path) -> None:
    faster(soft, ledger_too=True)
    edited = review_again(str(soft)).edited
    assert any(
        "outer_wall.speed is 120 mm/s, which flexible-pla" in text and "at most 40 mm/s" in text for text in edited
    )
    (age,) = check_all([str(soft)], (), None)
    assert age.state == "unknown"


def test_a_row_that_says_another_value_than_its_profile(soft: Path) -> None:
    def change(data: dict[str, Any]) -> None:
        row = next(row for row in data["rows"] if row["setting"] == "outer_wall.speed" and row["status"] == "changed")
        row["derived"] = 30

    change_ledger(soft, change)
    assert any("the row of outer_wall.speed says 30 mm/s" in text for text in review_again(str(soft)).edited)


def test_a_limit_that_the_text_breaks_is_told(soft: Path) -> None:
    """A nozzle beyond the machine's limit, in a text, a copy, a profile and rows that all agree."""
    raw = soft.read_bytes()
    assert b"pair = 215/65" in raw
    raw = raw.replace(b"pair = 215/65", b"pair = 290/65")
    soft.write_bytes(raw)

    def change(data: dict[str, Any]) -> None:
        data["outputs"][0]["sha256"] = hashlib.sha256(raw).hexdigest()
        data["made"], data["recipes"], data["rows"] = [pack(raw)], [], []
        data["derived"] = {name: 290 if value == 215 else value for name, value in data["derived"].items()}

    change_ledger(soft, change)
    limit = next(item for item in check(check_request(soft)).data["findings"] if item["verdict"] == "stop")
    assert any(limit["title"] in text for text in review_again(str(soft)).edited)


def check_request(soft: Path) -> Request:
    folder = soft.parent
    facts = tuple(str(folder / name) for name in ("machine.toml", "spool.toml"))
    return Request(bases=(str(soft),), key_map=str(folder / "keymap.toml"), facts=facts)


def test_no_text_of_a_ledger_reaches_the_reader_as_a_command(soft: Path) -> None:
    """Every text in it, one after the other, gets an escape and a mark that turns the direction of text."""
    hostile = "\x1b[31m\u202e"
    path = soft.with_name("soft.settings.ledger.json")
    clean = path.read_text(encoding="utf-8")
    soft.with_name("keymap.toml").unlink()  # what the text itself says is not asked here
    places: dict[object, list[tuple[Any, ...]]] = {}
    for place in sorted(texts_in(json.loads(clean)), key=str):
        places.setdefault(place[-1], []).append(place)
    shown = 0
    for group in places.values():
        data = json.loads(clean)
        for *way, last in group:
            holder = data
            for step in way:
                holder = holder[step]
            holder[last] += hostile
        path.write_text(json.dumps(data), encoding="utf-8")
        try:
            again = review_again(str(soft))
        except Refused:
            continue
        shown += len(group)
        for form in ("terminal", "markdown", "page", "checklist"):
            assert not set(hostile[::5]) & set(render(again.review, form) + "".join(again.edited)), (group, form)
    assert shown > 40


def texts_in(value: Any, way: tuple[Any, ...] = ()) -> set[tuple[Any, ...]]:
    """The place of every text, of a list only those of its first item."""
    if isinstance(value, str):
        return {way}
    items = value.items() if isinstance(value, dict) else enumerate(value[:1]) if isinstance(value, list) else ()
    return {found for name, item in items for found in texts_in(item, (*way, name))}


def test_a_run_that_was_broken_off_is_told_by_re_derivation_too(soft: Path) -> None:
    text = soft.read_text(encoding="utf-8")
    soft.write_text(text.replace("feed = 2400", "feed = 2700"), encoding="utf-8")
    soft.with_name(".soft.settings.ledger.json.x1.part").write_bytes(b"{")
    (age,) = check_all([str(soft)], (), None)
    assert age.state == "unknown"
    assert "Broken off" in age_sentence(age)
    with pytest.raises(Refused) as refused:
        rederive([str(soft)], Request(bases=(str(soft.with_name("base.settings")),), key_map=""), lambda decision: "")
    assert [problem.code for problem in refused.value.problems] == ["broken-off"]


@pytest.mark.parametrize("number", [1, 2])
def test_a_ledger_without_facts(number: int, soft: Path) -> None:
    def change(data: dict[str, Any]) -> None:
        data["format"] = number
        del data["facts"]

    change_ledger(soft, change)
    request = Request(bases=(str(soft.with_name("base.settings")),), key_map="")
    with pytest.raises(Refused):
        rederive([str(soft)], request, lambda decision: "")


@pytest.mark.skipif(os.name == "nt", reason="names are text there")
def test_names_that_are_no_utf8(soft: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(soft.parent)
    base, out = os.fsdecode(b"base-\xff.settings"), os.fsdecode(b"soft-\xff.settings")
    Path("base.settings").rename(base)
    made = derive(Request(bases=(base,), key_map="keymap.toml", recipes=("flexible-pla",)))
    write(made, out)
    again = review_again(out)
    assert again.edited == ()
    assert again.review.subject.isprintable()
    (age,) = check_all([out], (), None)
    assert age.state == "current"
