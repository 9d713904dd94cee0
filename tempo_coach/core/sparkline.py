"""A row of numbers as one short word of bars, which a pipe carries too."""

from __future__ import annotations

from collections.abc import Sequence

_BARS = "▁▂▃▄▅▆▇█"


def sparkline(values: Sequence[float], *, most: int = 12) -> str:
    """Return a bar for each of the last so many values, from the least of them to the greatest.

    Values that are all the same stand half high, since there is nothing to tell apart.
    """
    shown = values[-most:]
    if not shown:
        return ""
    least, greatest = min(shown), max(shown)
    if least == greatest:
        return _BARS[len(_BARS) // 2 - 1] * len(shown)
    shares = ((value - least) / (greatest - least) for value in shown)
    return "".join(_BARS[round(share * (len(_BARS) - 1))] for share in shares)
