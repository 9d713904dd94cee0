from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tempo_coach.core.facts import SetDone, line_of
from tempo_coach.core.log_lines import read_line
from tempo_coach.core.quick_lines import quick_values
from tempo_coach.core.set_rows import row_values
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import done_set

LINE = line_of(done_set())

_VALUES = st.sampled_from(
    (
        *("null", "true", "-1", "0", "1", "1.0", "3", "1e3", "1e400", "NaN", "-0.0", "7.3", "1001"),
        *("36000", "36000.5", "2000.1", "00", "1.", '""', '"3"', '"x"', '"4-1-X-1"', '"X-1-A-1"'),
        *('"41X1"', '"2:4"', '"\\ud800"', '"\\ud83d\\ude00"', "{}", "[]", '"lower"', '"tapped"'),
        *('"2026-11-25T18:00:10Z"', '"2026-11-25t18:00:10z"', '"2026-11-25 18:00:10+01:00"'),
        *('"2026-11-25T18:00:10,123+01:00"', '"2026-11-25T18:00+01:00:30.123"'),
        *('"2026-11-25T18:00:10.123456789+01:00"', '"2026-11-25T18:00:10-00:00"'),
        *('"2026-11-25T18:00:60+01:00"', '"2026-13-25T18:00:10+01:00"', '"2026-W48-3T18:00:10Z"'),
        *('"2026-11-25T18:00:10.123000+24:00"', '"２026-11-25T18:00:10+01:00"'),
        *('"' + "n" * 80 + '"', '"' + "n" * 81 + '"', '"' + "n" * 2001 + '"'),
    )
)


@st.composite
def damaged(draw: st.DrawFn) -> bytes:
    """Return the line of a set with some values and letters replaced."""
    line = draw(st.just(LINE) | strategies.sets_done.map(line_of)).decode()
    for _ in range(draw(st.integers(0, 2))):
        key = draw(st.sampled_from([*SetDone.model_fields, "lower", "raise", "top", "more"]))
        value = draw(_VALUES)
        before, found, rest = line.partition(f'"{key}":')
        if found and key != "seconds" and draw(st.booleans()):
            end = min(at for at in (rest.find(","), rest.find("}")) if at >= 0)
            line = f"{before}{found}{value}{rest[end:]}"
        else:
            line = line.rstrip("\n}") + f',"{key}":{value}}}\n'
    content = line.encode()
    if draw(st.booleans()):
        at = draw(st.integers(0, len(content)))
        content = content[:at] + draw(st.binary(max_size=2)) + content[at + 1 :]
    return content


@given(damaged())
@example(LINE.replace(b'"v":1', b'"v":2'))
@example(LINE.replace(b'"v":1,', b'"v":1,"v":2,'))
@example(LINE.replace(b'"effort":8.0', b'"effort":7.3'))
@example(LINE.rstrip(b"\n"))
@example(LINE.replace(b"\n", b"\r\n"))
@example(LINE.replace(b"\n", b" \n"))
def test_what_is_read_quickly_is_what_is_read_strictly(line: bytes) -> None:
    quick = quick_values(line)

    if quick is not None:
        strict = read_line(line.rstrip(b"\r\n"))
        assert isinstance(strict, SetDone)
        assert quick == row_values(strict)
        assert quick[4].utcoffset() == strict.started_at.utcoffset()


@given(strategies.plain_sets_done)
def test_every_plain_line_that_this_program_writes_is_read_quickly(done: SetDone) -> None:
    assert quick_values(line_of(done)) == row_values(done)


@pytest.mark.parametrize("timing", ["paced", "tapped", "trace"])
def test_usual_lines_are_read_quickly(timing: str) -> None:
    done = done_set(timing=timing, load_kg=None, effort=None, lifter="Ana \u200d 🏋", note="é\n\\")

    assert quick_values(line_of(done)) == row_values(done)
