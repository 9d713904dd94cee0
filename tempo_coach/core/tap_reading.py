"""What a partner's taps say of a set: which turning point each was, and how long phases lasted.

The track says where the turning points should be, and so which tap was which: taps are laid on them
in order, at the least cost, where a tap may be no turning point at all and a point may have no tap.
What a phase lasted is then the time between its two taps alone, so that what every tap is late by,
in the hand and in the machine, cancels out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import accumulate

from tempo_coach.core.marks import counted
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.tap_pieces import Piece, TapPoints, tap_pieces
from tempo_coach.core.tempo import Phase
from tempo_coach.core.timeline import Timeline

SPREAD_S = 0.15
"""Of a phase tapped by hand: a reaction to what is seen scatters by about 0.05 s (from memory), two
of them bound a phase, and 19 in 20 lie within two standard deviations."""
TAPPED = f"Tapped by hand: good to about {SPREAD_S:g} s a phase."

_DOUBLE_MS = 150
"""No phase that can be tapped is shorter; a key that bounces or a nervous thumb is."""
# Found on simulated sets: with these, no tap of a set without stray or missing ones is taken for
# another, though the lower loses a third of its length and the lifter runs late by whole reps.
_EXTRA_COST = 2.0
_MISSED_COST = 2.0
_SPREAD_SHARE = 0.2
_SPREAD_MS = 300
_START_SPREAD_MS = 1_000
_AWAY_COST = 0.1
_FURTHEST_REPS = 3
"""Whoever is further behind the track is not led by it."""
_MOST_SKIPPED = 4


@dataclass(frozen=True, slots=True)
class TapReading:
    """The reps of a set by its taps."""

    reps: tuple[MeasuredRep, ...]
    """Those wholly completed; a phase without a tap at both its ends is None."""
    doubled: int
    """Taps that came right behind another; they are left out."""
    stray: int
    """Taps that are at no turning point; they are left out too."""
    missed: int
    """Turning points that have no tap."""

    @property
    def lowers(self) -> int:
        """How many lowers were measured."""
        return sum(rep.lower_ms is not None for rep in self.reps)

    def sentences(self) -> Iterator[str]:
        """Say what was left out, what is missing, and how good the rest is."""
        left_out = [
            words
            for count, words in (
                (self.doubled, f"{counted(self.doubled, 'tap')} right behind another"),
                (self.stray, f"{counted(self.stray, 'tap')} at no turning point"),
            )
            if count
        ]
        if left_out:
            yield f"Left out: {', '.join(left_out)}."
        if self.missed:
            verb = "was" if self.missed == 1 else "were"
            yield (
                f"{counted(self.missed, 'turning point')} {verb} not tapped; the phases beside "
                "count as paced."
            )
        if not self.lowers:
            yield "The taps measure no lower: the set counts as paced."
        else:
            yield TAPPED


def read_taps(
    taps_ms: Sequence[int], *, timeline: Timeline, points: TapPoints, reps: int
) -> TapReading:
    """Read the taps of one set.

    Parameters
    ----------
    taps_ms
        Places on the timeline, in order.
    timeline
        The set's.
    points
        Where the partner was to tap.
    reps
        Those wholly completed; taps of one that was broken off are told from stray ones.
    """
    begun = min(reps + 1, timeline.reps)
    pieces = tap_pieces(timeline, points, reps=begun)
    points_ms = list(accumulate((one.lasts_ms for one in pieces), initial=timeline.setup_ms))
    single, doubled = _single(taps_ms)
    own = sum(one.rep <= reps for one in pieces)
    tap_of = _laid(single, points_ms, pieces, rep_ms=timeline.rep_ms, asked=own)
    found: dict[tuple[int, Phase], int] = {}
    for at, piece in enumerate(pieces[:own]):
        if at in tap_of and at + 1 in tap_of:
            spent_ms = single[tap_of[at + 1]] - single[tap_of[at]] - piece.as_paced_ms
            if spent_ms > 0:
                found[piece.rep, piece.phase] = spent_ms
    has_stops = any(span.is_stop for span in timeline.spans)
    there = {span.phase for span in timeline.spans if not span.is_stop}
    return TapReading(
        tuple(_rep(rep, found, there, has_stops=has_stops) for rep in range(1, reps + 1)),
        doubled=doubled,
        stray=len(single) - len(tap_of),
        missed=sum(point not in tap_of for point in range(own + 1)) if reps else 0,
    )


def _rep(
    rep: int, found: dict[tuple[int, Phase], int], there: set[Phase], *, has_stops: bool
) -> MeasuredRep:
    def spent_ms(phase: Phase) -> int | None:
        if phase is Phase.PAUSE and has_stops:
            return None  # the pause is with the stops, which nobody taps
        return found.get((rep, phase)) if phase in there else 0

    return MeasuredRep(
        lower_ms=spent_ms(Phase.LOWER),
        pause_ms=spent_ms(Phase.PAUSE),
        raise_ms=spent_ms(Phase.RAISE),
        top_ms=spent_ms(Phase.TOP),
    )


def _single(taps_ms: Sequence[int]) -> tuple[list[int], int]:
    """Leave out taps that come right behind another."""
    single: list[int] = []
    for tap_ms in taps_ms:
        if not single or tap_ms - single[-1] >= _DOUBLE_MS:
            single.append(tap_ms)
    return single, len(taps_ms) - len(single)


def _laid(
    taps_ms: Sequence[int],
    points_ms: Sequence[int],
    pieces: Sequence[Piece],
    *,
    rep_ms: int,
    asked: int,
) -> dict[int, int]:
    """Lay taps on points at the least cost; returns the index of the tap of each point found.

    Those behind the point `asked` are of a rep that was broken off, and need no tap.
    """
    best: dict[tuple[int, int], tuple[float, tuple[int, int] | None]] = {}
    for tap, tap_ms in enumerate(taps_ms):
        for point, point_ms in enumerate(points_ms):
            off_ms = tap_ms - point_ms
            if abs(off_ms) > _FURTHEST_REPS * rep_ms:
                continue
            away = (off_ms / rep_ms) ** 2 * _AWAY_COST
            begun = _MISSED_COST * point + _EXTRA_COST * tap + (off_ms / _START_SPREAD_MS) ** 2
            chosen: tuple[float, tuple[int, int] | None] = (begun, None)
            for back_tap in range(max(tap - _MOST_SKIPPED, 0), tap):
                for back_point in range(max(point - _MOST_SKIPPED, 0), point):
                    if (before := best.get((back_tap, back_point))) is None:
                        continue
                    cost = (
                        before[0]
                        + away
                        + _EXTRA_COST * (tap - back_tap - 1)
                        + _MISSED_COST * (point - back_point - 1)
                        + _unlike(
                            tap_ms - taps_ms[back_tap],
                            point_ms - points_ms[back_point],
                            is_free=any(one.is_free for one in pieces[back_point:point]),
                        )
                    )
                    chosen = min(chosen, (cost, (back_tap, back_point)), key=lambda one: one[0])
            best[tap, point] = chosen
    if not best:
        return {}

    def in_all(place: tuple[int, int]) -> float:
        tap, point = place
        behind = max(asked - point, 0)
        return best[place][0] + _EXTRA_COST * (len(taps_ms) - 1 - tap) + _MISSED_COST * behind

    place: tuple[int, int] | None = min(best, key=in_all)
    laid: dict[int, int] = {}
    while place is not None:
        tap, point = place
        laid[point] = tap
        place = best[place][1]
    return laid


def _unlike(measured_ms: int, expected_ms: int, *, is_free: bool) -> float:
    """Return what it costs that the time between two taps differs from that between two points."""
    spread_ms = (_SPREAD_SHARE * expected_ms + _SPREAD_MS) * (2 if is_free else 1)
    # A lifter who waits for the track makes a hold far longer: far off costs little more than off.
    return math.log1p(((measured_ms - expected_ms) / spread_ms) ** 2)
