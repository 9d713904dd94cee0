"""Where an item of a session goes when it is moved."""

from __future__ import annotations

from tempo_coach.core.session import Session


def place_after_move(session: Session, item: int, by: int) -> int | None:
    """Return the place in today's order, from 1, that lies so many places further.

    Parameters
    ----------
    session
        The day as it stands.
    item
        The item's place in the plan's day.
    by
        How far, backwards below 0.

    Returns
    -------
    int or None
        None where there is no such place, so that nothing moves.
    """
    order = [one.item for one in session.items]
    place = order.index(item) + 1 + by
    return place if 1 <= place <= len(order) else None
