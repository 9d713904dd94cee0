"""Where the work of one prescription stands."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tempo_coach.core.facts import SetDone
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.week_room import WeekRoom


@dataclass(frozen=True, slots=True)
class Course:
    """Which set is at hand, which was just done, and what is done altogether."""

    prescription: Prescription
    number: int = 1
    """The set at hand, or the one just done, counted from 1."""
    last: SetDone | None = None
    """The set just done; None before it is done, and where it does not count."""
    done: tuple[SetDone, ...] = ()
    """All that count, in order, repeated ones too."""
    repeats: bool = False
    """The set just done is to be done once more."""
    load_kg: float | None = None
    """As for `NextSet`."""
    then: NextSet | None = None
    """What comes after the last set, of other work; None where that is nothing."""
    room: WeekRoom | None = None
    """As for `NextSet`, before any of the work was done."""

    @classmethod
    def of(cls, first: NextSet, then: NextSet | None) -> Course:
        """Return the work that begins with a set, and what comes after it."""
        line, number, load_kg = first.prescription, first.number, first.load_kg
        return cls(line, number, load_kg=load_kg, then=then, room=first.room)

    @property
    def next_number(self) -> int:
        """The set that comes next; a set that does not count comes again."""
        return self.number if self.last is None or self.repeats else self.number + 1

    @property
    def is_finished(self) -> bool:
        """No set of the prescription comes next."""
        return self.next_number > self.prescription.sets

    @property
    def is_at_end(self) -> bool:
        """Nothing comes after the set at hand."""
        return self.number >= self.prescription.sets and self.then is None

    @property
    def at_hand(self) -> NextSet:
        """The set at hand."""
        return NextSet(self.prescription, self.number, self.load_kg)

    @property
    def next_set(self) -> NextSet | None:
        """What comes next, of this work or of other; None where that is nothing."""
        if self.is_finished:
            return self.then
        return NextSet(self.prescription, self.next_number, self.load_kg)

    @property
    def warnings(self) -> tuple[str, ...]:
        """What speaks against the set that comes next, after what was done; a sentence each."""
        if self.is_finished:
            return () if self.then is None else self.then.after(self.done).warnings
        if self.room is None:
            return ()
        return self.room.before_set(self.prescription, done=self.done, load_kg=self.load_kg)

    def started(self) -> Course:
        """Go on to the next set."""
        return replace(self, number=self.next_number, last=None, repeats=False)

    def ended(self, done: SetDone | None) -> Course:
        """Take in the set at hand, which is None where nothing was lifted."""
        return replace(self, last=done, done=self.done if done is None else (*self.done, done))

    def corrected(self, done: SetDone) -> Course:
        """Put a set in the place of the one with its id."""
        return replace(
            self,
            last=done if self.last is not None and self.last.id == done.id else self.last,
            done=tuple(done if each.id == done.id else each for each in self.done),
        )

    def struck(self) -> Course:
        """Leave out the set just done."""
        return replace(self, last=None, repeats=False, done=self.done[:-1])

    def repeated(self) -> Course:
        """Do the set just done once more, or go on after all."""
        return replace(self, repeats=not self.repeats)
