"""Loads under which the lower was seen to fall short of its tempo."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import fmean

from tempo_coach.core.adherence import Band, PhaseKept
from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible, name_key
from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.set_adherence import set_adherence

FORGOTTEN = timedelta(weeks=12)
"""What a lifter could not do so long ago says nothing of today. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class ShortLower:
    """A set whose lowers fell short."""

    done: SetDone
    lower: PhaseKept
    short: tuple[int, ...]
    """The numbers of its reps that were short."""

    @property
    def words(self) -> str:
        """The evidence."""
        off_ms = fmean(off for rep in self.short if (off := self.lower.off_ms[rep - 1]) is not None)
        asked_s = marked_seconds(self.lower.prescribed_ms)
        return (
            f"on {self.done.started_at.date().isoformat()} {len(self.short)} of "
            f"{self.lower.measured} measured lowers of {asked_s} s at "
            f"{self.done.mean_lower_kg:g} kg were short, by {marked_seconds(round(-off_ms))} s on "
            "the mean"
        )


def short_lower(
    exercise: str,
    *,
    lower_ms: int,
    kg: float,
    sets: Sequence[SetDone],
    measured: Mapping[str, SetMeasured],
    at: datetime,
    band: Band,
) -> ShortLower | None:
    """Return the latest set that speaks against a load at a tempo.

    One does whose lower fell short with no more load and no slower a lower; a later one with no
    less load and no faster a lower, which was kept, answers it.

    Parameters
    ----------
    exercise
        The spelling's case does not matter.
    lower_ms
        The lower that is asked for.
    kg
        What is to be lowered.
    sets
        The lifter's, in order.
    measured
        How some of them were measured, by their ids.
    at
        When it is to be done; sets of the last twelve weeks before count.
    band
        What is on tempo.
    """
    for done in reversed(sets):
        if not timedelta() <= at - done.started_at <= FORGOTTEN:
            continue
        done_kg = done.mean_lower_kg
        if done_kg is None or name_key(done.exercise) != name_key(exercise):
            continue
        kept = set_adherence(done, measured.get(done.id), band=band)
        if kept is None or (lower := kept.lower) is None:
            continue
        if kept.is_lower_short and done_kg <= kg and lower.prescribed_ms <= lower_ms:
            return ShortLower(done, lower, lower.short_by(band.of(lower.prescribed_ms)))
        if not kept.is_lower_short and done_kg >= kg and lower.prescribed_ms >= lower_ms:
            return None
    return None


def too_heavy_words(exercise: str, *, lower_ms: int, kg: float, found: ShortLower) -> str:
    """Say that a load is too heavy for a tempo, with the evidence."""
    return (
        f"{legible(exercise)}: {kg:g} kg is too heavy for a lower of {marked_seconds(lower_ms)} s: "
        f"{found.words}."
    )
