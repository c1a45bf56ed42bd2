"""Orders: strict reading, what is refused before anything is written, one failing and the rest going on, summaries."""

from __future__ import annotations

import gc
import json
import weakref
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

import html5lib
import pytest
from markdown_it import MarkdownIt

from profilesmith.foundation.problem import Problem, Refused
from profilesmith.reports.batch import FORMS, Summary
from profilesmith.workflows.batch import batch as module
from profilesmith.workflows.batch import work as batch_work
from profilesmith.workflows.batch.batch import make_plan, run
from profilesmith.workflows.batch.order import load_order
from profilesmith.workflows.batch.plan import written
from profilesmith.workflows.batch.totals import Totals
from profilesmith.workflows.batch.work import FAULT, BatchResult
from profilesmith.workflows.derive import derive
from profilesmith.workflows.request import Request

Program = Callable[..., Any]
MAP = 'format = 1\n[keymap]\nname = "bench"\n[[binding]]\nsetting = "outer_wall.speed"\nkey = "rim"\n'
RECIPE = (
    'format = 1\n[recipe]\nname = "slow"\nversion = "1.0.0"\n[[rule]]\n'
    'setting = "outer_wall.speed"\ncap = "{cap} mm/s"\nwhy = "test"\n'
)
STRICT = (
    RECIPE.format(cap=40).replace("slow", "fast")
    + '[[rule]]\nsetting = "outer_wall.speed"\nraise_to = "60 mm/s"\nwhy = "test"\n'
)
HEAD = 'format = 1\n[order]\nname = "club"\nkeymap = "map.toml"\nrecipes = ["slow.toml"]\nout = "out"\n'


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("map.toml").write_text(MAP)
    Path("slow.toml").write_text(RECIPE.format(cap=40))
    Path("slower.toml").write_text(RECIPE.format(cap=20).replace("slow", "slower"))
    Path("strict.toml").write_text(STRICT)
    Path("bases").mkdir()
    for number in range(5):
        Path("bases", f"{number}.cfg").write_text(f"rim = {50 + number}\nlamp = {number}\n")
    return tmp_path


def order(*jobs: str, head: str = HEAD) -> str:
    Path("order.toml").write_text(head + "".join(f"[[job]]\n{job}\n" for job in jobs), encoding="utf-8")
    return "order.toml"


def results(*jobs: str, processes: int = 1, overwrite: bool = False, head: str = HEAD) -> list[BatchResult]:
    return list(run(make_plan(order(*jobs, head=head), None, overwrite), processes, overwrite))


def refused(*jobs: str, overwrite: bool = False, head: str = HEAD) -> list[str]:
    before = sorted(Path().rglob("*"))
    with pytest.raises(Refused) as found:
        make_plan(order(*jobs, head=head), None, overwrite)
    assert set(Path().rglob("*")) - set(before) <= {Path("order.toml")}
    return [problem.code for problem in found.value.problems]


def test_many_bases_and_many_recipes() -> None:
    done = results(
        'base = "bases/*.cfg"',
        'base = "bases/3.cfg"\nrecipes = ["slow.toml", "slower.toml"]\nout = "very"\nfile = "three.cfg"',
    )
    assert [(result.bases[0], result.code, result.changed) for result in done] == [
        *((f"bases/{number}.cfg", 0, 1) for number in range(5)),
        ("bases/3.cfg", 0, 1),
    ]
    assert Path("out/4.cfg").read_text() == "rim = 40\nlamp = 4\n"
    assert Path("very/three.cfg").read_text() == "rim = 20\nlamp = 3\n"
    assert done[-1].written == ("very/three.cfg", "very/three.cfg.ledger.json")


def test_each_output_is_what_derive_writes() -> None:
    results('base = "bases/*.cfg"')
    for number in range(5):
        alone = derive(Request((f"bases/{number}.cfg",), "map.toml", ("slow.toml",)))
        assert Path(f"out/{number}.cfg").read_bytes() == alone.outputs[0]
        ledger = json.loads(Path(f"out/{number}.cfg.ledger.json").read_text(encoding="utf-8"))
        assert ledger["rows"] == json.loads(json.dumps(alone.review.data["rows"]))
        assert ledger["outputs"][0]["name"] == f"{number}.cfg"


def test_one_fails_and_the_rest_goes_on() -> None:
    Path("bases/1.cfg").write_bytes(b"\x89PNG no settings")
    Path("bases/2.cfg").write_text("rim = fast\n")
    done = results('base = "bases/*.cfg"', 'base = "bases/0.cfg"\nrecipes = ["strict.toml"]\nout = "no"')
    assert [result.code for result in done] == [0, 2, 2, 0, 0, 3]
    assert sorted(path.name for path in Path("out").iterdir()) == sorted(
        f"{number}.cfg{end}" for number in (0, 3, 4) for end in ("", ".ledger.json")
    )
    assert not Path("no").exists()
    assert "1.cfg" in str(done[1].problems[0])
    assert done[-1].conflicts == 1


