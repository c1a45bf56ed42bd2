"""Blocks and modal state, against the worked examples of NISTIR 6556 (from a public partial transcription)."""

from __future__ import annotations

import gc
from collections.abc import Callable

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from profilesmith.motion.block import read_block
from profilesmith.motion.lines import LineTooLong
from profilesmith.motion.measure import measure
from profilesmith.motion.numpy_lines import NumpyLines
from profilesmith.motion.practice import Practice
from profilesmith.motion.read_motion import read_motion
from profilesmith.motion.rows import Rows
from profilesmith.motion.simple_lines import Lines, SimpleLines
from profilesmith.motion.state import State


def carried_out(
    text: str,
    practice: Practice = Practice(),
    short_cut: bool = True,
    read_lines: Callable[[str], Lines] = SimpleLines,
) -> State:
    return list(read_motion([text.encode()], practice, short_cut, read_lines))[-1]


def codes(state: State) -> list[str]:
    return [doubt.code for doubt in state.doubts]


def test_the_report_s_example_of_blanks_inside_numbers() -> None:
    """NISTIR 6556: ``g0x +0. 12 34y 7`` is ``g0 x+0.1234 y7``."""
    block = read_block("g0x +0. 12 34y 7", 1)
    assert block.codes == ("G0",)
    assert block.values == {"X": 0.1234, "Y": 7.0}
    assert [fault.code for fault in block.faults] == ["blank-in-number"]


def test_the_report_s_example_of_g92() -> None:
    """NISTIR 6556: at x = 4, ``G92 x7`` makes an offset of -3; then ``G92 x9`` makes it -5."""
    state = carried_out("G21 G90\nG1 X4 Y0 Z0 F100\nG92 X7\n")
    assert state.offset[0] == -3
    state = carried_out("G21 G90\nG1 X4 Y0 Z0 F100\nG92 X7\nG92 X9\n")
    assert state.offset[0] == -5
    assert state.true_spot()[0] == 4


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("G1 X1 (a (b) G1 X9", "nested-remark"),
        ("G1 X1 (never closed", "open-remark"),
        ("G1 E1e-05", "exponent"),
        ("G1 X#1", "expression"),
        ("G1 X[1+2]", "expression"),
        ("G1 X1 X2", "twice"),
        ("N3 G1 X1*99", "checksum"),
        ("G1 X1 ?", "unread"),
        ("G", "no-number"),
    ],
)
def test_faults_are_named(text: str, fault: str) -> None:
    assert fault in [found.code for found in read_block(text, 1).faults]


def test_words_without_blanks_are_two_words() -> None:
    block = read_block("G1X10E-0.5", 1)
    assert block.values == {"X": 10.0, "E": -0.5}
    assert block.faults == ()


def test_a_right_checksum_is_taken_off() -> None:
    body = "N12 G1 X3"
    told = 0
    for byte in body.encode():
        told ^= byte
    block = read_block(f"{body}*{told}", 1)
    assert block.faults == ()
    assert block.values == {"N": 12.0, "X": 3.0}


def test_nothing_in_a_message_is_a_word() -> None:
    state = carried_out("G21 G90\nG1 X0 Y0 Z0 F600\nM117 now G1 X9\nG1 X1\n")
    assert state.rows.x == [0.0, 1.0]
    assert codes(state) == []


def test_axis_words_alone_repeat_the_motion() -> None:
    state = carried_out("G21 G90 M82\nG1 X0 Y0 Z0 F600\nX3 Y4\nG80\nX9\n")
    assert state.rows.x == [0.0, 3.0]
    assert codes(state) == ["no-motion-mode"]


def test_inches_and_steps() -> None:
    state = carried_out("G20\nG91\nG90\nG0 X0 Y0 Z0 F10\nG91\nG1 X1 Y2\nG1 X1\n")
    assert state.true_spot() == pytest.approx((50.8, 50.8, 0))


@pytest.mark.parametrize(
    ("words", "middle"),
    [
        ("G2 X10 Y0 I5 J0", (5.0, 5.0)),  # clockwise from the left end: over the top
        ("G3 X10 Y0 I5 J0", (5.0, -5.0)),
        ("G2 X10 Y0 R5", (5.0, 5.0)),
        ("G3 X10 Y0 R5.000001", (5.0, -5.0)),
    ],
)
def test_arcs_turn_the_right_way(words: str, middle: tuple[float, float]) -> None:
    rows = carried_out(f"G21 G90 G17\nG1 X0 Y0 Z0 F600\n{words}\n").rows
    half = 1 + (len(rows) - 1) // 2 - 1
    assert (rows.x[half], rows.y[half]) == pytest.approx(middle, abs=0.1)


