"""The demo's pair: as the generator makes it, small enough, and with the one slip that its tour tells of."""

from __future__ import annotations

from pathlib import Path

import pytest

from profilesmith.review.review import Review
from profilesmith.workflows.demo import run_demo
from profilesmith.workflows.motion.check import MotionOrder, check, compare
from profilesmith.workflows.motion.suggest import suggest
from tests.motion.generators.demo_pair import DEMO, demo_files


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    target = tmp_path_factory.mktemp("demo") / "heron"
    run_demo(str(target))
    return target


def of_verdict(review: Review, verdict: str) -> list[str]:
    return [item["settings"][0] for item in review.data["findings"] if item["verdict"] == verdict and item["settings"]]


def test_the_files_are_the_generator_s() -> None:
    made = demo_files()
    assert {name: (DEMO / name).read_text(encoding="utf-8") for name in made} == made
    assert sum(len(text) for text in made.values()) < 300_000


def test_the_soft_file_has_one_slip(folder: Path) -> None:
    order = MotionOrder(str(folder / "soft.settings"), str(folder / "words.toml"))
    review = check(str(folder / "soft.motion"), order)
    assert of_verdict(review, "caution") == ["first_layer.nozzle_temperature", "nozzle.temperature"]


def test_the_rigid_file_breaks_what_the_recipes_changed(folder: Path) -> None:
    order = MotionOrder(str(folder / "soft.settings.ledger.json"), str(folder / "words.toml"))
    broken = of_verdict(check(str(folder / "rigid.motion"), order), "caution")
    assert {"outer_wall.speed", "wall.count", "raft.on", "retraction.speed", "filament.maximum_flow"} <= set(broken)


def test_the_list_of_all_settings(folder: Path) -> None:
    order = MotionOrder(str(folder / "soft.settings"), str(folder / "words.toml"))
    notes = check(str(folder / "soft.motion"), order, full=True).notes
    assert "layer.height: exact (one-sided where it varies); passed" in notes
    assert "bead.flow: not in the file; not judged" in notes
    assert len(notes) >= 58


def test_the_ratio_is_narrower_than_either_time(folder: Path) -> None:
    review = compare(
        str(folder / "rigid.motion"), str(folder / "soft.motion"), MotionOrder(words=str(folder / "words.toml"))
    )
    ratio, times = review.data["time_ratio"], review.data["motion"]["new"]["seconds"]
    assert 1.0 < ratio["low"] <= ratio["high"]
    assert times["low"] < times["high"]


def test_a_proposed_map_counts_nothing_until_it_is_accepted(folder: Path) -> None:
    text = suggest(str(folder / "soft.motion"))
    active = [line for line in text.splitlines() if line and not line.startswith("#")]
    assert active == ["format = 1", "[words]", 'name = "soft"', "[practice]"]
    accepted = text.replace("# [[line]]", "[[line]]").replace("# is =", "is =").replace("# says =", "says =")
    (folder / "accepted.toml").write_text(accepted, encoding="utf-8")
    order = MotionOrder(str(folder / "soft.settings"), str(folder / "accepted.toml"))
    review = check(str(folder / "soft.motion"), order)
    assert "wall.count" in of_verdict(review, "passed")
