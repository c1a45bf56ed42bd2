"""The main job from files to files: outputs, ledgers, reports, several bases, what is never overwritten."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import profilesmith
import profilesmith.engine.read as read_module
import profilesmith.workflows.derive as derive_module
from profilesmith.foundation.problem import Refused
from profilesmith.library.find import shipped
from profilesmith.workflows.derive import derive, outputs_taken, write
from profilesmith.workflows.request import Request

MAP = "".join(
    f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\n'
    for setting, key in (("outer_wall.speed", "rim"), ("infill.speed", "core"))
)
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "printing speeds"\ncap = "40 mm/s"\nwhy = "test"\n'
)


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("base.cfg").write_text("rim = 80\ncore = 30\n")
    Path("map.toml").write_text(f"format = 1\n{MAP}")
    Path("slow.toml").write_text(RECIPE)
    return tmp_path


def request(*bases: str, **more: Any) -> Request:
    return Request(bases=bases or ("base.cfg",), key_map="map.toml", recipes=("slow.toml",), **more)


def codes(refused: pytest.ExceptionInfo[Refused]) -> list[str]:
    return [problem.code for problem in refused.value.problems]


def test_deriving_writes_nothing_by_itself(here: Path) -> None:
    made = derive(request())
    assert made.outputs == (b"rim = 40\ncore = 30\n",)
    assert sorted(path.name for path in here.iterdir()) == ["base.cfg", "map.toml", "slow.toml"]


def test_the_ledger_lies_beside_the_derived_file() -> None:
    assert [str(path) for path in write(derive(request()), "out.cfg")] == ["out.cfg", "out.cfg.ledger.json"]
    ledger = json.loads(Path("out.cfg.ledger.json").read_text(encoding="utf-8"))
    for listed, name in (("files", "base.cfg"), ("outputs", "out.cfg")):
        assert ledger[listed] == [{"name": name, "sha256": hashlib.sha256(Path(name).read_bytes()).hexdigest()}]


def test_a_facts_file_that_ships_is_no_place_for_an_output() -> None:
    """Looked up by its name, it is guarded as the file that it is, as recipes and maps are."""
    name = "flexible-pla-92a-spool"
    place = str(shipped() / "facts" / f"{name}.toml")
    made = derive(request(facts=(name,)))
    assert place in made.inputs
    assert [problem.code for problem in outputs_taken(made, place, True, ())] == ["output-is-input"]


def test_an_output_folder_takes_the_bases_name() -> None:
    Path("out").mkdir()
    assert [str(path) for path in write(derive(request()), "out")] == ["out/base.cfg", "out/base.cfg.ledger.json"]


def test_several_bases_go_into_a_folder_that_is_made() -> None:
    Path("rest.cfg").write_text("core = 90\n")
    Path("base.cfg").write_text("rim = 80\n")
    write(derive(request("base.cfg", "rest.cfg")), "out")
    assert sorted(path.name for path in Path("out").iterdir()) == ["base.cfg", "base.cfg.ledger.json", "rest.cfg"]
    assert (Path("out/base.cfg").read_text(), Path("out/rest.cfg").read_text()) == ("rim = 40\n", "core = 40\n")


def two_of_one_name() -> Any:
    for folder, text in (("a", "rim = 80\n"), ("b", "core = 90\n")):
        Path(folder).mkdir()
        Path(folder, "p.cfg").write_text(text)
    return derive(request("a/p.cfg", "b/p.cfg"))


def test_two_bases_of_one_name_do_not_write_over_one_another() -> None:
    with pytest.raises(Refused) as refused:
        write(two_of_one_name(), "out")
    assert codes(refused)[:1] == ["same-output"]


def test_a_refusal_leaves_no_folder_behind() -> None:
    Path("rest.cfg").write_text("core = 90\n")
    Path("base.cfg").write_text("rim = 80\n")
    Path("review.md").write_text("mine\n")
    with pytest.raises(Refused):
        write(derive(request("base.cfg", "rest.cfg")), "out", reports=[("review.md", "markdown")])
    assert not Path("out").exists()


@pytest.mark.parametrize("name", ["base.cfg", "map.toml", "slow.toml", "facts.toml"])
def test_no_input_is_ever_an_output(name: str) -> None:
    Path("facts.toml").write_text('format = 1\n[machine]\ndrive = "direct"\n')
    before = Path(name).read_bytes()
    with pytest.raises(Refused) as refused:
        write(derive(request(facts=("facts.toml",))), name, overwrite=True)
    assert "output-is-input" in codes(refused)
    assert Path(name).read_bytes() == before


def test_facts_that_say_nothing_are_an_input_too() -> None:
    """Every file that was read counts, whatever was found in it."""
    Path("facts.toml").write_text('format = 1\n[machine]\nname = "bench"\n')
    before = Path("facts.toml").read_bytes()
    with pytest.raises(Refused):
        write(derive(request(facts=("facts.toml",))), "facts.toml", overwrite=True)
    assert Path("facts.toml").read_bytes() == before


def test_a_conflict_is_no_exception_and_is_not_written() -> None:
    Path("slow.toml").write_text(RECIPE + '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "50 mm/s"\n')
    made = derive(request())
    assert [problem.code for problem in made.problems] == ["conflict"]
    assert made.outputs == ()
    with pytest.raises(Refused) as refused:
        write(made, "out.cfg")
    assert refused.value.exit_code == 3
    assert not Path("out.cfg").exists()


def test_all_mistakes_of_all_files_in_one_run() -> None:
    Path("base.cfg").write_text("rim = fast\n")
    Path("slow.toml").write_text(RECIPE.replace("40 mm/s", "40 mm"))
    Path("facts.toml").write_text('format = 1\n[machine]\ndrive = "x"\n')
    with pytest.raises(Refused) as refused:
        derive(request("base.cfg", "none.cfg", facts=("facts.toml",)))
    assert {"no-value", "no-file", "operand", "fact-value"} <= set(codes(refused))


def test_a_base_whose_name_is_no_utf_8(here: Path) -> None:
    import os

    name = os.fsdecode(b"b\xff.cfg")
    try:
        Path(name).write_text("rim = 80\n")
    except OSError:
        pytest.skip("this file system has no such names")
    write(derive(request(name)), "out.cfg")
    assert Path("out.cfg").read_text() == "rim = 40\n"
    assert json.loads(Path("out.cfg.ledger.json").read_text(encoding="utf-8"))["files"][0]["name"].startswith("b")


def test_the_public_face_does_the_same() -> None:
    made = profilesmith.derive(request())
    profilesmith.write(made, "out.cfg")
    assert profilesmith.read(Request(bases=("out.cfg",), key_map="map.toml")).profile.number("outer_wall.speed") == 40
    with pytest.raises(profilesmith.Refused):
        profilesmith.read(Request(bases=("none.cfg",), key_map="map.toml"))


def test_deriving_again_from_the_derived_changes_nothing(program: Callable[..., Any]) -> None:
    write(derive(request()), "out.cfg")
    again = derive(request("out.cfg"))
    assert again.outputs[0] == Path("out.cfg").read_bytes()
    assert {row.status for row in again.ledger.rows} <= {"kept", "by hand"}


def test_a_ledger_in_the_way_is_told_before_the_review(tmp_path: Path) -> None:
    """The derived file's own place is free, its ledger's is not: to be told of that after a long review is too late."""
    (tmp_path / "base.cfg").write_text("rim = 80\n")
    (tmp_path / "map.toml").write_text('format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n')
    made = derive(Request((str(tmp_path / "base.cfg"),), str(tmp_path / "map.toml")))
    out = str(tmp_path / "soft.cfg")
    assert outputs_taken(made, out, False, ()) == []
    (tmp_path / "soft.cfg.ledger.json").write_text("{}")
    assert [problem.code for problem in outputs_taken(made, out, False, ())] == ["exists"]
    assert outputs_taken(made, out, True, ()) == []


def test_a_text_of_too_many_lines_is_refused_in_a_sentence(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each line takes memory while it is worked with: a bound takes the place of a machine without any left."""
    monkeypatch.setattr(read_module, "MOST_LINES", 100)
    (tmp_path / "map.toml").write_text('format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n')
    for end in ("\n", "\r\n", "\r"):
        for count, fits in ((100, True), (101, False)):
            (tmp_path / "base.cfg").write_bytes(f"rim = 60{end}".encode() + f"x{end}".encode() * (count - 1))
            request = Request(bases=(str(tmp_path / "base.cfg"),), key_map=str(tmp_path / "map.toml"))
            if fits:
                assert derive(request).problems == ()
                continue
            with pytest.raises(Refused) as refused:
                derive(request)
            assert [problem.code for problem in refused.value.problems] == ["too-large"]
            assert "more than 100 lines" in refused.value.problems[0].message


def test_a_ledger_that_could_not_be_read_again_is_not_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "map.toml").write_text('format = 1\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n')
    (tmp_path / "base.cfg").write_text("rim = 60\n")
    made = derive(Request(bases=(str(tmp_path / "base.cfg"),), key_map=str(tmp_path / "map.toml")))
    monkeypatch.setattr(derive_module, "LARGEST_LEDGER", 100)
    with pytest.raises(Refused) as refused:
        write(made, str(tmp_path / "out.cfg"))
    assert [problem.code for problem in refused.value.problems] == ["too-large"]
    assert not (tmp_path / "out.cfg").exists()
    assert not list(tmp_path.glob("*.part")) + list(tmp_path.glob("*.ledger.json"))
