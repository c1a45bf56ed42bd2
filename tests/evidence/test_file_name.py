"""File names for strangers' names: plain ones stay, no two share a file on any disk, none leads elsewhere.

Outside check: the device names that Microsoft's "Naming Files, Paths, and Namespaces" reserves (from memory).
"""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from profilesmith.evidence.file_name import safe_stem


@pytest.mark.parametrize("name", ["flexible-pla", "tpu-85a", "a", "x_y", "2"])
def test_plain_names_stay(name: str) -> None:
    assert safe_stem(name) == name


@pytest.mark.parametrize(
    "name",
    [
        "../x",
        "/etc/passwd",
        "..",
        ".",
        "",
        "con",
        "NUL",
        "com1",
        "lpt9",
        "Slow",
        "a b",
        "a\x00b",
        "é",
        "x" * 300,
        "a.html",
        "index",
        "-a",
        "a\u202eb",
        "C:\\x",
        "\ud800",
    ],
)
def test_odd_names_become_plain(name: str) -> None:
    stem = safe_stem(name)
    assert re.fullmatch(r"[a-z0-9-]{1,60}-[0-9a-f]{10}", stem)
    assert stem.partition("-")[0] not in ("con", "nul") or "-" in stem


@given(st.lists(st.text(max_size=70), unique=True, max_size=8))
def test_different_names_never_share_a_file_where_case_is_not_told_apart(names: list[str]) -> None:
    stems = [safe_stem(name).casefold() for name in names]
    assert len(set(stems)) == len(names)


def test_names_that_differ_by_case_or_look_hashed_stay_apart() -> None:
    odd = safe_stem("Slow")
    assert len({safe_stem("slow"), odd, safe_stem("SLOW"), safe_stem(odd)}) == 4
