"""The page: everything a review holds, in order; strangers' text inert; jumps, policy, size, forms.

Outside checks: the HTML is parsed in strict mode by html5lib, an implementation of the WHATWG standard; the content
policy's hashes are worked out anew as W3C CSP Level 3 says.
"""

from __future__ import annotations

import hashlib
import subprocess
import sys
from base64 import b64encode
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import pytest

from profilesmith.foundation.place import Place
from profilesmith.foundation.problem import Problem
from profilesmith.ledger import Line
from profilesmith.ledger.judgement import Finding
from profilesmith.review.render import Look, form_of_name, render
from profilesmith.review.review import AreaChanges, Assumed, LeftCommand, OpenQuestion, Reason, Review, ValueChange
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from profilesmith.workflows.review import review_again
from tests.rows import row

# Each piece would do something if it were obeyed: close a text, start an element, turn the line, run a template.
HOSTILE = "'\"><img src=x onerror=alert(1)><script>window.pwned=1</script></style></title><!--{{ 7*7 }}\u202e</svg>&lt;"
HARMLESS = "a harmless word"


def change(setting: str, word: str, **more: Any) -> ValueChange:
    reason = Reason(
        f"{word} 1.0.0, rule 1", "at most 40 mm/s", f"why {word}", f"source {word}", "changed", f"note {word}"
    )
    values = {
        "words": f"meaning {word}",
        "status": "changed",
        "base": f"75 {word}",
        "derived": f"40 {word}",
        "relative": "-47 %",
    }
    place = {"file": f"{word}.cfg", "line": 34, "key": f"key {word}", "old_text": "4500", "new_text": f"2400 {word}"}
    return ValueChange(**{"setting": setting, "reasons": (reason,), **values, **place, **more})


def review(word: str, **more: Any) -> Review:
    """A review with something in every place. word: stands in all its texts."""
    hand = change(
        "raft.gap", word, status="by hand", reasons=(Reason(word, "at least 0.2 mm", word, word, "by hand", word),)
    )
    kept = change("bed.temperature", word, status="kept", derived=f"75 {word}")
    over = change("support.gap", word, status="overruled")
    parts: dict[str, Any] = {
        "title": f"Title {word}",
        "subject": f"Subject {word}",
        "recipes": (f"recipe {word} 1.0.0",),
        "groups": (
            AreaChanges(
                "Speeds",
                (change("outer_wall.speed", word), change("infill.speed", word, status="added", base="-", relative="")),
            ),
        ),
        "by_hand": (hand,),
        "questions": (OpenQuestion(f"Ask {word}?", ("retraction.distance",), (f"cause {word}",)),),
        "kept": (kept,),
        "idle": (Reason(f"idle {word}", "d", "w", "s", "does not apply", f"note {word}"),),
        "overruled": (over,),
        "conflicts": (Problem("conflict", f"Conflict {word}.", Place(f"{word}.toml", 3), f"Hint {word}."),),
        "literals": (LeftCommand(f"Literal {word}"),),
        "unmapped": (Line("f.cfg", 9, f"unmapped {word}", word),),
        "unread": (Line("f.cfg", 11, "", f"unread {word}"),),
        "notes": (f"Note {word}",),
        "assumed": (Assumed("soft", "pace", f"Assumed {word}"),),
        "cautions": (f"Caution {word}",),
        "outputs": (f"out {word}",),
        "consequences": (
            Finding("flow", "caution", f"Flow {word}", f"Sentence {word}", word, word, word, word, word, word),
        ),
        "figures": figures(word),
        "rows": [row("outer_wall.speed", {"cap": "40 mm/s"}, 75, 40)],
    }
    return Review(**{**parts, **more})


def figures(word: str) -> list[dict[str, Any]]:
    bars = {
        "title": f"Flow {word}",
        "kind": "bars",
        "unit": "mm³/s",
        "limits": [{"name": f"limit {word}", "value": 4}],
        "note": f"n {word}",
    }
    line = {"title": f"Stiffness {word}", "kind": "line", "x_unit": "%", "x_name": f"x {word}"}
    marks = [{"name": f"mark {word}", "role": "before", "x": 15, "y": 1.4}, {"name": "after", "x": 5, "y": 1.1}]
    series = [
        {"name": "before", "points": [[f"wall {word}", 6], ["infill", 5]]},
        {"name": "after", "points": [[f"wall {word}", 3], ["infill", 2]]},
    ]
    window = [
        {"name": "low", "points": [[f"time {word}", 1.5]]},
        {"name": f"high {word}", "role": "high", "points": [[f"time {word}", 2]]},
    ]
    return [
        {**bars, "id": "a", "series": series},
        {
            **line,
            "id": "b",
            "series": [{"name": f"s {word}", "points": [[x, 1 + x * x / 10_000] for x in range(0, 101, 5)]}],
            "marks": marks,
        },
        {"id": "c", "title": f"Time {word}", "kind": "window", "unit": f"u {word}", "series": window},
        {"id": "d", "title": f"Fault {word}", "kind": word},
    ]


