"""Checklists: a person who never saw the tool can follow them, with a text of their own or with a recipe alone.

Outside checks: the Markdown is read by markdown-it-py, an implementation of the CommonMark specification; the area of a
bead that an example speed is held against is the stadium of Turner, Strong & Gold 2014 (Rapid Prototyping J. 20(3)).
"""

from __future__ import annotations

import math
import re
from pathlib import Path
from typing import Any

import html5lib
import pytest
from markdown_it import MarkdownIt

from profilesmith.foundation.problem import Problem
from profilesmith.recipe.load_recipe import load_recipe
from profilesmith.review.render import checklist, checklist_page, render
from profilesmith.review.render.sheet.of_recipe import recipes_sheet
from profilesmith.review.render.sheet.of_review import review_sheet
from profilesmith.review.render.sheet.sheet import Item, Sheet
from profilesmith.review.review import AreaChanges, Assumed, LeftCommand, OpenQuestion, Reason, Review, ValueChange
from profilesmith.vocabulary.load_vocabulary import load_vocabulary
from tests.rows import asked

SHIPPED = sorted(path for path in (Path(__file__).parents[2] / "recipes").glob("*.toml") if path.name != "library.toml")
HOSTILE = "x](javascript:alert(1)) <script>window.pwned=1</script> `code` | ~~a~~ **b** # c\u202e\n- [ ] forged"


def change(setting: str, base: str, derived: str, **more: Any) -> ValueChange:
    reason = Reason("soft 1.0.0, rule 1", "at most 40 mm/s", "Soft filament buckles.", "common practice", "changed")
    return ValueChange(
        **{
            "setting": setting,
            "words": "",
            "status": "changed",
            "base": base,
            "derived": derived,
            "reasons": (reason,),
            **more,
        }
    )


def review(*groups: AreaChanges, **more: Any) -> Review:
    lists = (
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
    )
    empty: dict[str, Any] = dict.fromkeys(lists, ())
    return Review(
        **{
            "title": "Soft",
            "subject": "base.cfg",
            "recipes": ("soft 1.0.0",),
            "groups": groups,
            **empty,
            **more,
        }
    )


def speeds(*changes: ValueChange) -> Review:
    return review(AreaChanges("Speeds and accelerations", changes))


def items(sheet: Sheet) -> dict[str, Item]:
    return {item.name: item for part in sheet.parts for item in part.items}


def told(item: Item) -> list[tuple[str, str, str]]:
    return [tuple(step) for step in item.steps]


def test_a_box_has_the_new_value_the_old_one_and_the_persons_own_key() -> None:
    speed = change(
        "outer_wall.speed",
        "75 mm/s",
        "40 mm/s",
        file="a.cfg",
        line=34,
        key="rim_feed",
        old_text="4500",
        new_text="2400",
    )
    text = render(speeds(speed), "checklist")
    assert "- [ ] Outer wall speed: **40 mm/s** <sub>now 75 mm/s</sub>" in text
    assert "yours: <code>rim\\_feed</code> = <code>2400</code>, line 34" in text
    page = render(speeds(speed), "checklist-page")
    box = next(
        item for item in html5lib.parse(page, namespaceHTMLElements=False).iter("li") if item.find("input") is not None
    )
    assert (
        " ".join("".join(box.itertext()).split())
        == "Outer wall speed now 75 mm/s 40 mm/s yours: rim_feed = 2400, line 34"
    )


def test_boxes_stand_where_a_person_looks_for_them() -> None:
    by_hand = tuple(
        change(
            name,
            "-",
            "-",
            status="by hand",
            reasons=(Reason("soft 1.0.0, rule 2", "", "w", "", "by hand", asked=asked(name, **ask)),),
        )
        for name, ask in (("bed.temperature", {"window": "40 °C to 65 °C"}), ("layer.height", {"raise_to": "0.2 mm"}))
    )
    sheet = review_sheet(
        review(
            AreaChanges("Infill", (change("infill.density", "15 %", "5 %"),)),
            AreaChanges("Heat", (change("nozzle.temperature", "205 °C", "215 °C"),)),
            by_hand=by_hand,
        )
    )
    assert [part.title for part in sheet.parts] == ["Layers", "Infill", "Heat"]
    assert [item.name for item in sheet.parts[2].items] == ["Nozzle temperature", "Bed temperature"]
    assert told(items(sheet)["Layer height"]) == [("at least 0.2 mm", "raise it if it is below", "")]


