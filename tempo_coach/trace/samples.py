"""The samples of a trace made fit for use: without outliers, with their gaps known."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.marks import counted
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.filters import running_median

LEAST_HZ = 10.0
"""Below this a fast raise has fewer than five samples."""
GOOD_HZ = 25.0
"""From here on the figures of the tests hold."""
MOST_HZ = 250.0
"""Faster rows are averaged down to this: the bar has nothing to say above, and noise goes."""
LONGEST_BRIDGE_S = 0.25
"""A longer gap could hide the beginning or the end of a phase. Ours, by choice."""
LEAST_S = 2.0
_WIDTH = 7
"""Of the running median, in samples: outliers of up to three in a row are seen."""
_FAR = 6.0
"""Standard deviations from the running median, for an outlier. Ours: the usual three take good
samples out of long traces."""
_FLOORS = (1 / 50, 1 / 20, 1 / 8)
"""An outlier is at least so far off, as a share of the spread of all: of heights, of speeds, of
accelerations, which turn the more sharply by themselves. Ours, by choice."""
_ADDED_UP = (
    "Heights and speeds are added up from accelerations: the beginning or the end of a slow way "
    "can be wrong by some tenths of a second."
)
_MAD = 1.4826
"""Median deviation to standard deviation, of a normal distribution."""


@dataclass(frozen=True, slots=True, eq=False)
class Samples:
    """What is left of a trace."""

    times_s: Floats
    values: Floats
    """Finite."""
    quantity: Quantity
    rate_hz: float
    noise: float
    """Standard deviation of a value, estimated from the second differences."""
    gaps_s: tuple[tuple[float, float], ...]
    """From the sample before to the one after, those too long to be bridged."""
    remarks: tuple[str, ...]
    recorded: Quantity
    """What was recorded; another where these are speeds added up from accelerations."""
    recorded_noise: float

    def even(self, rate_hz: float) -> tuple[Floats, Floats]:
        """Return times and values in an even row, on straight lines between samples."""
        begins, ends = self.times_s[[0, -1]]
        times_s = begins + np.arange(int((ends - begins) * rate_hz) + 1) / rate_hz
        return times_s, np.interp(times_s, self.times_s, self.values)

    def is_missing(self, moment_s: float, *, around_s: float = 0.0) -> bool:
        """Tell whether a moment lies in a gap that is too long."""
        return any(begins - around_s < moment_s < ends + around_s for begins, ends in self.gaps_s)


def samples_of(trace: Trace) -> Samples:
    """Return a trace's samples, cleaned.

    Raises
    ------
    TraceRefused
        They are too few, too far apart, or all alike.
    """
    has_value = np.isfinite(trace.values)
    times_s, values = trace.times_s[has_value], trace.values[has_value]
    if times_s.size < 2 or times_s[-1] - times_s[0] < LEAST_S:
        span_s = float(times_s[-1] - times_s[0]) if times_s.size else 0.0
        raise TraceRefused(
            f"{counted(int(times_s.size), 'sample')} over {span_s:.2f} s are too few for a set",
            hint=f"give at least {LEAST_S:g} s",
        )
    rate_hz = 1 / float(np.median(np.diff(trace.times_s)))
    # A little less is one that was rounded.
    if rate_hz < 0.98 * LEAST_HZ:
        raise TraceRefused(
            f"{rate_hz:.3g} samples a second are too few to see where a phase begins",
            hint=f"record at {LEAST_HZ:g} or more, better {GOOD_HZ:g}; or is the unit of time "
            "another? --time-unit ms",
        )
    if float(np.ptp(values)) == 0.0:
        raise TraceRefused(
            f"the {trace.quantity} is {values[0]:g} {trace.quantity.unit} all along",
            hint="choose the column that moves with the bar",
        )
    remarks = list(trace.remarks)
    if rate_hz < GOOD_HZ:
        remarks.append(
            f"{rate_hz:.3g} samples a second are few: a phase can be wrong by more than "
            f"{1000 / rate_hz:.0f} ms."
        )
    if trace.quantity is Quantity.ACCELERATION:
        remarks.append(_ADDED_UP)
    remarks += _unevenness(trace.times_s, rate_hz)
    noise = _noise(values)
    is_far = _outliers(values, noise, _FLOORS[trace.quantity.order])
    if far := int(is_far.sum()):
        their, were = ("its", "was") if far == 1 else ("their", "were")
        remarks.append(f"{counted(far, 'sample')} far off {their} neighbours {were} left out.")
        times_s, values = times_s[~is_far], values[~is_far]
    times_s, values, kept_hz = _averaged(times_s, values, rate_hz)
    if kept_hz != rate_hz:
        remarks.append(f"{rate_hz:.4g} samples a second were averaged to {kept_hz:.3g}.")
    gaps, told = _gaps(times_s, kept_hz)
    noise = _noise(values)
    remarks += told
    return Samples(
        times_s,
        values,
        trace.quantity,
        kept_hz,
        noise,
        gaps,
        tuple(remarks),
        recorded=trace.quantity,
        recorded_noise=noise,
    )


def _unevenness(times_s: Floats, rate_hz: float) -> list[str]:
    steps = np.diff(times_s) * rate_hz
    uneven = float(np.mean(np.abs(steps - 1) > 0.2))
    if uneven < 0.01:
        return []
    return [f"{uneven:.0%} of the samples are not evenly spaced; their own times are used."]


def _noise(values: Floats) -> float:
    bends = np.abs(np.diff(values, n=2))
    spread = float(np.median(bends)) * _MAD / 6**0.5
    if spread > 0:
        return spread
    # Rounded figures are often alike: then a step between two figures is what is not known.
    steps = np.abs(np.diff(values))
    return float(steps[steps > 0].min()) / 12**0.5


def _outliers(
    values: Floats, noise: float, least: float
) -> np.ndarray[tuple[int], np.dtype[np.bool_]]:
    """Find single values far off the median around them (Hampel's identifier)."""
    off = np.abs(values - running_median(values, width=_WIDTH))
    spread = _MAD * running_median(off, width=_WIDTH)
    floor = least * float(np.ptp(np.quantile(values, [0.01, 0.99])))
    return np.asarray(off > np.maximum(_FAR * np.maximum(spread, noise), floor))


def _averaged(times_s: Floats, values: Floats, rate_hz: float) -> tuple[Floats, Floats, float]:
    size = int(np.ceil(rate_hz / MOST_HZ - 0.01))
    if size < 2:
        return times_s, values, rate_hz
    count = times_s.size // size
    groups = times_s[: count * size].reshape(count, size)
    # A group that reaches over a gap would put a sample into it.
    is_whole = np.ptp(groups, axis=1) < 2 * size / rate_hz
    means = values[: count * size].reshape(count, size).mean(axis=1)
    return groups.mean(axis=1)[is_whole], means[is_whole], rate_hz / size


def _gaps(times_s: Floats, rate_hz: float) -> tuple[tuple[tuple[float, float], ...], list[str]]:
    steps = np.diff(times_s)
    is_gap = steps > 1.9 / rate_hz
    is_long = steps > max(LONGEST_BRIDGE_S, 2.5 / rate_hz)
    told = []
    if short := int((is_gap & ~is_long).sum()):
        longest_s = float(steps[is_gap & ~is_long].max())
        were = "was" if short == 1 else "were"
        told.append(f"{counted(short, 'gap')} of up to {longest_s:.2f} s {were} bridged.")
    gaps = tuple((float(times_s[at]), float(times_s[at + 1])) for at in np.flatnonzero(is_long))
    if gaps:
        places = ", ".join(f"{ends - begins:.2g} s at {begins:.1f} s" for begins, ends in gaps[:5])
        told.append(
            f"{counted(len(gaps), 'gap')} too long to be bridged ({places}): a phase that begins "
            "or ends there is not measured, and a rep could be missing."
        )
    return gaps, told
