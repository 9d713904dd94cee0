"""From a trace to the reps of a set, cut into their phases."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from tempo_coach.core.cut_set import CutRep, CutSet, Stretch
from tempo_coach.core.marks import counted
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Phase
from tempo_coach.core.trace import Trace
from tempo_coach.trace.bar_path import BarPath, bar_path
from tempo_coach.trace.found_set import found_set
from tempo_coach.trace.motions import motion_of
from tempo_coach.trace.rest_edges import rest_of
from tempo_coach.trace.rest_fit import Rest, Rough
from tempo_coach.trace.samples import Samples, samples_of
from tempo_coach.trace.stops import with_stops
from tempo_coach.trace.turning_points import Turn
from tempo_coach.trace.ways import Way, way_of

_APART_S = 2.0
"""A longer rest is looked at from each side by itself: much can go on in it."""
_ABOUT_S = 0.05
"""An end found so near to the first or the last sample is none: the way goes on beyond it."""


def cut_set(trace: Trace, prescription: Prescription) -> CutSet:
    """Find the reps of a set in a trace.

    The line only says what a rep begins with, and whether there are stops on its way down; how many
    reps there are, and how long, is taken from the trace alone.

    Raises
    ------
    TraceRefused
        There are none, or they can't be told from noise.
    """
    found = found_set(bar_path(samples_of(trace)), lead=prescription.lead)
    path, remarks = found.path, list(found.remarks)
    reps = [found.turns[at : at + 3] for at in range(0, len(found.turns) - 2, 2)]
    parted = [[*with_stops(path, rep, prescription)] for rep in reps]
    if prescription.shape.stops is not None:
        asked = len(prescription.shape.stops.at)
        for number, turns in enumerate(parted, start=1):
            if len(turns) - 3 != asked:
                stops = counted(len(turns) - 3, "stop")
                remarks.append(f"Rep {number}: {stops} found, {asked} prescribed.")
    chain = [*parted[0], *(turn for turns in parted[1:] for turn in turns[1:])]
    # With the ways beside the set, for they may lead straight to its ends.
    around = [found.before, *chain, found.after]
    ways = [
        None if at is None or to is None else way_of(path, at, to) for at, to in pairwise(around)
    ]
    rests = list(_rests(path, ways))
    cut, first = [], 0
    for turns in parted:
        inside = rests[first : first + len(turns)]
        first += len(turns) - 1
        cut.append(_rep(path, turns, inside, is_last=first + 1 == len(rests)))
    if rests[0].leaves_s is None and not path.samples.gaps_s:
        remarks.append("The beginning of rep 1 is not in the trace.")
    if rests[-1].arrives_s is None and not path.samples.gaps_s:
        remarks.append(f"The end of rep {len(cut)} is not in the trace.")
    return CutSet(
        tuple(cut),
        path.times_s,
        path.height_m - min(turn.height_m for turn in found.turns),
        path.samples.recorded,
        path.samples.rate_hz,
        path.samples.recorded_noise,
        (*path.samples.remarks, *remarks),
    )


def _rests(path: BarPath, ways: Sequence[Way | None]) -> Iterator[Rest]:
    """Yield the rests between ways; None is where the trace begins or ends without one."""
    samples = path.samples
    for before, after in pairwise(ways):
        if before and after and after.leaves_s - before.arrives_s < _APART_S:
            rough = Rough(before.middle_s, before.arrives_s, after.leaves_s, after.middle_s)
            yield rest_of(samples, rough)
        else:
            from_s = -math.inf if before is None else before.arrives_s
            to_s = math.inf if after is None else after.leaves_s
            yield Rest(
                None if before is None else _arrival(samples, before, to_s - before.arrives_s),
                None if after is None else _leaving(samples, after, after.leaves_s - from_s),
            )


def _arrival(samples: Samples, way: Way, most_s: float) -> float | None:
    """Return when a way ends, whatever comes after it.

    No more is looked at than it takes: a step or a fidget may follow.
    """
    for room_s in _rooms(way, most_s):
        rough = Rough(way.middle_s, way.arrives_s, None, way.arrives_s + room_s)
        found_s = rest_of(samples, rough, tries_sudden=False).arrives_s
        if found_s is None or found_s > samples.times_s[-1] - _ABOUT_S:
            return None
        if found_s < way.arrives_s + room_s - _margin(way):
            return rest_of(samples, rough).arrives_s
    return None


def _leaving(samples: Samples, way: Way, most_s: float) -> float | None:
    """Return when a way begins, whatever comes before it."""
    for room_s in _rooms(way, most_s):
        rough = Rough(way.leaves_s - room_s, None, way.leaves_s, way.middle_s)
        found_s = rest_of(samples, rough, tries_sudden=False).leaves_s
        if found_s is None or found_s < samples.times_s[0] + _ABOUT_S:
            return None
        if found_s > way.leaves_s - room_s + _margin(way):
            return rest_of(samples, rough).leaves_s
    return None


def _margin(way: Way) -> float:
    return 0.1 + 0.02 * way.about_s


def _rooms(way: Way, most_s: float) -> Iterator[float]:
    room_s = 0.4 + 0.03 * way.about_s
    while room_s < min(1 + way.about_s, most_s):
        yield room_s
        room_s *= 1.5


def _rep(path: BarPath, turns: Sequence[Turn], rests: Sequence[Rest], *, is_last: bool) -> CutRep:
    """Return one rep, from the rest before its first way to the one behind its last."""
    lowest = min(turn.height_m for turn in (turns[0], *turns[-2:]))
    highest = max(turn.height_m for turn in (turns[0], *turns[-2:]))
    stretches = []
    for at in range(len(turns) - 1):
        rises = turns[at + 1].height_m > turns[at].height_m
        way = Phase.RAISE if rises else Phase.LOWER
        stretches.append(Stretch(way, rests[at].leaves_s, rests[at + 1].arrives_s))
        is_end = at == len(turns) - 2
        is_high = turns[at + 1].height_m > (lowest + highest) / 2
        rest = Phase.TOP if is_high and rises else Phase.PAUSE
        ends_s = None if is_end and is_last else rests[at + 1].leaves_s
        stretches.append(Stretch(rest, rests[at + 1].arrives_s, ends_s))
    lower_ms, pause_ms, raise_ms, top_ms = (_sum_ms(stretches, phase) for phase in Phase)
    motion = motion_of(path, stretches)
    return CutRep(MeasuredRep(lower_ms, pause_ms, raise_ms, top_ms, motion), tuple(stretches))


def _sum_ms(stretches: Sequence[Stretch], phase: Phase) -> int | None:
    lengths = [one.lasts_ms for one in stretches if one.phase is phase]
    known = [length for length in lengths if length is not None]
    return sum(known) if len(known) == len(lengths) else None
