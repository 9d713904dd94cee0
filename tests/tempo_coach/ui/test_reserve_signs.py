from __future__ import annotations

from decimal import Decimal

from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.ui.reserve_signs import ahead_sign, asked_sign, between_sign, result_sign
from tempo_coach.ui.sign import Sign
from tests.tempo_coach.core.reserve_tests import attempt_made, reserve_begun

HALFWAY = ReserveTest(reserve_begun(), (attempt_made(0, 100, held=True),))
KG = Decimal("107.5")


def test_the_signs_show_load_and_answer_large() -> None:
    assert ahead_sign(KG).figure == "107.5"
    assert ahead_sign(Decimal("104.3262451")).aside == ("LB",)
    assert [asked_sign(KG, held=held).word for held in (None, True, False)] == [
        "HELD?",
        "HELD",
        "LOST",
    ]
    between = between_sign(Sign(figure="3:59", figure_room="4:00"), KG, held=True)
    assert (between.word, between.figure, between.aside) == ("HELD", "3:59", ("NEXT", "107.5"))


def test_the_result_shows_the_ratio_or_that_there_is_none() -> None:
    assert result_sign(HALFWAY).figure == "1.000"
    lost = ReserveTest(reserve_begun(), (attempt_made(0, 100, held=False),))
    assert result_sign(lost).word == "NONE"
