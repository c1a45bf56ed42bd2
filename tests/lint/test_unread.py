"""A recipe that does not read: one run shows its mistakes, each once."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.foundation.toml_mistakes import LARGEST_FILE
from profilesmith.lint.head_commit import HeadCommit
from profilesmith.lint.lint_file import lint_file
from profilesmith.lint.lint_library import lint_folder
from profilesmith.lint.names import names_around
from profilesmith.workflows.library.new_library import new_library

HEAD = 'format = 1\n\n[recipe]\nname = "own"\nversion = "1.0.0"\ntitle = "Own"\nlicence = "CC0-1.0"\n'
WHY, SOURCE = 'why = "A soft strand wants it."\n', 'source = "common practice"\n'
RULE = '\n[[rule]]\nsetting = "outer_wall.speed"\ncap = "40 mm/s"\n'
EXAMPLE = '\n[[example]]\ngiven = { "outer_wall.speed" = "80 mm/s" }\nexpect = { "outer_wall.speed" = "40 mm/s" }\n'
BROKEN = '\n[[rule]]\nsetting = "outer_wall.speed"\ncap = 40\n' + WHY + SOURCE


def told(folder: Path, text: str) -> list[tuple[str, int | None]]:
    path = folder / "own.toml"
    path.write_text(text, encoding="utf-8")
    return [
        (item.number, item.line)
        for item in lint_file(path, "recipe", names_around(path)._replace(head=HeadCommit({})))
        if item.severity != "skipped"
    ]


def test_all_at_once(tmp_path: Path) -> None:
    """An unknown setting, a wrong version, no licence, another name, a rule without reason and source, heat untold, no
    example.
    """
    text = HEAD.replace('"1.0.0"', '"1"').replace('licence = "CC0-1.0"\n', "").replace('"own"', '"other"')
    hot = '\n[[rule]]\nsetting = ["nozzle.temperature", "nozle.temperature"]\naim = "320 °C"\n'
    found = told(tmp_path, text + hot)
    assert found == [
        ("R110", 3),
        ("R501", 3),
        ("R112", 4),
        ("R102", 5),
        ("R201", 8),
        ("R202", 8),
        ("R401", 8),
        ("R402", 8),
        ("R100", 9),
    ]


def test_what_reads_is_not_blamed(tmp_path: Path) -> None:
    """The one mistake, and nothing that follows from it: no unused input, no example that fails."""
    asked = '\n[inputs.most]\nkind = "speed"\nask = "How fast at most?"\n'
    odd = '\n[[rule]]\nsetting = "outer_wall.sped"\ncap = { input = "most" }\n' + WHY + SOURCE
    assert told(tmp_path, HEAD + asked + odd + EXAMPLE) == [("R100", 14)]


@pytest.mark.parametrize(
    ("old", "new", "number"),
    [
        ('title = "Own"', "title = 3", "R100"),
        ('title = "Own"', 'titel = "Own"', "R103"),
        ('licence = "CC0-1.0"', "licence = true", "R100"),
        ('licence = "CC0-1.0"', 'lisence = "CC0-1.0"', "R103"),
        ('name = "own"\n', "", "R100"),
        ('name = "own"', "name = 3", "R100"),
        ("why =", "wy =", "R103"),
        (WHY, "why = 3\n", "R100"),
        ("source =", "soruce =", "R103"),
        (SOURCE, "source = [3]\n", "R100"),
        ("[[example]]", "[[exmaple]]", "R103"),
        ("[[example]]", "[example]", "R100"),
        ("[[rule]]", "[rule]", "R100"),
    ],
)
def test_what_the_loader_spoke_of_is_not_told_twice(tmp_path: Path, old: str, new: str, number: str) -> None:
    text = HEAD + RULE + WHY + SOURCE + EXAMPLE
    assert told(tmp_path, text) == []
    assert old in text
    found = told(tmp_path, text.replace(old, new, 1))
    assert {item for item, _ in found} == {number}, found


def test_another_rule_without_the_same_key_is_told(tmp_path: Path) -> None:
    """A slip in the first rule hides nothing of the second."""
    found = told(
        tmp_path,
        HEAD + RULE + WHY + SOURCE.replace("source", "soruce") + RULE.replace("outer", "inner") + WHY + EXAMPLE,
    )
    assert [item for item in found if item[0] == "R202"] == [("R202", 15)]


def test_a_broken_rule_is_told_once(tmp_path: Path) -> None:
    assert told(tmp_path, HEAD + BROKEN + EXAMPLE) == [("R100", 11)]


def test_too_many_mistakes_and_no_toml(tmp_path: Path) -> None:
    assert len(told(tmp_path, HEAD + "".join(f"k{number} = 1\n" for number in range(300)))) == 201
    assert told(tmp_path, "format = 1\n[recipe[\n") == [("R100", 2)]
    assert [number for number, _ in told(tmp_path, HEAD.replace("format = 1", "format = 2") + RULE)] == ["R101"]


def test_a_missing_format_hides_nothing(tmp_path: Path) -> None:
    found = told(tmp_path, HEAD.replace("format = 1", "") + RULE + WHY + BROKEN + EXAMPLE)
    assert sorted(number for number, _ in found) == ["R100", "R101", "R202"]


@pytest.mark.parametrize(("kind", "number"), [("recipe", "R100"), ("key map", "K100"), ("facts", "F100")])
def test_no_more_is_read_than_a_file_may_have(kind: str, number: str, tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"format = 1\n" + b"#\n" * LARGEST_FILE)
    found = lint_file(path, kind, names_around(path))
    assert [(item.number, "larger than" in item.message) for item in found] == [(number, True)]


def test_files_are_read_through_the_bounded_reader_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """``Path.read_bytes`` and ``read_text`` have no end: no rule reads a library's own file with them."""
    new_library(tmp_path / "club", "", "CC0-1.0")
    assert not [
        item for item in lint_folder(tmp_path / "club") if item.severity == "error"
    ]  # data of the package are read by now

    def never(path: Path, *more: object, **options: object) -> bytes:
        raise AssertionError(f"{path} was read without a bound")

    monkeypatch.setattr(Path, "read_bytes", never)
    monkeypatch.setattr(Path, "read_text", never)
    assert not [item for item in lint_folder(tmp_path / "club") if item.severity == "error"]
