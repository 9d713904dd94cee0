"""A set and a rest that are running: where they are is asked of the clock, never counted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from tempo_coach.core.facts import SetDone
from tempo_coach.core.prescribed_set import prescribed_set
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.timeline import Moment, Timeline


@dataclass(frozen=True, slots=True)
class RunningSet:
    """One set that was started."""

    id: str
    lifter: str
    prescription: Prescription
    timeline: Timeline
    zero_ms: int
    """The monotonic moment at which the track's first sample is heard."""
    began_at: datetime
    """The wall clock's time at `zero_ms`."""
    load_kg: float | None = None
    """What is on the bar where the prescription alone does not say it in kilograms."""

    def position_ms(self, now_ms: int) -> int:
        """Return the place on the timeline; negative until the sound begins."""
        return now_ms - self.zero_ms

    def moment(self, now_ms: int) -> Moment | None:
        """Return the place inside a rep, or None before the first rep and after the last."""
        return self.timeline.at(self.position_ms(now_ms))

    def is_over(self, now_ms: int) -> bool:
        """Tell whether the last phase has ended."""
        return self.position_ms(now_ms) >= self.timeline.length_ms

    def fact(self, now_ms: int) -> SetDone | None:
        """Return what was done by now, or None before the first rep has begun.

        Both times rest on one look at the wall clock, so that a clock set back during the set
        makes no set that ended before it began.
        """
        timeline = self.timeline
        position_ms = min(self.position_ms(now_ms), timeline.length_ms)
        if position_ms <= timeline.setup_ms:
            return None
        done = timeline.done_by(position_ms)
        return prescribed_set(
            self.prescription,
            done,
            set_id=self.id,
            lifter=self.lifter,
            started_at=self.began_at + timedelta(milliseconds=timeline.setup_ms),
            ended_at=self.began_at + timedelta(milliseconds=position_ms),
            timing="paced",
            load_kg=self.load_kg,
        )


@dataclass(frozen=True, slots=True)
class RunningRest:
    """One rest that was started."""

    zero_ms: int
    """The monotonic moment at which it began."""
    rest_ms: int

    def left_ms(self, now_ms: int) -> int:
        """Return what is left of it; 0 once it is over."""
        return max(self.zero_ms + self.rest_ms - now_ms, 0)
