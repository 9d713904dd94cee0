"""Reserve tests on their way to the log: what begins one, and what became of an attempt."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from decimal import Decimal

from tempo_coach.core.fact_moments import dated
from tempo_coach.core.facts import Changes, Fact, SetCorrected, SetDone
from tempo_coach.core.ledger import Ledger
from tempo_coach.core.load_span import LoadSpan
from tempo_coach.core.loading import Rack
from tempo_coach.core.ports import Clock
from tempo_coach.core.reserve_facts import AttemptMade, ReserveBegun
from tempo_coach.core.reserve_test import ReserveTest, counts_as_held
from tempo_coach.errors import LogUnwritable


class ReserveKeeper:
    """Begins tests and takes the partner's answers.

    Parameters
    ----------
    ledger
        Where facts go.
    clock
        What tells the time.
    new_id
        Gives an id that nothing else has.
    """

    def __init__(self, ledger: Ledger, *, clock: Clock, new_id: Callable[[], str]) -> None:
        self._ledger = ledger
        self._clock = clock
        self._new_id = new_id

    def begin(
        self, span: LoadSpan, *, lifter: str, exercise: str, rack: Rack
    ) -> tuple[ReserveTest, LogUnwritable | None]:
        """Begin a test; returns why that is not on the disk yet, too, if it is not."""
        begun = ReserveBegun(
            id=self._new_id(),
            at=self._clock.wall(),
            lifter=lifter,
            exercise=exercise,
            max_kg=float(span.max_kg),
            step_kg=float(span.step_kg),
            lower_s=span.lower_s,
            # The last load that there is, so that holding it ends the test.
            ceiling_kg=float(span.loads(rack)[-1]),
        )
        return ReserveTest(begun), self._ledger.save(begun)

    def answer(
        self, test: ReserveTest, done: SetDone, *, said: bool, lowered_s: float | None
    ) -> tuple[ReserveTest, LogUnwritable | None]:
        """Log whether an attempt was held; an answer about the same set takes the earlier's place.

        What was measured takes the place of the seconds that the set was paced for.

        Parameters
        ----------
        test
            As far as it went.
        done
            The attempt's set, as it was first logged.
        said
            The partner says that it was held.
        lowered_s
            The measured seconds of the lower; None where nobody took them.

        Returns
        -------
        tuple of ReserveTest, and LogUnwritable or None
            The test as it is now, and why that is not on the disk yet, if it is not.
        """
        made = AttemptMade(
            id=self._new_id(),
            at=self._after(test),
            test=test.begun.id,
            set=done.id,
            load_kg=done.load_kg or 0.0,
            held=counts_as_held(said=said, lowered_s=lowered_s, lower_s=test.begun.lower_s),
            lowered_s=lowered_s,
        )
        before = next((one for one in test.attempts if one.set == done.id), None)
        was_s = None if before is None else before.lowered_s
        facts: list[Fact] = [made]
        paced_s = done.seconds.lower
        if (paced_s if was_s is None else was_s) != (
            is_s := paced_s if lowered_s is None else lowered_s
        ):
            seconds = done.seconds.model_copy(update={"lower": is_s})
            facts.append(SetCorrected(id=done.id, at=made.at, changes=Changes(seconds=seconds)))
        return test.answered(made), self._save(facts)

    def lose(self, test: ReserveTest, load_kg: Decimal) -> tuple[ReserveTest, LogUnwritable | None]:
        """Log that a load could not be lifted out, which is lost without a set."""
        made = AttemptMade(
            id=self._new_id(),
            at=self._after(test),
            test=test.begun.id,
            set=None,
            load_kg=float(load_kg),
            held=False,
            lowered_s=None,
        )
        return test.answered(made), self._save([made])

    def _after(self, test: ReserveTest) -> datetime:
        # Later than the answer before, even by a clock that was set back: the latest one counts.
        before = max((one.at for one in test.attempts), default=test.begun.at)
        return dated(self._clock.wall(), after=before)

    def _save(self, facts: list[Fact]) -> LogUnwritable | None:
        faults = [self._ledger.save(fact) for fact in facts]
        return faults[-1]