def parsed(html: str) -> Element:
    """The page as the standard's own parser sees it; a mistake in the markup is an error."""
    found: Element = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(html)
    return found


def plain(element: Element) -> str:
    return " ".join("".join(element.itertext()).split())


def main_text(html: str) -> str:
    body = parsed(html).find("body")
    assert body is not None
    return plain(body)


def test_says_all_that_the_review_holds() -> None:
    told = main_text(render(review("heron"), "page"))
    for words in (
        "Title heron",
        "Subject heron",
        "recipe heron 1.0.0",
        "75 heron",
        "40 heron",
        "why heron",
        "source heron",
        "heron 1.0.0, rule 1",
        "heron.cfg, line 34",
        "key heron",
        "2400 heron",
        "Raft gap",
        "at least 0.2 mm",
        "Ask heron?",
        "cause heron",
        "Conflict heron.",
        "Hint heron.",
        "Bed temperature",
        "Support gap",
        "idle heron",
        "unmapped heron",
        "unread heron",
        "Note heron",
        "Assumed heron",
        "Caution heron",
        "out heron",
        "Sentence heron",
        "n heron",
        "limit heron",
        "mark heron",
        "meaning heron",
        "outer_wall.speed",
    ):
        assert words in told, words


def test_changes_come_first_and_what_is_long_comes_last() -> None:
    told = main_text(render(review("heron"), "page"))
    heads = (
        "Look first",
        "What would change",
        "To set by hand",
        "Not known, so left alone",
        "What follows for the print",
        "In figures",
        "Already right",
        "Overruled everywhere",
        "Rules that do not apply here",
        "Keys that the map does not know",
        "Lines that are no setting",
        "Take care",
        "How the text was read",
    )
    places = [told.index(head) for head in heads]
    assert places == sorted(places)


def test_a_conflict_is_told_at_the_very_top() -> None:
    header = next(element for element in parsed(render(review("heron"), "page")).iter("header"))
    assert "Nothing is written" in plain(header)
    harmless = next(element for element in parsed(render(review("heron", conflicts=()), "page")).iter("header"))
    assert "Nothing is written" not in plain(harmless)


def test_a_review_with_nothing_in_it_is_a_page_too() -> None:
    empty = dict.fromkeys(
        (
            "groups",
            "by_hand",
            "questions",
            "kept",
            "idle",
            "overruled",
            "conflicts",
            "literals",
            "unmapped",
            "unread",
            "notes",
            "assumed",
            "cautions",
            "outputs",
            "consequences",
            "recipes",
        ),
        (),
    )
    told = main_text(render(review("heron", figures=(), rows=(), **empty), "page"))
    assert "Nothing: every value is already right" in told
    assert "In figures" not in told


def test_signs_and_words_tell_the_way_a_value_went() -> None:
    rows = (
        change("outer_wall.speed", "a", relative="-47 %"),
        change("support.density", "b", relative="+18 points"),
        change("raft.on", "c", relative="", base="off", derived="on"),
        change("brim.width", "d", relative="", status="added"),
        change("top.speed", "e", relative="-3 %", status="follows"),
        change("skirt.loops", "f", relative="", status="only old"),
    )
    page = parsed(render(review("x", groups=(AreaChanges("All", rows),)), "page"))
    told = [plain(summary) for summary in page.iter("summary")][: len(rows)]
    expected = (
        ("▼", "lower", "−47 %"),
        ("▲", "higher", "+18 points"),
        ("●", "switched"),
        ("+", "added"),
        ("▼", "follows"),
        ("×", "only in the old one"),
    )
    for text, words in zip(told, expected, strict=True):
        assert all(word in text for word in words), (text, words)


def shape(element: Element) -> list[tuple[str, tuple[str, ...]]]:
    """Every element with the names of its attributes: what a page does, without what it says."""
    return [(str(item.tag), tuple(sorted(str(name) for name in item.attrib))) for item in element.iter()]


@pytest.mark.parametrize("form", ["page", "checklist-page"])
def test_strangers_text_makes_no_element_and_no_attribute(form: str) -> None:
    hostile, harmless = (parsed(render(review(word), form)) for word in (HOSTILE, HARMLESS))
    assert shape(hostile) == shape(harmless)
    told = plain(hostile)
    assert "<script>window.pwned=1</script>" in told
    assert "{{ 7*7 }}" in told
    assert "\u202e" not in told
    assert "\\u202e" in told


@pytest.mark.parametrize("form", ["page", "checklist-page"])
def test_the_policy_allows_this_style_and_this_script_and_nothing_else(form: str) -> None:
    page = parsed(render(review(HOSTILE), form))
    policy = next(
        item.attrib["content"] for item in page.iter("meta") if item.get("http-equiv") == "Content-Security-Policy"
    )
    rules = dict(rule.strip().split(" ", 1) for rule in policy.split(";"))
    assert rules["default-src"] == rules["base-uri"] == rules["form-action"] == "'none'"
    for kind in ("style", "script"):
        hashes = [b64encode(hashlib.sha256((item.text or "").encode()).digest()).decode() for item in page.iter(kind)]
        wanted = " ".join(f"'sha256-{digest}'" for digest in hashes) or "'none'"
        assert rules[f"{kind}-src"] == wanted
    for item in page.iter():
        assert "style" not in item.attrib
        assert not [name for name in item.attrib if str(name).startswith("on")]
        assert all(
            value.startswith("#") for name, value in item.attrib.items() if str(name).split("}")[-1] in ("href", "src")
        )


