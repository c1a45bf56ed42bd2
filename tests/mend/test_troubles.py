"""The table of troubles that ships, and what clubs add to it."""

from fractions import Fraction

import pytest

from profilesmith.foundation.package_data import package_text
from profilesmith.mend.find_trouble import find_troubles, folded, words_of
from profilesmith.mend.load_troubles import parse_troubles, shipped_troubles
from profilesmith.vocabulary.load_vocabulary import load_vocabulary

KNOWN = shipped_troubles()
VOCABULARY = load_vocabulary()
AT_LEAST = {
    "stringing",
    "gaps in walls",
    "slipped filament",
    "buckled at the drive",
    "steam or bubbles",
    "corners lift",
    "stuck too hard",
    "bottom bulges",
    "supports torn out",
    "supports collapsed",
    "underside sags",
    "top pillows",
    "tall parts wobble",
    "blobs at starts",
    "layers part",
    "too stiff",
    "too soft",
    "sanding broke through",
    "sanding smears",
    "lines show through paint",
    "paint cracks",
    "print takes too long",
}
OWN = """
format = 1

[[sign]]
name = "smell"
ask = "Does it smell burnt?"

[[trouble]]
name = "brown specks"
looks = "dark specks in the walls"
words = ["burnt bits"]

[[trouble.cause]]
what = "old melt came loose"
do = "clean the nozzle"
for = ["smell"]
why = "Char comes off in flakes."
source = "common practice"

[[trouble]]
name = "stringing"

[[trouble.cause]]
what = "the wipe is short"
setting = "brim.on"
to = "on"
when = { "machine.drive" = "remote" }
why = "Invented for this test."
source = "common practice"
"""


def test_all_that_was_asked_for_is_there() -> None:
    assert set(KNOWN.troubles) >= AT_LEAST


@pytest.mark.parametrize("trouble", KNOWN.troubles.values(), ids=lambda trouble: trouble.name)
def test_a_trouble_is_whole(trouble) -> None:
    assert trouble.causes
    assert all(trouble.words[language] for language in ("en", "de", "fr"))
    for cause in trouble.causes:
        assert cause.why.endswith(".")
        assert cause.source
        if cause.setting:
            assert VOCABULARY.settings[cause.setting].is_number
            assert cause.most % cause.step == 0
            assert cause.costs
            step = VOCABULARY.settings[cause.setting].step
            assert step is not None
            assert cause.step % step == 0


def test_every_sign_and_doing_is_used() -> None:
    causes = [cause for trouble in KNOWN.troubles.values() for cause in trouble.causes]
    assert {sign for cause in causes for sign in (*cause.speaks_for, *cause.speaks_against)} == set(KNOWN.signs)
    assert {cause.do for cause in causes if cause.do} == set(KNOWN.doings)


@pytest.mark.parametrize(
    ("word", "name"),
    [
        ("stringing", "stringing"),
        ("Stringing", "stringing"),
        ("supports_torn", "supports torn out"),
        ("Fäden", "stringing"),
        ("faeden", "stringing"),
        ("Elefantenfuss", "bottom bulges"),
        ("pied d'éléphant", "bottom bulges"),
        ("supports effondres", "supports collapsed"),
        ("durchgeschliffen", "sanding broke through"),
        ("adhésion des couches", "layers part"),
    ],
)
def test_words_in_three_languages(word: str, name: str) -> None:
    assert [item.name for item in find_troubles(word, KNOWN)] == [name]


def test_no_word_means_two_troubles() -> None:
    owners: dict[str, set[str]] = {}
    for trouble in KNOWN.troubles.values():
        for word in words_of(trouble):
            owners.setdefault(folded(word), set()).add(trouble.name)
    assert {word: names for word, names in owners.items() if len(names) > 1} == {}


def test_a_word_that_may_mean_several() -> None:
    assert {item.name for item in find_troubles("supports", KNOWN)} == {"supports torn out", "supports collapsed"}
    assert find_troubles("no such thing", KNOWN) == find_troubles("", KNOWN) == []


def test_a_club_adds_troubles_and_causes() -> None:
    known, problems = parse_troubles([(OWN.encode(), "own.toml")], VOCABULARY, KNOWN)
    assert problems == []
    assert known.troubles["brown specks"].causes[0].do == "clean the nozzle"
    mine = known.troubles["stringing"].causes
    assert mine[:-1] == KNOWN.troubles["stringing"].causes
    assert mine[-1].to is True
    assert len(KNOWN.troubles) + 1 == len(known.troubles)


SHIPPED = package_text("knowledge/troubles.toml")


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('do = "clean the nozzle"', 'do = "sing to it"', "unknown-doing"),
        ('for = ["smell"]', 'for = ["taste"]', "unknown-sign"),
        ('setting = "brim.on"', 'setting = "brim.no"', "unknown-setting"),
        ('to = "on"', 'to = "perhaps"', "to"),
        ('setting = "brim.on"\nto = "on"', 'setting = "fan.power"\nstep = "5 %"\nmost = "5 %"', "direction"),
        (
            'setting = "brim.on"\nto = "on"',
            'setting = "fan.power"\ndirection = "up"\nstep = "5 °C"\nmost = "5 %"',
            "step",
        ),
        (
            'setting = "brim.on"\nto = "on"',
            'setting = "fan.power"\ndirection = "up"\nstep = "5 %"\nmost = "1 %"',
            "most",
        ),
        ('do = "clean the nozzle"', 'do = "clean the nozzle"\nsetting = "fan.power"', "one-mend"),
        ('why = "Char comes off in flakes."\n', "", "missing"),
        ('source = "common practice"\n\n[[trouble]]', 'sauce = "x"\n\n[[trouble]]', "unknown-key"),
        ('looks = "dark specks in the walls"\n', "", "missing"),
        ('"machine.drive" = "remote"', '"machine.drive" = "sideways"', "when"),
    ],
)
def test_mistakes_are_named_with_their_line(old: str, new: str, code: str) -> None:
    assert old in OWN
    _, problems = parse_troubles([(OWN.replace(old, new, 1).encode(), "own.toml")], VOCABULARY, KNOWN)
    assert code in [problem.code for problem in problems]
    assert all(problem.place.line for problem in problems)


def test_steps_are_read_as_differences() -> None:
    cause = KNOWN.troubles["stringing"].causes[1]
    assert (cause.setting, cause.step, cause.sign) == ("nozzle.temperature", Fraction(5), -1)
