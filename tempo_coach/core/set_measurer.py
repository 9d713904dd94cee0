"""Measured sets on their way to the log."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime

from tempo_coach.core.fact_moments import dated
from tempo_coach.core.facts import SetDone
from tempo_coach.core.ledger import Ledger
from tempo_coach.core.measured_facts import Means
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.measured_work import measured_set
from tempo_coach.core.ports import Clock
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.traced_set import traced_set
from tempo_coach.errors import LogUnwritable


class SetMeasurer:
    """Lets sets count as they were measured.

    Parameters
    ----------
    ledger
        Where facts go.
    clock
        What tells the time.
    new_id
        Gives an id that no other set has.
    """

    def __init__(self, ledger: Ledger, *, clock: Clock, new_id: Callable[[], str]) -> None:
        self._ledger = ledger
        self._clock = clock
        self._new_id = new_id

    def measure(
        self,
        done: SetDone,
        reps: Sequence[MeasuredRep],
        *,
        by: Means,
        allowances: Allowances,
        after: datetime | None = None,
    ) -> tuple[SetDone, LogUnwritable | None]:
        """Let a set of the log count as `measured_set` finds it.

        Parameters
        ----------
        done
            The set as it is.
        reps
            Those found, at least one.
        by
            How they were measured.
        allowances
            What X, V and A were paced with.
        after
            When it was last corrected or measured; this is dated later.

        Returns
        -------
        tuple of SetDone, and LogUnwritable or None
            The set as it is now, and why that is not on the disk yet, if it is not.

        Raises
        ------
        OutOfRange
            The reps take longer than a set can.
        """
        at = dated(self._clock.wall(), after=after)
        fact = measured_set(done, reps, by=by, at=at, allowances=allowances)
        return done.model_copy(update=fact.given()), self._ledger.save(fact)

    def log_traced(
        self,
        prescription: Prescription,
        reps: Sequence[MeasuredRep],
        *,
        lifter: str,
        started_at: datetime,
        allowances: Allowances,
    ) -> tuple[SetDone, LogUnwritable | None]:
        """Log a set that is known from a trace alone, and how it was measured.

        The parameters are those of `traced_set`; the rest is as for `measure`.
        """
        done = traced_set(
            prescription, reps, set_id=self._new_id(), lifter=lifter, started_at=started_at
        )
        self._ledger.save(done)
        return self.measure(done, reps, by="trace", allowances=allowances)