def test_the_long_arc_has_a_negative_radius() -> None:
    rows = carried_out("G21 G90 G17\nG1 X0 Y0 Z0 F600\nG2 X1 Y1 R-1\n").rows
    length = sum(
        ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        for x0, x1, y0, y1 in zip(rows.x, rows.x[1:], rows.y, rows.y[1:], strict=False)
    )
    assert length == pytest.approx(1.5 * 3.14159265, rel=2e-5)


def test_text_after_the_end_is_not_run() -> None:
    state = carried_out("G21 G90\nG1 X0 Y0 Z0 F600\nM2\nG1 X5\n")
    assert state.rows.x == [0.0]


def columns(rows: Rows) -> tuple[object, ...]:
    return rows.line, rows.x, rows.y, rows.z, rows.strand, rows.speed, rows.jumps, rows.events


NUMBERS = st.decimals(-50, 50, places=3).map(str)
WORDS = st.fixed_dictionaries(
    {},
    optional={
        "F": st.one_of(st.decimals(1, 9000, places=1).map(str), st.sampled_from(["0", "-5"])),
        "X": NUMBERS,
        "Y": NUMBERS,
        "Z": NUMBERS,
        "E": st.one_of(
            NUMBERS,
            st.sampled_from(["1.2.3", "-", "0", ".5", "-.5", "7.", ".", "1-2", "1234567.123456789", "12345678"]),
        ),
    },
)
MOVES = st.builds(
    lambda motion, words, back: (
        motion + "".join(f" {k}{v}" for k, v in (reversed(words.items()) if back else words.items()))
    ),
    st.sampled_from(["G0", "G1", "G1", "G01"]),
    WORDS,
    st.booleans(),
)
OTHERS = st.sampled_from(
    [
        "M82",
        "M83",
        "G90",
        "G91",
        "G92 E0",
        "G92 X1",
        "G20",
        "G21",
        "M220 S50",
        "M221 S80",
        "M204 S900",
        "G28 X",
        "",
        "G2 X1 Y1 I1 J0",
        "; wall",
        "G4 P20",
        "G93",
        "G94",
        "M200 D1.75",
        "G10",
        "G11",
        "M207 S1 F1800",
        "M117 G1 X9",
        "G1",
        "G1 ",
        "G0 F900",
        "G1 F900 X3 F800",
        "G1X3",
        "G1 X3  Y4",
        "G1 XG1 5",
        "5G1 X3",
        "G1-X3",
        "G1 X1 X2",
        "G1 Y1 X2",
        "G1 X1 ; wall",
        "; W\u00e4nde",
    ]
)


@pytest.mark.parametrize("read_lines", [SimpleLines, NumpyLines])
@example(["G0 F1.1 E0", "G0 X0", "G0 F1.0 E0", "G0 E1.2.3"])  # an F was taken over before the odd E was seen
@example(["G1 X5 F12009000", "G1 E09999999999"])  # no machine goes so far
@given(st.lists(st.one_of(MOVES, MOVES, MOVES, OTHERS), max_size=40))
def test_the_short_cut_reads_as_word_by_word(read_lines: Callable[[str], Lines], lines: list[str]) -> None:
    text = "G21 G90 M83\nG1 X0 Y0 Z0 F1200\n" + "\n".join(lines) + "\n"
    practice = Practice(lines={"wall": "outer_wall"})
    short, plain = carried_out(text, practice, read_lines=read_lines), carried_out(text, practice, False)
    assert columns(short.rows) == columns(plain.rows)
    assert list(short.doubts) == list(plain.doubts)
    assert (short.at, short.strand, short.motion) == (plain.at, plain.strand, plain.motion)


@pytest.mark.parametrize("searching", [True, False])
def test_the_search_for_cycles_is_as_it_was_also_after_a_refusal(searching: bool) -> None:
    """It is left out while a file is read; a program that reads a motion file goes on as before."""
    before = gc.isenabled()
    try:
        (gc.enable if searching else gc.disable)()
        measure([b"G1 X1 Y1 F600\n"])
        assert gc.isenabled() == searching
        with pytest.raises(LineTooLong):
            measure([b"G1 X1 " + b"9" * 10_000_000])
        assert gc.isenabled() == searching
    finally:
        (gc.enable if before else gc.disable)()