def test_the_same_over_several_processes() -> None:
    Path("bases/2.cfg").write_text("rim = fast\n")
    alone = results('base = "bases/*.cfg"')
    outputs = {path.name: path.read_bytes() for path in Path("out").iterdir()}
    assert results('base = "bases/*.cfg"', processes=3, overwrite=True) == alone
    assert {path.name: path.read_bytes() for path in Path("out").iterdir()} == outputs


def test_files_of_one_machine_go_together() -> None:
    Path("bases/5.cfg").write_text("lid = 1\n")
    done = results('base = ["bases/0.cfg", "bases/5.cfg"]\ntogether = true')
    assert [result.written for result in done] == [("out/0.cfg", "out/5.cfg", "out/0.cfg.ledger.json")]
    assert Path("out/5.cfg").read_text() == "lid = 1\n"


def test_a_job_s_words_go_before_the_order_s_and_answers_add_up() -> None:
    head = HEAD + 'answers = { "machine.drive" = "remote", "spool.material" = "soft" }\nfollow_literals = true\n'
    tasks = make_plan(
        order('base = "bases/0.cfg"\nanswers = { "machine.drive" = "direct" }\nfollow_literals = false', head=head),
        None,
        False,
    ).tasks
    assert tasks[0].request.answers == {"machine.drive": "direct", "spool.material": "soft"}
    assert not tasks[0].request.follow_literals


def test_an_order_is_read_from_its_own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    order('base = "bases/*.cfg"')
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    assert [result.code for result in run(make_plan("../order.toml", None, False), 1, False)] == [0] * 5
    assert (tmp_path / "out/0.cfg").is_file()


def test_a_pattern_passes_over_what_was_derived() -> None:
    results('base = "bases/*.cfg"\nout = "bases/soft"')
    tasks = make_plan(order('base = "**/*.cfg"'), None, True).tasks
    assert [task.request.bases[0] for task in tasks] == [f"bases/{number}.cfg" for number in range(5)]


@pytest.mark.parametrize(
    ("job", "codes"),
    [
        ('base = "bases/*.cfg"\nfile = "one.cfg"', ["file-name"]),
        ('base = "bases/0.cfg"\nfile = "../one.cfg"', ["file-name"]),
        ('base = "nothing/*.cfg"', ["no-match"]),
        ('base = "../*.cfg"', ["outside"]),
        ('base = "bases/9.cfg"', ["no-file"]),
        ('base = "bases/0.cfg"\nrecipes = ["gone.toml"]', ["no-file"]),
        ('base = "bases/0.cfg"\nrecipes = ["no-such-recipe"]', ["not-found"]),
        ('base = "bases/0.cfg"\nout = "../escape"', ["outside"]),
        ('base = "bases/0.cfg"\nout = "a/../../escape"', ["outside"]),
        ('base = "bases/0.cfg"\nout = ".."', ["outside"]),
        ('base = "bases/0.cfg"\nkeymap = "slow.toml"', ["wrong-kind"]),
        ('base = "bases/0.cfg"\nbses = "x"', ["unknown-key"]),
        ("base = []", ["missing"]),
        ('base = [""]', ["empty"]),
        ("base = 3", ["wrong-type", "missing"]),
        ('base = "bases/0.cfg"\nanswers = { x = 1 }', ["wrong-type"]),
        ('base = "bases/0.cfg"\nout = "bases"', ["output-is-input"]),
        ('base = "bases/0.cfg"\nout = "."\nfile = "map.toml"', ["output-is-input"]),
        ('base = "bases/0.cfg"\nout = "."\nfile = "order.toml"', ["output-is-input"]),
        ('base = "bases/0.cfg"\nout = "."\nfile = "bases"', ["is-folder"]),
    ],
)
def test_refused_before_anything_is_written(job: str, codes: list[str]) -> None:
    found = refused(job, overwrite=True)
    assert set(codes) <= set(found), found


def test_all_mistakes_of_an_order_at_once() -> None:
    order('bas = "x"', "base = 3\nout = 4", head='format = 1\n[order]\nkeymp = "x"\n')
    found, problems = load_order("order.toml")
    assert found is None
    assert {"missing", "unknown-key", "wrong-type"} == {problem.code for problem in problems}
    assert len(problems) >= 7
    assert all(problem.place.line for problem in problems if problem.code != "missing")


def test_a_name_that_is_not_in_the_library_has_the_line_that_says_it() -> None:
    with pytest.raises(Refused) as found:
        make_plan(
            order(
                'base = "bases/0.cfg"',
                'base = "bases/1.cfg"\nrecipes = ["fleixble-pla"]',
                head=HEAD.replace("map.toml", "mpa"),
            ),
            None,
            False,
        )
    assert [(problem.code, str(problem.place)) for problem in found.value.problems] == [
        ("not-found", "order.toml:4 (order, keymap)"),
        ("not-found", "order.toml:11 (job 2, recipes)"),
    ]