def test_no_element_shares_its_id_and_every_jump_has_its_target() -> None:
    page = parsed(render(review("heron"), "page"))
    ids = [item.attrib["id"] for item in page.iter() if "id" in item.attrib]
    assert len(ids) == len(set(ids))
    jumps = [item.attrib["href"][1:] for item in page.iter("a")]
    assert len(jumps) > 5
    assert set(jumps) <= set(ids)


def test_each_figure_has_a_table_beside_it_and_a_broken_one_says_so() -> None:
    page = parsed(render(review("heron"), "page"))
    found = [item for item in page.iter("figure") if item.get("id")]
    told = [plain(item) for item in found]
    drawn = [item for item in found if next(item.iter("table"), None) is not None]
    assert len(found) == 4
    assert len(drawn) == 3
    assert "Fault heron" in next(text for text in told if "cannot be drawn" in text)


# Size


def many(count: int) -> Iterator[ValueChange]:
    names = list(load_vocabulary().settings)
    why = (
        "A soft filament buckles or slips when it is pushed fast. Slower laying keeps the flow "
        "even, so walls stay closed."
    )
    reason = Reason("flexible-pla 1.0.0, rule 1", "at most 40 mm/s", why, "common practice", "changed", "")
    other = Reason(
        "flexible-pla 1.0.0, rule 3",
        "at most 53.0392 mm/s",
        why,
        "common practice",
        "overruled",
        "flexible-pla 1.0.0, rule 1 (at most 40 mm/s) asks for more",
    )
    for number in range(count):
        yield ValueChange(
            setting=names[number % len(names)],
            words="speed at which the outermost wall is laid",
            status="changed",
            base="75 mm/s",
            derived="40 mm/s",
            relative="-47 %",
            reasons=(reason, other),
            file="bench/printer.settings",
            line=number,
            key=f"some_key_{number}",
            old_text="4500",
            new_text="2400",
        )


def test_a_page_of_150_changed_keys_is_at_most_200_kilobytes() -> None:
    rows = [row(item.setting, {}, 75, 40) for item in many(150)]
    html = render(review("heron", groups=(AreaChanges("All", tuple(many(150))),), rows=rows), "page")
    assert html.count('class="row down">') == 150
    assert len(html.encode()) <= 200_000


# Forms


def test_no_other_form_imports_the_template_engine() -> None:
    code = (
        "import sys, profilesmith.review.render as r, profilesmith.review.render.markdown; "
        "print('jinja2' in sys.modules)"
    )
    assert (
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()
        == "False"
    )


@pytest.mark.parametrize(
    ("name", "form"),
    [
        ("review.html", "page"),
        ("a/b.HTM", "page"),
        ("x.md", "markdown"),
        ("x.json", "json"),
        ("x.txt", "terminal"),
        ("x.pdf", ""),
        ("html", ""),
        ("checklist.md", "checklist"),
        ("my-Checklist.html", "checklist-page"),
        ("checklists/review.md", "markdown"),
        ("checklist.json", "json"),
    ],
)
def test_a_reports_name_picks_its_form(name: str, form: str) -> None:
    assert form_of_name(name) == form


def test_the_same_review_gives_the_same_bytes() -> None:
    assert render(review("heron"), "page") == render(review("heron")._replace(), "page")


def test_values_of_a_real_derivation_stand_on_the_page(derived: Any, bind: Any, rule: Any) -> None:
    bindings = (
        '[keymap]\nname = "bench"\n'
        + bind("outer_wall.speed", "rim", 'unit = "mm/min"')
        + bind("support.density", "prop", 'unit = "%"')
    )
    done = derived(
        "rim = 4500\nprop = 12\nlamp = on\n",
        bindings,
        rule("outer_wall.speed", 'cap = "40 mm/s"') + rule("support.density", 'raise_to = "30 %"'),
    )
    html = render(done.review, "page")
    told = main_text(html)
    for words in (
        "Outer wall speed",
        "75 mm/s",
        "40 mm/s",
        "base.cfg, line 1",
        "4500",
        "2400",
        "Support density",
        "12 %",
        "30 %",
        "lamp",
    ):
        assert words in told
    assert 'aria-label="Allowed at most 40 mm/s; before 75, after 40"' in html
    assert Fraction(2400, 60) == 40  # mm/min in mm/s


def test_the_demo_is_short_in_every_form(program: Any, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Markdown for a pull request at most 80 lines, the terminal's screen at most 45 at 80 columns."""
    monkeypatch.chdir(tmp_path)
    assert program("demo", "heron", "-q").code == 0
    again = review_again("heron/soft.settings").review
    assert len(render(again, "markdown").splitlines()) <= 80
    assert len(render(again, "terminal", Look(width=80)).splitlines()) <= 45
