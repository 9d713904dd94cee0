"""What lies between the turning points that a partner taps."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from itertools import groupby

from tempo_coach.core.tempo import Phase
from tempo_coach.core.timeline import Span, Timeline

_HOLDS = (Phase.PAUSE, Phase.TOP)


class TapPoints(StrEnum):
    """Where a partner taps."""

    PHASES = "phases"
    """As each phase begins, and as the last one ends."""
    TURNS = "turns"
    """As the first phase begins, and whenever the bar comes to the bottom or to the top."""


@dataclass(frozen=True, slots=True)
class Piece:
    """The time between two taps."""

    rep: int
    """The rep of its phase, from 1."""
    phase: Phase
    """What is measured by it."""
    lasts_ms: int
    """As the track has it, with `as_paced_ms`."""
    as_paced_ms: int
    """The part that is taken to last as the track has it: holds at `TURNS`, stops on the way."""
    is_free: bool
    """The phase has no prescribed length."""


def tap_pieces(timeline: Timeline, points: TapPoints, *, reps: int) -> tuple[Piece, ...]:
    """Cut the first reps of a track into what lies between two taps.

    What comes behind the last point, as a top at `TapPoints.TURNS`, is not there.
    """
    pieces: list[Piece] = []
    held_ms = 0
    for rep in range(1, reps + 1):
        for phase, lasts_ms, stops_ms, is_free in _phases(timeline):
            if points is TapPoints.TURNS and phase in _HOLDS:
                held_ms += lasts_ms
                continue
            pieces.append(
                Piece(rep, phase, held_ms + lasts_ms + stops_ms, held_ms + stops_ms, is_free)
            )
            held_ms = 0
    return tuple(pieces)


def _phases(timeline: Timeline) -> Iterator[tuple[Phase, int, int, bool]]:
    """Yield the phases of a rep: its own length, that of the stops in it, and if it is free."""

    def phase_of(span: Span) -> Phase:
        return Phase.LOWER if span.is_stop else span.phase

    for phase, group in groupby(timeline.spans, key=phase_of):
        spans = tuple(group)
        stops_ms = sum(span.lasts_ms for span in spans if span.is_stop)
        own_ms = sum(span.lasts_ms for span in spans) - stops_ms
        yield phase, own_ms, stops_ms, spans[0].speed is not None