def test_what_the_text_has_no_key_for_says_what_to_do_in_both_cases() -> None:
    reason = Reason("soft 1.0.0, rule 1", "", "w", "", "by hand", asked=asked("infill.speed", cap="40 mm/s"))
    text = render(review(by_hand=(change("infill.speed", "-", "-", status="by hand", reasons=(reason,)),)), "checklist")
    assert "Infill speed: **at most 40 mm/s** (lower it if it is above)" in text


def test_a_share_that_moves_along_is_left_where_it_is_a_share() -> None:
    follower = change("top.speed", "60 mm/s", "32 mm/s", status="follows", key="above", old_text="80", new_text="80")
    assert told(items(review_sheet(speeds(follower)))["Top speed"]) == [
        ("32 mm/s", "where your software shows a share instead, leave the share", "")
    ]
    assert "= <code>80" not in render(speeds(follower), "checklist")


def test_a_conflict_stops_the_typing_at_the_top() -> None:
    problem = Problem("conflict", "Two rules cannot both hold.", hint="Leave one out.")
    text = render(
        review(AreaChanges("Infill", (change("infill.density", "15 %", "5 %"),)), conflicts=(problem,)), "checklist"
    )
    assert text.index("Stop: do not type this in yet") < text.index("Two rules cannot both hold") < text.index("- [ ]")


def test_a_question_names_what_waits_for_it() -> None:
    text = render(
        review(questions=(OpenQuestion("Direct or remote?", ("retraction.distance",), ("soft, rule 1",)),)), "checklist"
    )
    assert "- [ ] Direct or remote? Until you know, leave retraction distance as it is." in text


def test_a_start_block_is_told_without_the_words_of_the_command_line() -> None:
    text = render(review(literals=(LeftCommand("a.cfg:3: M104 heats to 205 °C", True),)), "checklist")
    assert "- [ ] a.cfg:3: M104 heats to 205 °C\n" in text


def test_why_is_told_once_for_all_boxes_of_a_rule() -> None:
    text = render(
        speeds(change("outer_wall.speed", "75 mm/s", "40 mm/s"), change("infill.speed", "80 mm/s", "40 mm/s")),
        "checklist",
    )
    assert text.count("Soft filament buckles.") == 1
    assert "Outer wall speed, Infill speed: Soft filament buckles. (soft 1.0.0, rule 1; common practice)" in text


def test_nothing_to_type_is_said() -> None:
    assert "There is nothing to type in." in render(review(), "checklist")


def hostile_review(word: str) -> Review:
    reason = Reason(word, word, word, word, "by hand", word)
    return review(
        AreaChanges(word, (change("outer_wall.speed", word, word, file=word, line=1, key=word, new_text=word),)),
        title=word,
        subject=word,
        by_hand=(change("raft.gap", "-", "-", status="by hand", reasons=(reason,)),),
        questions=(OpenQuestion(word, ("top.speed",), (word,)),),
        literals=(LeftCommand(word),),
        cautions=(word,),
        assumed=(Assumed(word, word, word),),
        conflicts=(Problem("c", word, hint=word),),
    )


