from __future__ import annotations

from datetime import datetime, timedelta

import pytest

from tempo_coach.core.adherence import adherence
from tempo_coach.core.demo import LIFTER, LINE, WEEKS, demo_facts
from tempo_coach.core.facts import FACTS, MaxTested, SetDone, line_of
from tempo_coach.core.history import fold
from tempo_coach.core.maxes import known_maxes, reserve_maxes
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.reserve import Reserve, Standing
from tempo_coach.core.weeks import IsoWeek, weekly

SUNDAY_NIGHT = datetime.fromisoformat("2026-03-08T23:30:00+01:00")


@pytest.mark.parametrize("days_earlier", range(7))
def test_the_demo_is_twelve_weeks_of_sets_and_none_of_today(days_earlier: int) -> None:
    now = SUNDAY_NIGHT - timedelta(days=days_earlier)
    facts = list(demo_facts(now))
    history = fold(facts)
    assert {IsoWeek.of(now.date()).before(back) for back in range(1, WEEKS)} <= {
        week.week for week in weekly(history.of(LIFTER))
    }
    done = [fact for fact in facts if isinstance(fact, SetDone)]
    assert (now.date() - max(fact.started_at.date() for fact in done)).days in (1, 2)


def test_the_demo_is_the_same_at_the_same_moment() -> None:
    assert list(demo_facts(SUNDAY_NIGHT)) == list(demo_facts(SUNDAY_NIGHT))


def test_the_demo_has_a_correction_and_a_strike_of_sets_that_are_there() -> None:
    history = fold(demo_facts(SUNDAY_NIGHT))
    corrected = history.corrected.keys() - history.measured.keys()
    assert (len(corrected), len(history.struck)) == (1, 1)
    assert (history.orphaned, history.disagreeing) == ((), ())


def test_the_demo_is_a_log_as_any_other() -> None:
    facts = list(demo_facts(SUNDAY_NIGHT))
    assert [FACTS.validate_json(line_of(fact)) for fact in facts] == facts
    ids = [fact.id for fact in facts if isinstance(fact, SetDone | MaxTested)]
    assert len(set(ids)) == len(ids)
    assert len(facts) - len(ids) == 3 + len(fold(facts).measured)


def test_the_demo_has_maxes_and_a_reserve_and_one_test_that_was_struck() -> None:
    maxes = fold(demo_facts(SUNDAY_NIGHT)).maxes
    pair = reserve_maxes(known_maxes(maxes.of(LIFTER, "front squat"), exercise="front squat"))
    assert len(maxes.struck) == 1
    assert pair is not None
    assert Reserve(pair[0].load_kg, pair[1].load_kg).standing is Standing.WITHIN


def test_the_demo_has_a_line_on_the_board() -> None:
    assert str(parse_prescription(LINE)) == LINE


def test_the_demo_has_measured_sets_whose_lower_falls_short_as_the_bar_gets_heavier() -> None:
    history = fold(demo_facts(SUNDAY_NIGHT))
    kept = [
        adherence(history.measured[done.id].measured_reps(), tempo=done.tempo, shape=done.shape)
        for done in history.of(LIFTER)
        if done.id in history.measured
    ]

    assert not kept[0].is_lower_short
    assert kept[-1].is_lower_short
