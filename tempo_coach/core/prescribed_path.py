"""The path that a line asks for, beside the one that was found: rep by rep."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from tempo_coach.core.bar_motion import Floats
from tempo_coach.core.compared_set import ComparedSet
from tempo_coach.core.cut_set import CutRep
from tempo_coach.core.tempo import Phase
from tempo_coach.core.timeline import Span, Timeline

PICTURE_FORMATS = ("svg", "png", "pdf")
_ROOM_S = 1.5
"""How much of the trace is shown beside the set."""


@dataclass(frozen=True, slots=True, eq=False)
class Paths:
    """What a picture of a compared set shows."""

    times_s: Floats
    height_m: Floats
    """Measured, above the lowest place of the set."""
    asked: tuple[tuple[tuple[float, float], ...], ...]
    """For each rep the corners of what was prescribed: seconds and metres."""
    begins: tuple[tuple[float, str], ...]
    """When each phase begins that was found, and which."""


def paths_of(compared: ComparedSet) -> Paths:
    """Return the part of the trace with the set, and what was prescribed.

    A phase without a prescribed length is as long as it was.
    """
    cut = compared.cut
    edges = [at_s for rep in cut.reps for one in rep.stretches
             for at_s in (one.begins_s, one.ends_s) if at_s is not None]  # fmt: skip
    first, last = min(edges, default=cut.times_s[0]), max(edges, default=cut.times_s[-1])
    is_shown = (cut.times_s >= first - _ROOM_S) & (cut.times_s <= last + _ROOM_S)
    spans = Timeline.of(compared.prescription).spans
    return Paths(
        cut.times_s[is_shown],
        cut.height_m[is_shown],
        tuple(tuple(_corners(compared, rep, spans)) for rep in cut.reps),
        tuple(
            (one.begins_s, one.phase.value)
            for rep in cut.reps
            for one in rep.stretches
            if one.begins_s is not None and one.lasts_ms != 0
        ),
    )


def _corners(
    compared: ComparedSet, rep: CutRep, spans: Sequence[Span]
) -> Iterator[tuple[float, float]]:
    begins_s = rep.begins_s
    if begins_s is None:
        return
    high_m, low_m = _ends(compared, rep)
    at_s = begins_s
    yield at_s, low_m + spans[0].from_height * (high_m - low_m)
    for span in spans:
        if span.speed is not None:
            measured_ms = rep.measured.of(span.phase)
            parts = sum(one.phase is span.phase for one in spans)
            at_s += (span.lasts_ms if measured_ms is None else measured_ms / parts) / 1000
        else:
            at_s += span.lasts_ms / 1000
        yield at_s, low_m + span.to_height * (high_m - low_m)


def _ends(compared: ComparedSet, rep: CutRep) -> tuple[float, float]:
    """Return the heights between which a rep went."""
    cut = compared.cut
    known = [at_s for one in rep.stretches for at_s in (one.begins_s, one.ends_s)
             if at_s is not None and one.phase in (Phase.LOWER, Phase.RAISE)]  # fmt: skip
    heights = np.interp(known, cut.times_s, cut.height_m)
    return float(heights.max()), float(heights.min())
