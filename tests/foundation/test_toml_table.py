"""Strict reading of our TOML: all mistakes of a file in one run, each with its line. Outside check: where tomlkit, a
second TOML reader, finds a key is where ours says that it stands."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
import tomlkit

from profilesmith.foundation.read_file import read_toml
from profilesmith.foundation.toml_lines import index_lines, line_of
from profilesmith.foundation.toml_table import TomlFile, TomlTable, parse_toml

TEXT = '''format = 1
# [decoy]
[head]
name = "x"   # name = 2
"quoted key" = 1
about = """
[not.a.table]
name = "no"
"""
[[rule]]
setting = [
  "a",
  "b = c",
]
cap = "1"
[rule.when]
"machine.drive" = "direct"
[[rule]]
cap = { of = "x" }
'''


def table(text: str) -> TomlTable:
    found, problems = parse_toml(text.encode(), "f.toml", "recipe")
    assert found is not None, problems
    return found


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("format",), 1),
        (("head",), 3),
        (("head", "name"), 4),
        (("head", "quoted key"), 5),
        (("head", "about"), 6),
        (("rule", 0), 10),
        (("rule", 0, "setting"), 11),
        (("rule", 0, "cap"), 15),
        (("rule", 1), 18),
        (("rule", 1, "cap"), 19),
        (("rule", 1, "cap", "of"), 19),
        (("rule", 1, "missing"), 18),
        (("nowhere",), None),
    ],
)
def test_lines_of_tables_and_keys(path: tuple[str | int, ...], line: int | None) -> None:
    assert line_of(index_lines(TEXT), path) == line


def test_a_table_below_the_last_rule() -> None:
    assert line_of(index_lines(TEXT), ("rule", 0, "when", "machine.drive")) == 17


def test_every_key_at_a_line_start_is_indexed_as_tomlkit_reads_it() -> None:
    """Every path that we give a line exists in tomlkit's own reading of the text."""
    document = tomlkit.parse(TEXT).unwrap()
    for path in index_lines(TEXT):
        found: object = document
        for step in path:
            found = found[step]  # type: ignore[index]


@pytest.mark.parametrize(
    "text",
    [
        'format = 1\n[a]\nx = [\n  ["p", "q"]\n]\ny = 1\n',
        'format = 1\n[a]\nx = 1 # """\ny = 1\n',
    ],
)
def test_lines_behind_odd_texts(text: str) -> None:
    assert line_of(index_lines(text), ("a", "y")) == text.split("\n").index("y = 1") + 1


SHIPPED = sorted((Path(__file__).parents[2] / "recipes").rglob("*.toml"))


@pytest.mark.parametrize(
    "text",
    [
        TEXT,
        *(path.read_text(encoding="utf-8") for path in SHIPPED),
        "format = 1\r\n[[rule]]\r\n[[rule]] \t\r\ncap = 1\r\n",
        "format = 1\n[[ rule ]]\n[[rule]]\n  [[rule]]\n",
        "format = 1\n[[rule]] # the first\n[['rule']]\n[[rule]]\n",
        "format = 1\nrule = [\n{},\n{}]\n",
        "format = 1\n[[rule]]\n[[rule.when]]\n[[rule.when]]\n[[rule]]\n",
        'format = 1\n[[ rule ]]\nwhy = """\n[[rule]]\n"""\n',
        "format = 1\n[[ rule ]]\nwhy = '''\n[[rule]]\n'''\n",
    ],
)
def test_tables_of_an_array_stand_where_the_index_says(text: str) -> None:
    """The short way to a rule's or a binding's line, against the long one."""
    content, lines = tomlkit.parse(text).unwrap(), index_lines(text)
    for key, items in content.items():
        for number in range(len(items) if isinstance(items, list) else 0):
            assert TomlFile("f.toml", text, content).place((key, number)).line == line_of(lines, (key, number))


@pytest.mark.parametrize(
    "text",
    [
        *(path.read_text(encoding="utf-8") for path in SHIPPED),
        "[spool]\r\nwidth = 1\r\nwidth_of = 2\r\n",
        "[spool]\nwindow = [\n  1,\n]\nwidth = 1\n",
        "[other]\nwidth = 1\n[spool] # mine\nwidth = 2\n[spool.more]\nwidth = 3\n",
        "[spool]\n'width' = 2\n  depth = 1\nheight=3\n[more]\nwidth = 3\n",
        'spool = { width = 1 }\n[more]\ntext = """\n[spool]\nwidth = 2\n"""\n',
        "[spool.inner]\nwidth = 2\n[spool]\nwidth = 1\n",
    ],
)
def test_keys_of_a_table_stand_where_the_index_says(text: str) -> None:
    """The short way to a fact's line, against the long one."""
    content, lines = tomlkit.parse(text).unwrap(), index_lines(text)
    for name, table in content.items():
        for key in table if isinstance(table, dict) else ():
            assert TomlFile("f.toml", text, content).place((name, key)).line == line_of(lines, (name, key)), (name, key)


def test_the_short_way_is_taken_for_what_ships(monkeypatch: pytest.MonkeyPatch) -> None:
    text = next(path for path in SHIPPED if path.name == "flexible-pla.toml").read_text(encoding="utf-8")
    lines = index_lines(text)
    read = table(text)
    monkeypatch.setattr("profilesmith.foundation.toml_table.index_lines", lambda text: {})
    assert read.file.place(("rule", 3)).line == lines["rule", 3]
    assert read.file.place(("rule", 3, "cap")).line is None, "a key of it is looked up in the index"