def test_a_place_outside_of_the_order_s_folder_is_named_in_full(tmp_path_factory: pytest.TempPathFactory) -> None:
    away = tmp_path_factory.mktemp("away")
    assert [result.code for result in results(f'base = "bases/0.cfg"\nout = "{away}"')] == [0]
    assert (away / "0.cfg").is_file()


def test_two_jobs_that_would_write_one_file() -> None:
    assert refused('base = "bases/*.cfg"', 'base = "bases/3.cfg"\nrecipes = ["slower.toml"]') == ["same-output"]
    assert (
        refused('base = ["bases/0.cfg", "bases/1.cfg"]\nout = "o/../o"', 'base = "bases/1.cfg"\nout = "o"')[0]
        == "same-output"
    )
    # A derived file with the name of another's ledger.
    assert "same-output" in refused('base = "bases/0.cfg"', 'base = "bases/1.cfg"\nfile = "0.cfg.ledger.json"')


def test_outputs_that_exist_need_a_word() -> None:
    results('base = "bases/0.cfg"')
    assert refused('base = "bases/0.cfg"') == ["exists"]
    Path("out/0.cfg").unlink()
    assert refused('base = "bases/0.cfg"') == ["exists"]  # its ledger alone
    assert [result.code for result in results('base = "bases/0.cfg"', overwrite=True)] == [0]


def test_an_order_is_bounded() -> None:
    assert refused(*['base = "bases/0.cfg"'] * 5_001) == ["too-many"]
    Path("order.toml").write_bytes(b"#" * 1_100_000)
    assert [problem.code for problem in load_order("order.toml")[1]] == ["too-large"]


def test_a_fault_of_ours_stops_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    carry_out = batch_work.carry_out

    def broken(task: Any, overwrite: bool, shelf: Any, discard_edits: bool) -> Any:
        if "1.cfg" in task.out:
            raise ZeroDivisionError("oh")
        return carry_out(task, overwrite, shelf, discard_edits)

    monkeypatch.setattr(batch_work, "carry_out", broken)
    done = results('base = "bases/*.cfg"')
    assert [result.code for result in done] == [0, FAULT, 0, 0, 0]
    assert "ZeroDivisionError" in done[1].problems[0].message


@pytest.mark.parametrize(
    ("codes", "wanted"), [((0, 0), 0), ((0, 3), 3), ((3, 2, 0), 2), ((3, FAULT, 2), FAULT), ((), 0)]
)
def test_the_exit_code_is_the_worst(codes: tuple[int, ...], wanted: int) -> None:
    totals = Totals()
    for code in codes:
        totals.add(BatchResult(1, ("a",), code=code))
    assert totals.exit_code == wanted


HOSTILE = BatchResult(2, ("a|b\x1b[31m\u202e.cfg",), ("out/<b>.cfg",), 3, 0, 1, 2, (Problem("x", 'no "way"\n| x'),))


def summary(form: str, *found: BatchResult) -> str:
    pieces: list[str] = []
    totals = Totals()
    told = Summary(form, "club | night\x07", pieces.append)
    for result in found:
        totals.add(result)
        told.add(result)
    told.end(totals)
    return "".join(pieces)


@pytest.mark.parametrize(
    "found", [(), (BatchResult(1, ("a.cfg",), ("o/a.cfg",), 1),), (HOSTILE, BatchResult(3, ("c",)))]
)
def test_the_json_is_json(found: tuple[BatchResult, ...]) -> None:
    data = json.loads(summary("json", *found))
    assert [item["bases"] for item in data["results"]] == [list(result.bases) for result in found]
    assert data["totals"]["derivations"] == len(found)


@pytest.mark.parametrize("form", FORMS)
def test_strangers_words_are_harmless(form: str) -> None:
    text = summary(form, HOSTILE)
    assert not {"\x1b", "\u202e", "\x07"} & set(text)
    assert len(text.strip().splitlines()) == {"terminal": 3, "markdown": 7}.get(form, len(text.strip().splitlines()))


def test_the_markdown_is_a_table() -> None:
    html = (
        MarkdownIt("commonmark")
        .enable("table")
        .render(summary("markdown", HOSTILE, BatchResult(3, ("c.cfg",), ("o/c.cfg",), 1)))
    )
    assert html.count("<tr>") == 3
    assert html.count("<td>") == 14
    assert "<b>" not in html


