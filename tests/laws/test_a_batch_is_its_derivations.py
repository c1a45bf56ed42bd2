"""A batch of N jobs is N single derivations, byte for byte: what one job leaves in memory changes no other.

The jobs differ in what an outcome follows from: the map (units, choices that it has texts for, one key for switch and
number, shares, keys that may be added), the decimals of the text, the number of tools, and the facts. Two jobs that
differ in one of these alone must not be taken for one another, so a forgotten part of the memory's key is found.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from profilesmith.foundation.problem import Refused
from profilesmith.profile.profile import Profile
from profilesmith.recipe.outcomes import OutcomeKey, Outcomes, PlainValues
from profilesmith.workflows.derive import derive, files_to_write
from profilesmith.workflows.request import Request
from profilesmith.workflows.shelf import Shelf

RECIPE = """format = 1
[recipe]
name = "many"
version = "1.0.0"
[[rule]]
setting = ["outer_wall.speed", "travel.speed"]
cap = "26.6712 mm/s"
why = "A number that no text of few decimals can hold."
[[rule]]
setting = "infill.pattern"
set = "gyroid"
why = "Only some maps have a text for it."
[[rule]]
setting = "raft.on"
set = "on"
why = "The number of layers follows where one key holds both."
[[rule]]
setting = "inner_wall.speed"
cap = { of = "outer_wall.speed", times = 1.5 }
why = "It looks at another setting."
[[rule]]
setting = "support.density"
set = "30 %"
why = "Some maps may add it."
[[rule]]
setting = "nozzle.temperature"
raise_to = "250 °C"
when = { "machine.drive" = "direct" }
why = "The machine's own limit and the condition decide."
[[rule]]
setting = "support.gap"
raise_to = "0.3 mm"
when = { "machine.nozzle_diameter" = "> 0.5 mm" }
why = "The text's own bore answers the condition where no facts do."
[[rule]]
setting = "layer.height"
cap = "0.1 mm"
why = "Texts that differ before may be alike afterwards."
[[rule]]
setting = "top.layers"
hold = "thickness"
why = "It looks at another setting as it was."
[[rule]]
setting = "first_layer.speed"
cap = "20 mm/s"
why = "Why there is no value is told."
"""
FACTS = {
    "none": "format = 1\n",
    "direct": 'format = 1\n[machine]\ndrive = "direct"\n',
    "cooler": (
        'format = 1\n[machine]\ndrive = "direct"\nmaximum_nozzle_temperature = "255 °C"\nnozzle_diameter = "0.4 mm"\n'
    ),
}


class Job(NamedTuple):
    """What one job has. shared: the layers that one key for the raft's switch and its layers is on with, 0 for two
    keys;

    follows: inner wall as a share.
    """

    unit: str = "mm/s"
    gyroid: bool = True
    shared: int = 0
    follows: bool = False
    may_add: bool = False
    decimals: int = 0
    tools: int = 1
    facts: str = "direct"
    speed: int = 80
    bore: str = "0.4"
    height: str = "0.1"
    blank: bool = False
    way: str = ""

    def key_map(self) -> str:
        texts = '{ gyroid = "7", grid = "1" }' if self.gyroid else '{ grid = "1" }'
        share = 'unit = "%"\nrelative_to = "outer_wall.speed"\n' if self.follows else f'unit = "{self.unit}"\n'
        raft = (
            f'[[binding]]\nsetting = "raft.on"\nkey = "foot"\non_when = "> 0"\non = "{self.shared}"\noff = "0"\n'
            if self.shared
            else ('[[binding]]\nsetting = "raft.on"\nkey = "base"\n')
        )
        return (
            'format = 1\n[keymap]\nname = "k"\n'
            f'[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\nunit = "{self.unit}"\ntools = true\n'
            f'[[binding]]\nsetting = "travel.speed"\nkey = "fly"\nunit = "{self.unit}"\n'
            f'[[binding]]\nsetting = "infill.pattern"\nkey = "core"\nchoices = {texts}\n'
            f'{raft}[[binding]]\nsetting = "raft.layers"\nkey = "foot"\n'
            f'[[binding]]\nsetting = "inner_wall.speed"\nkey = "inner"\n{share}'
            '[[binding]]\nsetting = "nozzle.temperature"\nkey = "heat"\n'
            '[[binding]]\nsetting = "nozzle.diameter"\nkey = "bore"\n'
            '[[binding]]\nsetting = "support.gap"\nkey = "air"\n'
            '[[binding]]\nsetting = "layer.height"\nkey = "ply"\n'
            '[[binding]]\nsetting = "top.layers"\nkey = "lids"\n'
            f'[[binding]]\nsetting = "first_layer.speed"\nkey = "first"\nunit = "{self.unit}"\n'
            f'[[binding]]\nsetting = "support.density"\nkey = "prop"\nunit = "%"\nadd = {str(self.may_add).lower()}\n'
        )

    def text(self) -> str:
        factor = 60 if self.unit == "mm/min" else 1
        speed = f"{self.speed * factor:.{self.decimals}f}"
        inner = "125.5" if self.follows else f"{100 * factor:.1f}"
        rim = ",".join([speed] * self.tools)
        more = f"bore = {self.bore}\nair = 0.2\nply = {self.height}\nlids = 4\n" + "first =\n" * self.blank
        return f"rim = {rim}\nfly = {speed}\ncore = 1\nbase = 0\nfoot = 0\ninner = {inner}\nheat = 205\n{more}"


class Place(NamedTuple):
    """Where the files of jobs lie; each is written once."""

    folder: Path

    def request(self, job: Job) -> Request:
        files = {
            f"{abs(hash(job[:5]))}.toml": job.key_map(),
            f"{abs(hash(job))}.cfg": job.text(),
            f"{job.facts}.toml": FACTS[job.facts],
            "many.toml": RECIPE,
        }
        for name, text in files.items():
            if not (self.folder / name).exists():
                (self.folder / name).write_text(text, encoding="utf-8")
        map_file, text_file, facts, recipe = (str(self.folder / name) for name in files)
        return Request((text_file,), map_file, (recipe,), (facts,), shares=job.way)

    def made(self, job: Job, shelf: Shelf | None) -> object:
        """Every byte that a job writes, or why it writes none."""
        try:
            return files_to_write(
                derive(self.request(job), shelf, words=False), str(self.folder / "out.cfg"), True, shelf=shelf
            )
        except Refused as refused:
            return refused.problems


JOBS = st.builds(
    Job,
    st.sampled_from(["mm/s", "mm/min"]),
    st.booleans(),
    st.sampled_from([0, 3, 4]),
    st.booleans(),
    st.booleans(),
    st.integers(0, 3),
    st.integers(1, 3),
    st.sampled_from(sorted(FACTS)),
    st.sampled_from([80, 20]),
    st.sampled_from(["0.4", "0.6"]),
    st.sampled_from(["0.1", "0.2", "0.3"]),
    st.booleans(),
    st.sampled_from(["", "follow"]),
)
SIDE_BY_SIDE = [
    Job(),
    *(
        Job()._replace(**{name: value})
        for name, value in Job("mm/min", False, 3, True, True, 2, 2, "cooler", 20, "0.6", "0.2", True, "follow")
        ._asdict()
        .items()
    ),
    Job(shared=4),
    Job(facts="none"),
    Job(decimals=3),
    Job(tools=3),
    Job(height="0.3"),
    Job(follows=True, way="follow"),
]
"""Each differs from the first in one thing."""


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Place:
    return Place(tmp_path_factory.mktemp("jobs"))


def test_these_jobs_are_carried_out(place: Place) -> None:
    """Else refusals would be compared with refusals."""
    assert all(isinstance(place.made(job, None), dict) for job in SIDE_BY_SIDE)


@settings(max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(jobs=st.lists(JOBS, min_size=2, max_size=6))
def test_a_batch_is_its_derivations(jobs: list[Job], place: Place) -> None:
    shelf = Shelf()
    assert [place.made(job, shelf) for job in jobs] == [place.made(job, None) for job in jobs]


def test_jobs_that_differ_in_one_thing(place: Place) -> None:
    for first in (SIDE_BY_SIDE, SIDE_BY_SIDE[::-1]):
        shelf = Shelf()
        assert [place.made(job, shelf) for job in first] == [place.made(job, None) for job in first]


def _without(part: str, instead: object) -> Callable[..., OutcomeKey]:
    """A key that forgets one part of an entry."""
    whole = Outcomes.seen

    def seen(
        outcomes: Outcomes, setting: str, rulings: Any, base: Profile, before: PlainValues, after: PlainValues
    ) -> OutcomeKey:
        entry = base.entries.get(setting)
        if entry is not None:
            base = base._replace(entries={**base.entries, setting: entry._replace(**{part: instead})})
            before = PlainValues(base.entries)
        return whole(outcomes, setting, rulings, base, before, after)

    return seen


def _own_alone(values: int) -> Callable[..., OutcomeKey]:
    """A key that forgets what other settings are. values: before (3) or after (4) the rules."""
    whole = Outcomes.seen

    def seen(outcomes: Outcomes, setting: str, *of: Any) -> OutcomeKey:
        given = list(of)
        entries = given[values - 1].entries
        given[values - 1] = PlainValues({name: entries[name] for name in (setting,) if name in entries})
        return whole(outcomes, setting, *given)

    return seen


def _without_why(outcomes: Outcomes, setting: str, rulings: Any, base: Profile, *more: Any) -> OutcomeKey:
    """A key that forgets why a text has no value."""
    return SEEN(outcomes, setting, rulings, base._replace(absent={}), *more)


SEEN = Outcomes.seen


def _of_any(whole: Callable[..., Any]) -> Callable[..., Any]:
    """A memory that asks nothing of the profile: what the first one came to holds for all."""
    known: list[Any] = []

    def first(*given: Any) -> Any:
        known[:] = known or [whole(*given)]
        return known[0]

    return first


FORGOTTEN: dict[str, tuple[str, Callable[..., Any]]] = {
    "grids": ("seen", _without("grids", ())),
    "writable": ("seen", _without("writable", None)),
    "coupling": ("seen", _without("coupling", None)),
    "values": ("seen", _without("values", ())),
    "that a share is held": ("seen", _without("held", False)),
    "others before": ("seen", _own_alone(3)),
    "others after": ("seen", _own_alone(4)),
    "why there is none": ("seen", _without_why),
    "the order's links": ("order", _of_any(Outcomes.order)),
    "the bore": ("constants", _of_any(Outcomes.constants)),
}


@pytest.mark.parametrize("name", FORGOTTEN)
def test_a_forgotten_part_of_the_key_is_found(name: str, place: Place, monkeypatch: pytest.MonkeyPatch) -> None:
    """What makes the two tests above worth something: with a part of the key left out they would fail."""
    alone = [place.made(job, None) for job in SIDE_BY_SIDE]
    monkeypatch.setattr(Outcomes, *FORGOTTEN[name])
    shelf = Shelf()
    assert [place.made(job, shelf) for job in SIDE_BY_SIDE] != alone
