from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core import trace_table
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.core.trace_columns import Wishes
from tempo_coach.core.trace_text import read_trace
from tempo_coach.core.trace_writing import simulated_table
from tempo_coach.errors import OutOfRange, TraceRefused

UNITS = {"m": 1.0, "cm": 100.0, "mm": 1000.0}
HEADINGS = ("time [{time}]", "Time ({time})", "t_{time}")
HEIGHTS = ("height ({unit})", "Bar position [{unit}]", "z, {unit}")


@st.composite
def tables(draw: st.DrawFn) -> tuple[str, list[float], list[float | None]]:
    """Return a table in any dialect, with the times in s and the heights in m that it holds."""
    separator, decimal = draw(
        st.sampled_from([(",", "."), (";", "."), (";", ","), ("\t", "."), ("\t", ","), (" ", ".")])
    )
    unit = draw(st.sampled_from(list(UNITS)))
    time, per_s = draw(st.sampled_from([("s", 1.0), ("ms", 1000.0)]))
    heights = draw(
        st.lists(st.one_of(st.none(), st.integers(-2_000_000, 2_000_000)), min_size=3, max_size=30)
    )
    gap = "nan" if separator == " " else draw(st.sampled_from(["", "NaN", "NA"]))
    quote = draw(st.sampled_from(["", '"'])) if separator != " " else ""
    heading = draw(st.sampled_from(HEADINGS)).format(time=time)
    named = draw(st.sampled_from(HEIGHTS)).format(unit=unit)
    if separator in " ,":
        heading, named = f"time_{time}", f"height_{unit}"
    lines = [*draw(st.sampled_from([(), ("# made by hand",), ("Recorder 2", "", "Set 1")]))]
    lines.append(separator.join((heading, named)))
    times_s, metres = [], []
    for row, height in enumerate(heights):
        at_s, height_m = row / 100, None if height is None else height / 1_000_000
        cells = [
            f"{at_s * per_s:.3f}",
            gap if height_m is None else f"{height_m * UNITS[unit]:.6f}",
        ]
        lines.append(
            separator.join(f"{quote}{cell.replace('.', decimal)}{quote}" for cell in cells)
        )
        times_s.append(at_s)
        metres.append(height_m)
    end = draw(st.sampled_from(["\n", "\r\n"]))
    return end.join(lines) + draw(st.sampled_from(["", end])), times_s, metres


@settings(max_examples=50)
@given(tables())
def test_a_trace_in_any_dialect_is_read_back(
    table: tuple[str, list[float], list[float | None]],
) -> None:
    text, times_s, metres = table
    if all(height is None for height in metres[:2]):
        return  # nothing shows yet that the column holds numbers

    trace = read_trace(text)

    assert trace.quantity is Quantity.HEIGHT
    np.testing.assert_allclose(trace.times_s, times_s, atol=1e-9)
    expected = [np.nan if height is None else height for height in metres]
    np.testing.assert_allclose(trace.values, expected, atol=2e-9)


@given(tables())
def test_the_quick_way_reads_what_the_plain_way_reads(
    table: tuple[str, list[float], list[float | None]],
) -> None:
    text = table[0]
    dialect = trace_table.dialect_of(text)
    begins = trace_table._line_begins(text, dialect.first_row)

    quick = trace_table._quickly(text, begins, dialect, [0, dialect.columns - 1])

    if quick is not None:
        plain = trace_table._plainly(text, dialect, [0, dialect.columns - 1])
        np.testing.assert_array_equal(quick, plain)


def test_a_simulated_table_is_read_back() -> None:
    trace = Trace(np.arange(5) / 10, np.array([0.0, 1.5, np.nan, -2.25, 3.0]), Quantity.SPEED)

    read = read_trace("".join(simulated_table(trace, line="squat 1x1 1-0-1-0", seed=7)))

    assert (read.quantity, read.remarks) == (Quantity.SPEED, ())
    np.testing.assert_array_equal(read.times_s, trace.times_s)
    np.testing.assert_array_equal(read.values, trace.values)


def test_inches_and_gravity_are_exact() -> None:
    inches = read_trace("t (s),height (in)\n0,1\n1,10\n")
    felt = read_trace("t (s),acceleration (g)\n0,1\n1,2\n")

    assert inches.values.tolist() == [0.0254, 0.254]
    assert felt.values.tolist() == [9.80665, 19.6133]


