"""What all lines of a text have besides key and value, and tables: found without knowing what is set."""

import pytest

from profilesmith.suggest.choose_reading import best_reading
from profilesmith.suggest.detect_line_forms import line_form_guesses
from profilesmith.text.read_document import read_document

WORDS = ("rim", "core", "sole", "roof", "lid", "gap", "prop", "raft", "tip", "bed", "fan", "brim")


def forms(template: str) -> list[tuple[str, ...]]:
    lines = [template.format(n=at + 1, key=key, value=20 + 7 * at % 50) for at, key in enumerate(WORDS)]
    return [guess.forms for guess in line_form_guesses(lines)]


@pytest.mark.parametrize(
    ("template", "form"),
    [
        ("{n:03}  {value} TO {key} STOP", "{number} {value} TO {key} STOP"),
        ("- {key} pace: {value}", "- {key}:{value}"),
        ("{n:03} {key} = {value};", "{number} {key}={value};"),
        ("- the {key} is at {value}", "- {key} is at {value}"),
        ("{n};Q{n}-4;{value};mm/s;", "{any};{key};{value};{any};"),
        ("| {n} | {key} works | {value} | mm |", "|{any}|{key}|{value}|{any}|"),
        ("Q{n}7 = {value} [{n}]", "{key}={value}[{any}"),
    ],
)
def test_a_form_is_found(template: str, form: str) -> None:
    assert (form,) in forms(template)


@pytest.mark.parametrize("template", ["{key} = {value}", "{key}: {value} mm/s", "{key}\t{value}", "{value} {key}"])
def test_plain_lines_need_no_form(template: str) -> None:
    assert forms(template) == []


def test_the_reading_in_which_lines_come_out_as_settings_is_taken() -> None:
    rows = ["outer wall speed: 40 mm/s", "infill speed: 60 mm/s", "layer height: 0.2 mm", "bed temperature: 60 C"]
    more = ["nozzle temperature: 210 C", "top layers: 4", "bottom layers: 3", "wall count: 2", "travel speed: 150 mm/s"]
    text = "Dear friend,\n" + "".join(f"- {row}\n" for row in rows + more)
    plain = "".join(f"{row}\n" for row in rows + more)
    assert best_reading([read_document(text.encode())]).habits.lines == ("- {key}:{value}",)
    assert best_reading([read_document(plain.encode())]).habits.lines == ()