def test_strangers_text_stays_text_in_markdown() -> None:
    tokens = MarkdownIt("commonmark").enable(["table", "strikethrough"])
    kinds = [
        [
            (token.type, token.content if token.type == "html_inline" else "")
            for block in tokens.parse(render(hostile_review(word), "checklist"))
            for token in (block, *(block.children or ()))
        ]
        for word in (HOSTILE, "plain words")
    ]
    made = [{kind for kind in found if kind[0] not in ("text", "text_special")} for found in kinds]
    assert made[0] == made[1]
    counts = [[kind for kind, _ in found].count("list_item_open") for found in kinds]
    assert counts[0] == counts[1] > 5


def test_boxes_of_the_page_are_labelled_and_as_many_as_in_markdown() -> None:
    whole = hostile_review("words")
    page = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(render(whole, "checklist-page"))
    boxes = [item.attrib["id"] for item in page.iter("input")]
    assert boxes == [item.attrib["for"] for item in page.iter("label")]
    assert len(set(boxes)) == len(boxes) == render(whole, "checklist").count("- [ ] ")


# A recipe alone


def of(recipe: Any) -> Sheet:
    loaded, problems = recipe
    assert loaded is not None, problems
    return recipes_sheet((loaded,), load_vocabulary())


def test_bounds_say_what_to_do_on_either_side(read_recipe: Any, rule: Any) -> None:
    rules = (
        rule("outer_wall.speed", 'cap = "40 mm/s"')
        + rule("support.density", 'raise_to = "30 %"')
        + rule("raft.on", 'set = "on"')
        + rule("nozzle.temperature", 'window = ["210 °C", "220 °C"]\naim = "215 °C"')
        + rule("retraction.distance", 'scale = "50 %"')
        + rule("bed.temperature", 'shift = "9 °F"')
        + rule("top.layers", 'hold = "thickness"')
        + rule("infill.speed", 'cap = { of = "outer_wall.speed", times = 1.5 }')
    )
    found = items(of(read_recipe(rules)))
    assert told(found["Outer wall speed"]) == [("at most 40 mm/s", "lower it if it is above", "")]
    assert told(found["Support density"]) == [("at least 30 %", "raise it if it is below", "")]
    assert told(found["Raft"]) == [("on", "", "")]
    assert told(found["Nozzle temperature"]) == [
        ("210 °C to 220 °C", "move it to the nearer end if it is outside", ""),
        ("215 °C", "as far as the other lines allow", ""),
    ]
    assert told(found["Retraction distance"])[0][0] == "times 50 %"
    assert told(found["Bed temperature"])[0][0] == "plus 9 °F"  # a difference: never moved by the zero of the scale
    assert "layers times layer height is no less" in told(found["Top layers"])[0][1]
    assert told(found["Infill speed"])[0][0] == "at most 150 % of the outer wall speed"
    assert "do this once" in " ".join(of(read_recipe(rules)).lead)


def test_questions_have_letters_and_boxes_refer_to_them(read_recipe: Any) -> None:
    text = """
[inputs.window]
kind = "temperature window"
fact = "spool.nozzle_window"
default = ["210 °C", "220 °C"]
ask = "What does the label say?"
[inputs.most]
kind = "length"
ask = "How far?"
[[rule]]
setting = "nozzle.temperature"
window = { input = "window" }
why = "x"
[[rule]]
setting = "retraction.distance"
when = { "machine.drive" = "remote", "input.most" = "> 3 mm" }
cap = { input = "most" }
why = "x"
"""
    sheet = of(read_recipe(text))
    assert [(ask.label, ask.words[:9], ask.otherwise) for ask in sheet.asks] == [
        ("A", "What does", "If nobody can say: 210 °C to 220 °C."),
        ("B", "Do the ge", "If nobody can say, leave out what depends on it."),
        ("C", "How far?", "If nobody can say, leave out what depends on it."),
    ]
    found = items(sheet)
    assert told(found["Nozzle temperature"]) == [
        ("210 °C to 220 °C", "or what answer A says; move it to the nearer end if it is outside", "")
    ]
    assert told(found["Retraction distance"]) == [
        ("at most answer C", "lower it if it is above", "answer B is remote and answer C is above 3 mm")
    ]