@pytest.mark.parametrize(
    ("text", "wishes", "times_s", "values"),
    [
        # A row of units beneath the headings.
        ("Time\tZ\nms\tmm\n0\t1\n10\t2\n", Wishes(), [0, 0.01], [0.001, 0.002]),
        # No headings.
        ("0 1\n0.1 2\n", Wishes(), [0, 0.1], [1, 2]),
        # Rows that are counted.
        ("height (m)\n1\n2\n", Wishes(rate_hz=50), [0, 0.02], [1, 2]),
        # Columns by number and by name, a unit that is given.
        ("a,b,c\n0,5,7\n1,6,8\n", Wishes(time="1", height="c", unit="cm"), [0, 1], [0.07, 0.08]),
        # The figures grow on the way down.
        ("t (s),y (m)\n0,1\n1,2\n", Wishes(down_positive=True), [0, 1], [-1, -2]),
        # A time of day, and a comment within.
        ("time;h (m)\n00:00:01,5;1\n# pause\n00:00:01,6;2\n", Wishes(), [1.5, 1.6], [1, 2]),
        # Milliseconds since 1970.
        ("t_ms,h_m\n1700000000000,1\n1700000000010,2\n", Wishes(), [0, 0.01], [1, 2]),
    ],
)
def test_a_table_is_read_as_it_is_written(
    text: str, wishes: Wishes, times_s: list[float], values: list[float]
) -> None:
    trace = read_trace(text, wishes)

    np.testing.assert_allclose(trace.times_s, times_s, atol=1e-9)
    np.testing.assert_allclose(trace.values, values)


@pytest.mark.parametrize(
    ("text", "wishes", "message"),
    [
        ("", Wishes(), "there is no row of numbers in the first 0 lines"),
        ("only words\nand more\n", Wishes(), "there is no row of numbers in the first 2 lines"),
        ("t,h\n0,1\n1,1\n0.5,2\n", Wishes(), "line 4: the time runs backwards, from 1 to 0.5"),
        ("t,h\n0,1\n\n1,1\n1,2\n", Wishes(), "line 5: the time 1 stands there twice"),
        ("t,h\n0,1\n1,x\n2,1\n", Wishes(), "line 3: 'x' is no number"),
        ("t,h\n0,1\n1\n2,1\n", Wishes(), "line 3 has 1 cell, and column 2 is needed"),
        (
            "t,h\n0,01,1,5\n0,02,1,6\n",
            Wishes(),
            "line 2 has 4 cells, and the headings above it are 2",
        ),
        ("h\n1\n2\n", Wishes(), "no column is known as the time"),
        ("t,depth\n1,2\n2,3\n", Wishes(), "no column is known as the bar"),
        (
            "t,ay,az\n0,1,2\n1,2,3\n",
            Wishes(),
            "several columns could be the acceleration: 'ay', 'az'",
        ),
        ("t,y (px)\n0,1\n1,2\n", Wishes(), "the height is in 'px', which is no unit of it"),
        ("t,h\n0,1\n1,90\n", Wishes(), "the height names no unit, and a bar does not go 89 m"),
        ("t,v\n0,1\n1,90\n", Wishes(), "the speed names no unit, and a bar does not reach 90 m/s"),
        ("t,h\n0,1\n1,2\n", Wishes(height="hight"), "--height: there is no column 'hight'"),
        (
            "t,h\n0,1\n1,2\n",
            Wishes(height="2", speed="2"),
            "--height and --speed can't both be used",
        ),
        ("t,h\n0,1\n1,2\n", Wishes(height="t"), "column 1 can't be both the time and the height"),
    ],
)
def test_what_can_t_be_read_is_refused_in_a_sentence(
    text: str, wishes: Wishes, message: str
) -> None:
    with pytest.raises(TraceRefused) as refused:
        read_trace(text, wishes)

    assert refused.value.message.startswith(message)


def test_a_unit_that_is_none_is_refused() -> None:
    with pytest.raises(OutOfRange, match="'stone' is no unit of height"):
        read_trace("t,h\n0,1\n1,2\n", Wishes(unit="stone"))


def test_too_many_rows_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(trace_table, "MOST_ROWS", 3)

    with pytest.raises(TraceRefused, match=r"5 rows are too many; at most 3"):
        read_trace("t,h\n0,1\n1,2\n2,3\n3,4\n")


def test_what_was_taken_to_be_so_is_said() -> None:
    remarks = read_trace("t,height,speed (m/s)\n0,1,1\n1,2,1\n,3,1\n").remarks

    assert remarks == (
        "The speed beside it is not used.",
        "The time names no unit and is read as s.",
        "1 row without a time left out.",
        "The height names no unit and is read as m.",
    )
