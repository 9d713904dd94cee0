"""A set and a rest that are running: where they are is asked of the clock, never counted."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from tempo_coach.core.fact_values import VERSION
from tempo_coach.core.facts import SHAPED_VERSION, SetDone
from tempo_coach.core.phase_seconds import PhaseSeconds
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
        load, shape = self.prescription.load, self.prescription.shape
        lowered = shape.lower_load
        return SetDone(
            v=SHAPED_VERSION if shape else VERSION,
            id=self.id,
            lifter=self.lifter,
            started_at=self.began_at + timedelta(milliseconds=timeline.setup_ms),
            ended_at=self.began_at + timedelta(milliseconds=position_ms),
            exercise=self.prescription.exercise,
            lead="raise" if self.prescription.lead == "raise" else "lower",
            tempo=self.prescription.tempo,
            load_kg=self.load_kg or (None if load is None else load.kg()),
            load_as_written="" if load is None else str(load),
            reps_prescribed=self.prescription.reps,
            shape=shape,
            lower_load_kg=None if lowered is None else lowered.load.kg(),
            reps_done=done.reps,
            seconds=PhaseSeconds.of(done.times),
            timing="paced",
            method=self.prescription.method,
            effort=None,
            note="",
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
