"""The sets that are still ahead in a session."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tempo_coach.core.facts import SetDone
from tempo_coach.core.method_flags import Flag
from tempo_coach.core.overload import OverloadQuestion
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.session import Session, SessionItem
from tempo_coach.core.week_room import WeekRoom


@dataclass(frozen=True, slots=True)
class NextSet:
    """The set of a prescription that comes next."""

    prescription: Prescription
    number: int = 1
    """Counted from 1."""
    load_kg: float | None = None
    """What is on the bar, or hangs on the body, where the prescription does not say it in kg."""
    flags: tuple[Flag, ...] = ()
    """Where it leaves the range of its method, or what the lifter can do."""
    overload: OverloadQuestion | None = None
    """What must be typed before it is begun; None where nothing must."""
    notes: tuple[str, ...] = ()
    """What log and calendar have to say before it beside the limits, a sentence each."""
    room: WeekRoom | None = None
    """What the limits leave of the week; None where nothing says."""

    @property
    def warnings(self) -> tuple[str, ...]:
        """What speaks against the work as it is begun, a sentence each."""
        if self.room is None:
            return self.notes
        over = self.room.before_line(self.prescription, first=self.number, load_kg=self.load_kg)
        return (*over, *self.notes)

    def after(self, sets: Iterable[SetDone]) -> NextSet:
        """Return the same once some sets more were done before it."""
        return self if self.room is None else replace(self, room=self.room.after(sets))


def set_ahead(session: Session, item: SessionItem) -> NextSet | None:
    """Return the next set of an item of a day; None where nothing of it is left."""
    if item.next_set is None:
        return None
    return NextSet(
        item.prescription,
        item.next_set,
        item.resolved.load_kg,
        item.flags,
        item.overload,
        item.notes,
        session.room,
    )


def sets_ahead(session: Session, *, first: int | None = None) -> tuple[NextSet, ...]:
    """Return the next set of each item that has one left, in the order to do them in.

    What speaks against several of them is noted of the first.

    Parameters
    ----------
    session
        The day as it stands.
    first
        The place in the plan's day of the item to begin with; the others follow in today's order,
        and without one, or where it has no set left, it is today's order from the start.
    """
    ahead: list[NextSet] = []
    told: set[str] = set()
    for item in sorted(session.items, key=lambda item: item.item != first):
        if (one := set_ahead(session, item)) is not None:
            notes = tuple(note for note in one.notes if note not in told)
            ahead.append(replace(one, notes=notes))
            told.update(notes)
    return tuple(ahead)