def test_typed_values() -> None:
    top = table('format = 1\na = "x"\nb = true\nc = 3\nd = ["x", "y"]\ne = "z"\n[f]\n')
    assert (top.text("a"), top.flag("b"), top.whole("c"), top.texts("d"), top.texts("e")) == (
        "x",
        True,
        3,
        ("x", "y"),
        ("z",),
    )
    assert (top.text("none", "default"), top.flag("none"), top.whole("none"), top.texts("none")) == (
        "default",
        False,
        None,
        None,
    )
    top.table("f")
    top.raw("format")
    top.done()
    assert top.file.problems == []


@pytest.mark.parametrize(
    ("value", "ask"),
    [
        ("3", lambda top: top.text("a")),
        ("true", lambda top: top.text("a")),
        ('"x"', lambda top: top.flag("a")),
        ("1", lambda top: top.flag("a")),
        ("true", lambda top: top.whole("a")),
        ("1.5", lambda top: top.whole("a")),
        ('["x", 1]', lambda top: top.texts("a")),
        ("2024-01-01", lambda top: top.text("a")),
        ('"x"', lambda top: top.table("a")),
        ("[1]", lambda top: list(top.tables("a"))),
        ("nan", lambda top: top.whole("a")),
        ("{}", lambda top: top.text("a")),
    ],
)
def test_a_value_of_another_type_is_refused_with_its_line(value: str, ask: Callable[[TomlTable], object]) -> None:
    top = table(f"format = 1\n\na = {value}\n")
    ask(top)
    assert [(problem.code, problem.place.line) for problem in top.file.problems] == [("wrong-type", 3)]


def test_what_is_missing_and_what_nobody_asked_for() -> None:
    top = table("format = 1\n[rule]\nwhi = 1\n")
    rule = top.table("rule")
    rule.text("why", required=True)
    rule.done()
    assert [(problem.code, problem.place.line, problem.place.path) for problem in top.file.problems] == [
        ("missing", 2, "rule"),
        ("unknown-key", 3, "rule, whi"),
    ]
    assert top.file.problems[1].hint == "Did you mean 'why'?"


@pytest.mark.parametrize(
    ("raw", "code", "line"),
    [
        (b"format = \n", "toml", 1),
        (b"format = 1\n\n[a\n", "toml", 3),
        (b"a = 1\n", "missing", None),
        (b"format = 2\n", "newer-format", 1),
        (b"format = 0\n", "wrong-format", 1),
        (b'format = "1"\n', "wrong-type", 1),
        (b"format = true\n", "wrong-type", 1),
        (b"\xff\n", "not-utf8", None),
        (b"a" * 1_000_001, "too-large", None),
        (b"format = 1\na = " + b"[" * 5000, "too-deep", None),
        (b"format = 1\nformat = 1\n", "toml", 2),
        (b"format = 1\na = " + b"[" * 13 + b"]" * 13 + b"\n", "too-deep", None),
        (b"format = 1\ra = 1", "toml", 1),
    ],
)
def test_files_that_are_refused_as_a_whole(raw: bytes, code: str, line: int | None) -> None:
    found, problems = parse_toml(raw, "f.toml", "recipe")
    assert found is None
    assert [(problem.code, problem.place.line) for problem in problems] == [(code, line)]
    assert all(problem.hint for problem in problems)


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (b"\x89PNG\r\n\x1a\n", "This is no recipe: it seems to be a picture (PNG)."),
        (b"\xff\n", "The recipe is not UTF-8 text."),
    ],
)
def test_a_file_that_is_no_text_is_named_by_what_it_is(raw: bytes, says: str) -> None:
    _, (problem,) = parse_toml(raw, "f.toml", "recipe")
    assert problem.message == says


def test_a_whole_number_of_many_digits() -> None:
    found, problems = parse_toml(b"format = 1\na = " + b"1" * 5000 + b"\n", "f.toml", "recipe")
    assert found is None
    assert [problem.code for problem in problems] == ["toml"]


def test_a_byte_order_mark_and_crlf_are_taken() -> None:
    found, problems = parse_toml(b"\xef\xbb\xbfformat = 1\r\n", "f.toml", "recipe")
    assert found is not None
    assert problems == []


def test_files_that_cannot_be_opened(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to("loop")
    for path, code in ((tmp_path / "none", "no-file"), (tmp_path, "is-folder"), (tmp_path / "loop", "unreadable")):
        found, problems = read_toml(path, "f.toml", "recipe")
        assert found is None
        assert [problem.code for problem in problems] == [code]


def test_a_file_without_permission_is_unreadable(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Told by the error, since the superuser may read everything."""

    def refuse(self: Path, mode: str) -> bytes:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "f").write_text("")
    monkeypatch.setattr(Path, "open", refuse)
    _, problems = read_toml(tmp_path / "f", "f.toml", "recipe")
    assert [problem.code for problem in problems] == ["unreadable"]
    assert "Permission denied" in problems[0].message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("[m]\nb = 1\nc = 2\nb = 3\n", "The key 'b' is there twice, in line 3 and here."),
        ("[[r]]\nb = 1\n b= 2\n", "The key 'b' is there twice, in line 3 and here."),
        ("b = 1\n[b]\nc = 1\n", "This line is not valid TOML (Cannot overwrite a value): '[b]'."),
    ],
)
def test_a_key_twice_names_both_lines(text: str, message: str) -> None:
    _, (problem,) = parse_toml(f"format = 1\n{text}".encode(), "f.toml", "plan")
    assert problem.message == message


@pytest.mark.parametrize("raw", [b"", b"\n \n", b"# later\n", b"\xef\xbb\xbf"])
def test_a_file_in_which_nothing_stands_is_empty(raw: bytes) -> None:
    top, (problem,) = parse_toml(raw, "f.toml", "facts file")
    assert top is None
    assert problem.code == "empty-file"
