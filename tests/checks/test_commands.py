"""``check``, ``materials``, ``--sources``: what comes out, and with which exit code."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest

from profilesmith.engine.derive import Derivation
from profilesmith.ledger.file import ledger_schema
from profilesmith.review.render import RENDERERS

RECIPES = Path(__file__).resolve().parents[2] / "recipes"
BASE = str(RECIPES / "profiles" / "plain-shop.settings")
HERE = (BASE, "--keymap", "plain-shop")


def test_check_exits_with_1_on_a_caution(program: Callable[..., object]) -> None:
    ran = program("check", *HERE, "--facts", "tpu-85a-spool", "--facts", "long-tube-bench-printer")
    assert ran.code == 1  # type: ignore[attr-defined]
    assert "Caution: Flow the spool gives" in ran.out  # type: ignore[attr-defined]
    assert "[source:" not in ran.out  # type: ignore[attr-defined]


def test_check_exits_with_0_without_one(program: Callable[..., object]) -> None:
    ran = program("check", *HERE, "--facts", "direct-drive-bench-printer")
    assert ran.code == 0  # type: ignore[attr-defined]
    assert "? Not judged:" in ran.out
    assert "settings differ" not in ran.out


def test_check_exits_with_2_on_wrong_input(program: Callable[..., object], tmp_path: Path) -> None:
    assert program("check", "nowhere.cfg", "--keymap", "plain-shop").code == 2  # type: ignore[attr-defined]
    facts = tmp_path / "facts.toml"
    facts.write_text('format = 1\n[spool]\ncolour = "blue"\n', encoding="utf-8")
    assert program("check", *HERE, "--facts", facts).code == 2  # type: ignore[attr-defined]


def test_a_fact_that_cannot_be_right_is_named_and_the_rest_goes_on(
    program: Callable[..., object], tmp_path: Path
) -> None:
    facts = tmp_path / "facts.toml"
    facts.write_text(
        'format = 1\n[spool]\nmaximum_flow = "4 mm3/s"\nnozzle_window = ["21 °C", "22 °C"]\nhardness = "soft"\n',
        encoding="utf-8",
    )
    ran = program("check", *HERE, "--facts", facts)
    assert ran.code == 1  # type: ignore[attr-defined]
    assert "Flow the spool gives" in ran.out  # type: ignore[attr-defined]
    assert "spool.nozzle_window" in ran.out
    assert "spool.hardness" in ran.out


def test_sources_and_full(program: Callable[..., object]) -> None:
    ran = program("check", *HERE, "--facts", "tpu-85a-spool", "--sources", "--full")
    assert ran.out.count("[source:") > 10
    assert "Passed: " in ran.out
    assert "NIOSH" in ran.out  # type: ignore[attr-defined]


@pytest.mark.parametrize("form", list(RENDERERS))
def test_check_in_every_form(program: Callable[..., object], form: str) -> None:
    ran = program("check", *HERE, "--facts", "tpu-85a-spool", "--as", form)
    assert ran.code == 1
    assert ran.out.strip()


def test_check_as_data(program: Callable[..., object]) -> None:
    data = json.loads(program("check", *HERE, "--facts", "tpu-85a-spool", "--as", "json").out)  # type: ignore[attr-defined]
    assert data["kind"] == "profilesmith check"
    assert {"findings", "figures", "cautions", "profile", "facts"} <= set(data)
    assert any(finding["verdict"] == "caution" for finding in data["findings"])


def test_compare_tells_consequences(program: Callable[..., object], tmp_path: Path) -> None:
    slow = tmp_path / "slow.settings"
    slow.write_text(Path(BASE).read_text(encoding="utf-8").replace("VCore=4200", "VCore=1200"), encoding="utf-8")
    ran = program("compare", BASE, slow, "--keymap", "plain-shop", "--facts", "tpu-85a-spool", "--full")
    assert "Note: Print time  1 to 3.5 times" in ran.out  # type: ignore[attr-defined]


def test_a_ledger_with_findings_is_as_published(derived: Callable[..., Derivation]) -> None:
    bindings = '[keymap]\nname = "t"\n' + "".join(
        f'[[binding]]\nsetting = "{setting}"\nkey = "{key}"\nunit = "{unit}"\n'
        for setting, key, unit in (
            ("layer.height", "h", "mm"),
            ("bead.width", "w", "mm"),
            ("infill.speed", "v", "mm/s"),
        )
    )
    rules = '[[rule]]\nsetting = "infill.speed"\ncap = "40 mm/s"\n'
    found = derived("h = 0.2\nw = 0.45\nv = 80\n", bindings, rules, facts='[spool]\nmaximum_flow = "4 mm3/s"\n')
    schema = ledger_schema()
    data = json.loads(json.dumps(dict(found.review.data)))
    jsonschema.Draft202012Validator(schema).validate(data)
    assert {"flow-spool", "print-time"} <= {item["check"] for item in data["findings"]}
    assert {item.check for item in found.review.consequences} == {item["check"] for item in data["findings"]}


def test_with_a_conflict_nothing_is_judged(derived: Callable[..., Derivation]) -> None:
    bindings = '[keymap]\nname = "t"\n[[binding]]\nsetting = "infill.speed"\nkey = "v"\nunit = "mm/s"\n'
    rules = (
        '[[rule]]\nsetting = "infill.speed"\ncap = "40 mm/s"\n[[rule]]\nsetting = "infill.speed"\n'
        'raise_to = "50 mm/s"\n'
    )
    found = derived("v = 80\n", bindings, rules)
    assert found.problems
    assert found.review.consequences == ()


def test_materials(program: Callable[..., object]) -> None:
    listed = program("materials")
    assert listed.code == 0
    assert "TPU 85A" in listed.out
    one = program("materials", "tpu85a")
    assert "10 to 30 MPa" in one.out
    assert "from memory" in one.out
    assert program("materials", "unobtainium").code == 2  # type: ignore[attr-defined]


def test_a_spool_goes_before_its_material(program: Callable[..., object]) -> None:
    out = program("materials", "--facts", "tpu-85a-spool").out  # type: ignore[attr-defined]
    assert "1.5 mm³/s  (this spool; usual 1 to 2.5 mm³/s)" in out
    assert "8 h  (this spool; usual 4 to 8 h)" in out
