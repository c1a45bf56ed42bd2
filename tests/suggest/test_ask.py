"""``--ask`` on a real terminal: a pseudo-terminal types the answers, and the map holds them."""

import re
import sys
import tomllib
from pathlib import Path

import pexpect
import pytest

MILLRACE = Path(__file__).resolve().parents[1] / "cases" / "dialects" / "tuned" / "millrace" / "base.card"
PROMPT = r"Take it\?.*: "


@pytest.fixture
def out(tmp_path: Path) -> Path:
    return tmp_path / "map.toml"


def talk(out: Path, answers: list[str]) -> tuple[str, list[str]]:
    """Answer question after question; returns everything that was shown, and the settings asked about."""
    child = pexpect.spawn(
        sys.executable,
        ["-m", "profilesmith", "keymap", "suggest", str(MILLRACE), "-o", str(out), "--ask"],
        timeout=60,
        encoding="utf-8",
        dimensions=(50, 200),
    )
    shown, asked = "", []
    for answer in answers:
        child.expect(PROMPT)
        shown += child.before
        named = re.search(r"\d+ of \d+, \d+ left after it:  (\S+): ", child.before)
        asked.append(named[1] if named else asked[-1])
        child.sendline(answer)
    child.expect(pexpect.EOF)
    child.close()
    assert child.exitstatus == 0
    return shown + child.before, asked


def test_answers_are_written_into_the_map(out: Path) -> None:
    shown, asked = talk(out, ["yes", "no", "later", "what?", "yes", "stop"])
    assert len(set(asked)) == 5
    text = out.read_text(encoding="utf-8")
    active = {one["setting"] for one in tomllib.loads(text)["binding"]}
    taken, refused, later, again, _, last = asked
    assert again == asked[4]  # what is no answer is asked again
    assert {taken, again} <= active
    assert refused not in active
    assert f'# setting = "{refused}"' not in text
    assert refused in text.split("Not found")[1]
    assert f'# setting = "{later}"' in text
    assert f'# setting = "{last}"' in text
    assert "taken when asked" in text
    assert shown.count("'what?' is none of these answers.") == 1
    assert "was written." in shown
    data = tomllib.loads(text)
    assert len(data["keymap"]["not_bound"]) == 1  # what was refused is remembered
    assert f"1 of {shown.split('1 of ')[1].split(',')[0]}, " in shown


def test_a_refused_key_may_hold_another_setting(out: Path) -> None:
    """A name is completed; a word near one is told; what the value cannot be is refused with what it could be."""
    first, _ = talk(out, ["stop"])
    asked = re.search(r"1 of \d+, \d+ left after it:  (\S+): ", first)
    assert asked is not None
    shown, _ = talk(out, ["outer_wall.sped", "first_layer.speeed", "support.on", "later", "stop"])
    assert "Did you mean outer_wall.speed?" in shown
    assert "cannot be read as support.on. It could be: " in shown
    listed = re.search(r"It could be: ([^,]+), ([a-z_.]+)", shown)
    assert listed is not None
    other = next(name for name in (listed[1], listed[2]) if name != asked[1])
    shown, _ = talk(out, [other[:-2] if other.count(".") else other, "stop"])
    bound = {one["setting"]: one["key"] for one in tomllib.loads(out.read_text(encoding="utf-8"))["binding"]}
    assert f"It is taken for {other}." in shown
    assert other in bound


def test_the_line_is_shown_in_its_surroundings(out: Path) -> None:
    shown, _ = talk(out, ["stop"])
    first = shown.split("Take it?")[0]
    assert "> " in first
    assert "would be read as" in first
    assert "but: " in first
