from __future__ import annotations

import pytest

from tempo_coach.core.session_order import place_after_move
from tests.tempo_coach.core.test_session import session
from tests.tempo_coach.core.test_session_changed import changed


@pytest.mark.parametrize(
    ("item", "by", "place"), [(1, 1, 2), (2, -1, 1), (1, -1, None), (2, 1, None), (1, 5, None)]
)
def test_a_move_goes_to_the_place_beside_and_no_further_than_the_ends(
    item: int, by: int, place: int | None
) -> None:
    assert place_after_move(session(), item, by) == place


def test_a_move_begins_where_the_item_stands_today() -> None:
    moved = session(changed(item=2, change="moved", to=1))

    assert place_after_move(moved, 2, 1) == 2
    assert place_after_move(moved, 2, -1) is None