def test_the_page_is_a_table_of_texts() -> None:
    text = summary("page", HOSTILE, BatchResult(3, ("c.cfg",), ("o/c.cfg",), 1))
    root = html5lib.HTMLParser(strict=True).parse(text)
    x = "{http://www.w3.org/1999/xhtml}"
    rows = [["".join(cell.itertext()) for cell in row] for row in root.iter(f"{x}tr")]
    assert [len(row) for row in rows] == [7, 7, 7]
    assert rows[2][:3] == ["3", "basec.cfg", "writteno/c.cfg"]
    assert [word for item in root.iter(f"{x}footer") for word in item.itertext()] == [
        "2 derivations, 1 written, 1 failed, 1 caution."
    ]
    assert not list(root.iter(f"{x}b"))


def test_the_command(program: Program) -> None:
    Path("bases/2.cfg").write_text("rim = fast\n")
    ran = program("batch", order('base = "bases/*.cfg"'), "--jobs", "1", "--report", "sum.md")
    assert ran.code == 2
    assert ran.out.splitlines()[1] == "bases/0.cfg → out/0.cfg: 1 setting changed"
    assert ran.out.splitlines()[-1] == "5 derivations, 4 written, 1 failed."
    assert Path("sum.md").read_text(encoding="utf-8").count("\n| ") == 7
    again = program("batch", "order.toml", "--overwrite", "-q", "--jobs", "1", "--report", "sum.json")
    assert (again.code, again.out) == (2, "")
    assert "2.cfg" in again.err
    assert json.loads(Path("sum.json").read_text())["totals"]["failed"] == 1
    assert program("batch", "order.toml", "--as", "motion").codes == ("form",)
    assert program("batch", "order.toml", "--overwrite", "--report", "out/0.cfg.md", "--jobs", "1").code == 2
    ran = program("batch", "order.toml", "--overwrite", "--report", "sum.csv")
    assert ran.codes == ("form",)
    assert ran.err.endswith("Known endings: .html, .htm, .md, .json, .txt.\n")


@pytest.mark.parametrize("form", ["sheet", "checklist"])
def test_each_file_in_a_form_of_its_own(program: Program, form: str) -> None:
    ran = program("batch", order('base = ["bases/0.cfg", "bases/1.cfg"]'), "--as", form, "--jobs", "1")
    assert ran.code == 0, ran.err
    assert ran.out.count("derived from") == 2
    assert ran.out.count("\n---\n") == 1


def test_a_report_is_no_output_and_no_input(program: Program) -> None:
    Path("bases/5.md").write_text("rim = 60\n")
    order('base = "bases/5.md"')
    for report in ("out/5.md", "bases/5.md"):
        assert program("batch", "order.toml", "--report", report, "--overwrite").codes == ("output-is-input",)
        assert not Path("out").exists()


def test_what_a_task_writes() -> None:
    tasks = make_plan(order('base = ["bases/0.cfg", "bases/1.cfg"]\ntogether = true'), None, False).tasks
    assert written(tasks[0]) == ["out/0.cfg", "out/1.cfg", "out/0.cfg.ledger.json"]


def test_a_report_that_would_be_the_ledger_is_refused(program: Program) -> None:
    ran = program(
        "derive",
        "bases/0.cfg",
        "--keymap",
        "map.toml",
        "--recipe",
        "slow.toml",
        "-o",
        "x.json",
        "--report",
        "x.json.ledger.json",
    )
    assert ran.code == 2
    assert not Path("x.json").exists()


def test_an_output_behind_a_link_stays_in_the_orders_folder(
    here: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    away = tmp_path_factory.mktemp("away")
    (here / "out").symlink_to(away)
    assert refused('base = "bases/1.cfg"') == ["outside"]
    assert list(away.iterdir()) == []
    assert [result.code for result in results(f'base = "bases/1.cfg"\nout = "{away}"')] == [0]
    assert {path.name for path in away.iterdir()} == {"1.cfg", "1.cfg.ledger.json"}


class Circle:
    """Something that points at itself."""

    def __init__(self) -> None:
        self.me = self


@pytest.mark.parametrize("circles", [0, 1])
def test_waste_in_circles_is_taken_out_whenever_there_was_some(circles: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """Looked for in every eighth chunk; once found, in all of them, and among what was not looked at before."""
    left: list[weakref.ref[Circle]] = []

    def work(chunk: Sequence[Any], *given: Any) -> list[BatchResult]:
        left.extend(weakref.ref(Circle()) for _ in range(circles))
        return []

    monkeypatch.setattr(module, "work", work)
    collected: list[int] = []
    collect = gc.collect
    monkeypatch.setattr(module.gc, "collect", lambda: collected.append(1) or collect())
    try:
        module._begin(None)
        for _ in range(2 * module.LOOK):
            module._several((), True, False)
        assert all(circle() is None for circle in left)
        assert len(collected) == (1 + 2 + module.LOOK - 1 if circles else 2)
    finally:
        module._MINE.clear()
        gc.unfreeze()
