"""What log and calendar have to say before the sets of a planned day."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime

from tempo_coach.core.facts import SetDone
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.plan import Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.season import Season, season_of
from tempo_coach.core.set_notes import Ahead, Known, set_notes
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.strength import Strength
from tempo_coach.core.tempo import Allowances


class SessionNotes:
    """Knows a lifter's season at a moment, and says of each set what speaks against it.

    Parameters
    ----------
    plan
        The plan.
    lifter
        One of its lifters.
    sets
        The lifter's, in the order they were done.
    at
        The moment; only a day of the plan's season has notes.
    allowances
        What stands in for X, V and A.
    measured
        How some of the sets were measured, by their ids.
    """

    def __init__(
        self,
        plan: Plan,
        lifter: str,
        *,
        sets: Sequence[SetDone],
        at: datetime,
        allowances: Allowances,
        measured: Mapping[str, SetMeasured] = NONE_MEASURED,
    ) -> None:
        self._season: Season = season_of(plan, lifter, sets=sets, today=at.date())
        self._sets = sets
        self._at = at
        self._allowances = allowances
        self._measured = measured

    def of(self, line: Prescription, strength: Strength) -> tuple[str, ...]:
        """Return what speaks against the next set of a line, a sentence each.

        Parameters
        ----------
        line
            With its loads worked out.
        strength
            What is known for it.
        """
        this_week = self._season.this_week
        if this_week is None:
            return ()
        return set_notes(
            Ahead(line, self._at, self._allowances),
            Known(
                sets=self._sets,
                rules=self._season.rules,
                day=self._season.calendar.day(self._at.date()),
                week=this_week.lower_s,
                strength=strength,
                measured=self._measured,
            ),
        )
