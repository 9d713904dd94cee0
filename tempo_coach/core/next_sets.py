"""The sets that are still ahead in a session."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.method_flags import Flag
from tempo_coach.core.overload import OverloadQuestion
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.session import Session


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
    """What log and calendar have to say before it, a sentence each."""


def sets_ahead(session: Session, *, first: int | None = None) -> tuple[NextSet, ...]:
    """Return the next set of each item that has one left, in the order to do them in.

    Parameters
    ----------
    session
        The day as it stands.
    first
        The place in the plan's day of the item to begin with; the others follow in today's order,
        and without one, or where it has no set left, it is today's order from the start.
    """
    items = sorted(session.items, key=lambda item: item.item != first)
    return tuple(
        NextSet(
            item.prescription,
            item.next_set,
            item.resolved.load_kg,
            item.flags,
            item.overload,
            item.notes,
        )
        for item in items
        if item.next_set is not None
    )
