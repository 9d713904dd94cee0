"""From a trace to the reps of a set, cut into their phases."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from tempo_coach.core.cut_set import CutRep, CutSet, Stretch
from tempo_coach.core.marks import counted
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Trace
from tempo_coach.errors import TraceRefused
from tempo_coach.trace.bar_path import BarPath, bar_path
from tempo_coach.trace.motions import motion_of
from tempo_coach.trace.rest_edges import Rest, Rough, rest_of
from tempo_coach.trace.samples import Samples, samples_of
from tempo_coach.trace.turning_points import Run, runs_of
from tempo_coach.trace.ways import Way, way_of

_APART_S = 2.0
"""A longer rest is looked at from each side by itself: much can go on in it."""


def cut_set(trace: Trace, prescription: Prescription) -> CutSet:
    """Find the reps of a set in a trace.

    The line only says what a rep begins with, and whether there are stops on its way down; how many
    reps there are, and how long, is taken from the trace alone.

    Raises
    ------
    TraceRefused
        There are none, or they can't be told from noise.
    """
    path = bar_path(samples_of(trace))
    begins_high = prescription.lead is Phase.LOWER
    path, run, others = _found(path, begins_high=begins_high)
    ways = [way_of(path, begins, ends) for begins, ends in pairwise(run.turns)]
    rests = list(_rests(path, ways))
    reps = tuple(
        _rep(
            path,
            rests[at : at + 3],
            lead=prescription.lead,
            is_last=at + 2 == len(ways),
        )
        for at in range(0, len(ways), 2)
    )
    samples = path.samples
    return CutSet(
        reps,
        path.times_s,
        path.height_m - min(turn.height_m for turn in run.turns),
        samples.quantity,
        samples.rate_hz,
        samples.noise,
        (*samples.remarks, *others),
    )


def _found(path: BarPath, *, begins_high: bool) -> tuple[BarPath, Run, list[str]]:
    noise_m = path.noise_m
    runs = runs_of(path.height_m, rate_hz=path.rate_hz, noise_m=noise_m, begins_high=begins_high)
    if not runs:
        raise TraceRefused("no rep was found")
    run = max(runs, key=lambda one: one.way_m)
    others = []
    if len(runs) > 1:
        others.append(f"{counted(len(runs) - 1, 'other set')} in the trace left out.")
    return path, run, others


def _rests(path: BarPath, ways: Sequence[Way]) -> Iterator[Rest]:
    """Yield the rest before each way, and the one behind the last."""
    samples = path.samples
    for before, after in pairwise((None, *ways, None)):
        if before and after and after.leaves_s - before.arrives_s < _APART_S:
            rough = Rough(before.middle_s, before.arrives_s, after.leaves_s, after.middle_s)
            yield rest_of(samples, rough)
            continue
        yield Rest(
            None if before is None else _arrival(samples, before),
            None if after is None else _leaving(samples, after),
        )


def _arrival(samples: Samples, way: Way) -> float | None:
    """Return when a way ends, whatever comes after it.

    No more is looked at than it takes: a step or a fidget may follow.
    """
    for room_s in _rooms(way):
        rough = Rough(way.middle_s, way.arrives_s, None, way.arrives_s + room_s)
        found_s = rest_of(samples, rough).arrives_s
        if found_s is None or found_s < way.arrives_s + room_s - _margin(way):
            return found_s
    return None


def _leaving(samples: Samples, way: Way) -> float | None:
    for room_s in _rooms(way):
        rough = Rough(way.leaves_s - room_s, None, way.leaves_s, way.middle_s)
        found_s = rest_of(samples, rough).leaves_s
        if found_s is None or found_s > way.leaves_s - room_s + _margin(way):
            return found_s
    return None


def _margin(way: Way) -> float:
    return 0.1 + 0.02 * way.about_s


def _rooms(way: Way) -> Iterator[float]:
    room_s = 0.4 + 0.03 * way.about_s
    while room_s < 1 + way.about_s:
        yield room_s
        room_s *= 1.5


def _rep(path: BarPath, rests: Sequence[Rest], *, lead: Phase, is_last: bool) -> CutRep:
    order = list(Phase)
    order = order if lead is Phase.LOWER else order[2:] + order[:2]
    moments = [
        rests[0].leaves_s,
        rests[1].arrives_s,
        rests[1].leaves_s,
        rests[2].arrives_s,
        None if is_last else rests[2].leaves_s,
    ]
    stretches = tuple(
        Stretch(phase, begins_s, ends_s)
        for phase, (begins_s, ends_s) in zip(order, pairwise(moments), strict=True)
    )
    lasts_ms = {stretch.phase: stretch.lasts_ms for stretch in stretches}
    measured = MeasuredRep(
        lasts_ms[Phase.LOWER],
        lasts_ms[Phase.PAUSE],
        lasts_ms[Phase.RAISE],
        lasts_ms[Phase.TOP],
        motion_of(path, stretches),
    )
    return CutRep(measured, stretches)
