"""How texts are written: found in texts that are unlike each other."""

import pytest

from profilesmith.suggest.detect_habits import find_habits, writing_of
from profilesmith.suggest.detect_lists import find_lists, split_value
from profilesmith.suggest.load_lexicon import load_lexicon
from profilesmith.text.document import Document
from profilesmith.text.read_document import read_document


def document(text: str) -> Document:
    return read_document(text.encode(), "base", find_habits([text]))


@pytest.mark.parametrize(
    ("text", "delimiter"),
    [
        ("a = 1\nb = 2\n", "="),
        ("a: 1\nb: 2\n", ":"),
        ("a 1\nb 2\nc 3\n", " "),
        ("a\t1\nb\t2\n", " "),
        ("a := 1\nb := 2\n", ":="),
        ("a -> 1\nb -> 2\n", "->"),
        ("start: G1 X=3\nb: 2\n", ":"),
        ("", "="),
        ("a|1\nb|2\n", "|"),
        ("at = 10:30\nb = 2\n", "="),
    ],
)
def test_delimiter(text: str, delimiter: str) -> None:
    assert find_habits([text]).delimiter == delimiter


@pytest.mark.parametrize(
    ("text", "marks"),
    [
        ("# x\na = 1\n", ("#",)),
        ("; x\na = 1\n; y\n", (";",)),
        ("// x\n# y\na = 1\n", ("#", "//")),
        ("-- x\n-- y\n-- z\na = 1\n", ("--",)),
        ("a = 1\n", ("#", ";", "//")),
        ("a = #8A8F94\n", ("#", ";", "//")),
    ],
)
def test_marks_of_remarks(text: str, marks: tuple[str, ...]) -> None:
    assert find_habits([text]).comments == marks


@pytest.mark.parametrize(
    ("text", "inline"),
    [
        ("; x\na = 1   ; one\n", True),
        ("; x\na = 1 ; one\nb = 2 ; two\n", True),
        ("; x\na = 1; 2\n", False),
        ('# x\na = "b # c"\nd = 1\n', False),
        ("# x\na = 1\n", False),
    ],
)
def test_remarks_behind_values(text: str, inline: bool) -> None:
    assert find_habits([text]).inline is inline


@pytest.mark.parametrize(
    ("text", "decimal"),
    [
        ("a = 0,4\nb = 1,75\n", ","),
        ("a = 0.4\nb = 1,2,3\n", "."),
        ("a = 4\n", "."),
        ("a = 0,4, 0,4\nb = 1.5\nc = 2.5\n", "."),
    ],
)
def test_decimal_mark(text: str, decimal: str) -> None:
    read = document(text)
    assert writing_of((read,), find_habits([text]), load_lexicon()).decimal == decimal


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a = ja\nb = nein\n", ("ja", "nein")),
        ("a = yes\nb = no\n", ()),
        ("a = up\nb = down\nc = up\n", ("up", "down")),
        ("a = 1\nb = 0\n", ()),
        ("a = oui\n", ()),
        ("lamp = on\nraft = no\n", ()),
    ],
)
def test_words_for_on_and_off(text: str, words: tuple[str, ...]) -> None:
    read = document(text)
    assert writing_of((read,), find_habits([text]), load_lexicon()).words == words


def test_a_key_that_is_written_again_counts_as_last() -> None:
    again = document("[a]\nx = 1\n[a]\nx = 2\n")
    elsewhere = document("[a]\nx = 1\n[b]\nx = 2\n")
    lexicon = load_lexicon()
    assert writing_of((again,), find_habits([again.text]), lexicon).duplicates == "last"
    assert writing_of((elsewhere,), find_habits([elsewhere.text]), lexicon).duplicates == ""


@pytest.mark.parametrize(
    ("value", "separator", "numbers"),
    [
        ("205/60", "/", [205, 60]),
        ("0.4; 0.4", ";", [0.4, 0.4]),
        ("208 °C / 62 °C", "/", [208, 62]),
        ("198 200", " ", [198, 200]),
    ],
)
def test_values_of_several_numbers(value: str, separator: str, numbers: list[float]) -> None:
    found = split_value(value, ".")
    assert found is not None
    assert found[0] == separator
    assert [float(part.number) for part in found[1]] == numbers


@pytest.mark.parametrize("value", ["0,4", "12", "a/b", "12 %", "1/2/3/4/5", "2031-03-14", ""])
def test_values_of_one_thing(value: str) -> None:
    assert split_value(value, ",") is None


def test_what_separators_are_for() -> None:
    lists = find_lists(["205/60", "210/62", "0.4; 0.4", "205; 202", "10,210,40"], ".")
    assert lists.tools == (";",)
    assert set(lists.packed) == {"/", ","}
    assert lists.many == 2


def test_one_unit_may_stand_behind_all_of_a_list() -> None:
    lists = find_lists(["0.4 / 0.6 mm", "208 / 214 C", "97 / 101 %"], ".")
    assert (lists.tools, lists.many) == (("/",), 2)
    assert find_lists(["205 / 60 C", "0.2 mm / 30 mm/s"], ".").tools == ()


def test_numbered_codes_with_words_as_values_are_no_headings() -> None:
    codes = "".join(
        f"(( what it is ))\n§{number}\t{value}\n" for number, value in enumerate(["0,2 mm", "a", "yes"] * 4, 10)
    )
    read = document(codes)
    assert find_habits([codes]).headings == ("(( name ))",)
    assert [item.key for item in read.assignments] == [f"§{number}" for number in range(10, 22)]


@pytest.mark.parametrize("sign", ["/", "-", ".", ":"])
def test_numbers_of_a_list_are_keys(sign: str) -> None:
    """``1/2  0.3`` is the key 1/2 where a list says what 1/2 is: no value before its key."""
    codes = [f"{part}{sign}{number}" for part in (1, 2, 3) for number in (1, 2, 3)]
    text = "".join(f"* {code}  what it is called\n" for code in codes) + "".join(f"{code}\t0,3\n" for code in codes)
    assert not find_habits([text]).value_first
    assert [item.key for item in document(text).assignments] == codes


def test_a_remark_behind_a_closed_heading_may_have_a_mark_of_its_own() -> None:
    text = "".join(
        f"== {name} ==   ' said of it\nheat = 20{at}\n\n" for at, name in enumerate(("tip", "plate", "room"))
    )
    read = document(text)
    assert [item.section for item in read.assignments] == ["tip", "plate", "room"]


def test_switches_in_columns_head_nothing() -> None:
    parts = ("supports", "hem", "pulling back")
    rows = "{name:20}ON\n{width:28}1.{at}\n{haste:28}2{at}\n\n"
    text = "".join(
        rows.format(name=name, width=f"{name}, width", haste=f"{name}, haste", at=at) for at, name in enumerate(parts)
    )
    assert find_habits([text]).headings == ()