@pytest.mark.parametrize("flow", ["2", "4", "7.5"])
def test_the_example_of_a_flow_lies_below_what_the_bead_takes(read_recipe: Any, rule: Any, flow: str) -> None:
    sheet = of(read_recipe(rule("outer_wall.speed", f'cap = {{ flow = "{flow} mm3/s" }}')))
    assert told(items(sheet)["Outer wall speed"]) == [("at most speed A", "lower it if it is above", "")]
    found = re.fullmatch(
        r"For .* and a bead ([\d.]+) mm wide and ([\d.]+) mm high: (\d+) mm/s\.", sheet.asks[0].otherwise
    )
    assert found is not None
    width, height, speed = map(float, found.groups())
    stadium = (width - height) * height + math.pi * height**2 / 4
    assert 0.85 * float(flow) < speed * stadium <= float(flow)


@pytest.mark.parametrize("path", SHIPPED, ids=lambda path: path.stem)
def test_every_rule_of_every_shipped_recipe_has_its_boxes(path: Path) -> None:
    vocabulary = load_vocabulary()
    recipe, problems = load_recipe(path.read_bytes(), path.name, vocabulary)
    assert recipe is not None, problems
    sheet = recipes_sheet((recipe,), vocabulary)
    named = {setting for rule in recipe.rules for setting in rule.settings}
    boxes = sum(item.boxed for part in sheet.parts for item in part.items)
    assert boxes == len(named)
    text, page = checklist.render_recipe(recipe, vocabulary), checklist_page.render_recipe(recipe, vocabulary)
    assert text.count("- [ ] ") == boxes + len(sheet.asks)
    parsed = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page)
    assert len(list(parsed.iter("input"))) == boxes + len(sheet.asks)
    letters = {ask.label for ask in sheet.asks}
    steps = " ".join(
        f"{step.new} {step.how} {step.only} {' '.join(ask.words for ask in sheet.asks)}"
        for part in sheet.parts
        for item in part.items
        for step in item.steps
    )
    assert set(re.findall(r"\b(?:answer|speed) ([A-Z])\b", steps)) == letters
    assert all(caution[:20] in page for caution in recipe.cautions if "'" not in caution[:20])


def test_the_demo_can_be_typed_in_from_the_sheet(program: Any, tmp_path: Path) -> None:
    assert program("demo", tmp_path / "d").code == 0
    base, target = tmp_path / "d" / "base.settings", tmp_path / "checklist.md"
    facts = [word for name in ("machine", "spool", "part") for word in ("--facts", tmp_path / "d" / f"{name}.toml")]
    made = program(
        "derive",
        base,
        "--keymap",
        tmp_path / "d/keymap.toml",
        "--recipe",
        "flexible-pla",
        "--recipe",
        "part-soft",
        *facts,
        "--report",
        target,
    )
    assert made.code == 0
    text = target.read_text("utf-8")
    # Typing what the sheet says into the old text gives the new text, line by line.
    lines = base.read_text("utf-8").split("\n")
    for key, new, number in re.findall(
        r"yours: <code>(?:\\\[\w+\\\] )?(\S+)</code> = <code>(\S+)</code>, line (\d+)", text
    ):
        assert lines[int(number) - 1].startswith(key.replace("\\", ""))
        lines[int(number) - 1] = f"{key.replace(chr(92), '')} = {new}"
    assert "\n".join(lines) == (tmp_path / "d" / "soft.settings").read_text("utf-8")


def test_an_open_question_leaves_the_boxes_of_other_rules_alone() -> None:
    question = OpenQuestion("How wide is the bead?", ("top.speed", "outer_wall.speed"), ("soft 1.0.0, rule 3",))
    asked = review_sheet(speeds(change("outer_wall.speed", "75 mm/s", "40 mm/s"))._replace(questions=(question,))).asks[
        0
    ]
    assert (
        asked.otherwise == "Until you know, leave top speed as it is; only the boxes below count for outer wall speed."
    )
