"""Writes a made-up trace as a table, which says of itself that it is one."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from tempo_coach.core.trace import Trace

SIMULATED = "simulated by tempo-coach, not measured"
_DECIMALS = 6


def simulated_table(trace: Trace, *, line: str, seed: int) -> Iterator[str]:
    """Yield the lines of a table of times and values, each with its line feed.

    Parameters
    ----------
    trace
        What is written.
    line
        The prescription that it was made up for.
    seed
        From which chance it came.
    """
    yield f"# {SIMULATED}: {line}; seed {seed}\n"
    yield f"time (s),{trace.quantity} ({trace.quantity.unit.replace('²', '2')})\n"
    for at_s, value in zip(trace.times_s.tolist(), trace.values.tolist(), strict=True):
        shown = "" if np.isnan(value) else f"{value:.{_DECIMALS}f}"
        yield f"{at_s:.{_DECIMALS}f},{shown}\n"
