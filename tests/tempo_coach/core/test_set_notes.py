from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from tempo_coach.core.cautions import WARNING_SIGNS
from tempo_coach.core.facts import SetDone
from tempo_coach.core.load import parse_load
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.measured_rep import MeasuredRep
from tempo_coach.core.plan_season import CalendarSpan, DosingRules
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.season_calendar import SeasonCalendar
from tempo_coach.core.set_notes import Ahead, Known, set_notes
from tempo_coach.core.set_rows import NONE_MEASURED
from tempo_coach.core.strength import Best, Strength
from tempo_coach.core.tempo import parse_tempo
from tempo_coach.core.work import PhaseTimes
from tests.tempo_coach.core.done_sets import done_set

NOW = datetime.fromisoformat("2026-03-12T18:00:00+01:00")
SLOW = "front squat 4x5 @ 80 kg 4-1-X-1"
PLAIN = "front squat 4x5 @ 80 kg 2-0-X-0"
OVER = "front squat 3x2 @ 110 kg 5-0-A-0 lowering only method overloaded-lowering"


def before(hours: float, **changes: Any) -> SetDone:
    """Return five slow front squats with 80 kg, begun so many hours ago."""
    begun = NOW - timedelta(hours=hours)
    return done_set(id=f"{hours}", started_at=begun, ended_at=begun, **changes)


def notes(
    line: str = SLOW,
    *,
    sets: Sequence[SetDone] = (),
    spans: Sequence[CalendarSpan] = (),
    overloads: Sequence[SetDone] = (),
    max_kg: float | None = 100.0,
    soreness: int | None = None,
    rules: DosingRules | None = None,
    measured: Mapping[str, SetMeasured] = NONE_MEASURED,
) -> tuple[str, ...]:
    rules = rules or DosingRules()
    prescription = parse_prescription(line)
    calendar = SeasonCalendar.of(spans, lifter="Ansa Vireo", taper=rules.as_taper())
    ahead = Ahead(prescription, NOW)
    lifted = None if max_kg is None else Best(parse_load(f"{max_kg} kg"), "")
    return set_notes(
        ahead,
        Known(
            sets=[*sets, *overloads],
            rules=rules,
            day=calendar.day(NOW.date()),
            strength=Strength(lifted=lifted),
            overloads=lambda: overloads,
            measured=measured,
            soreness=soreness,
        ),
    )


def season(percent: float | None = None) -> CalendarSpan:
    return CalendarSpan(
        kind="in season",
        first=date(2026, 3, 1),
        last=date(2026, 4, 1),
        name="League",
        lowering_percent=percent,
    )


def test_where_nothing_speaks_against_a_set_nothing_is_said() -> None:
    assert notes(sets=[before(50)]) == ()


def test_in_season_lowering_emphasis_is_said_to_be_out() -> None:
    assert notes(spans=[season()]) == ("Today is League: lowering emphasis is taken out.",)
    assert notes(spans=[season(25)]) == ("Today is League: 25% of the lowering emphasis stays.",)


def test_ordinary_work_in_season_is_nothing_to_speak_of() -> None:
    assert notes(PLAIN, spans=[season()], sets=[before(20)]) == ()


def test_work_for_the_same_muscles_that_comes_too_soon_is_said() -> None:
    [said] = notes("split squat 3x5 4-0-1-0", sets=[before(24)])

    assert said.startswith("24 h since lowering emphasis for the knee extensors (front squat)")
    assert "less than 48 h" in said


@pytest.mark.parametrize(
    "earlier",
    [
        before(48),
        before(24, exercise="nordic hamstring curl"),
        before(24, tempo=parse_tempo("2-0-X-0")),
        before(24, exercise="plank"),
        before(0.2),
    ],
)
def test_other_muscles_ordinary_work_and_this_session_are_not_too_soon(earlier: SetDone) -> None:
    assert notes(sets=[earlier]) == ()


def test_a_session_that_goes_on_hides_the_one_before_it_from_nobody() -> None:
    sets = [before(26), before(3.9), before(0.1)]

    [said] = notes(sets=sets)

    assert said.startswith("26 h since")


def test_the_hours_and_the_groups_are_the_plan_s() -> None:
    rules = DosingRules(hours_apart=36, groups={"sled drag": "knee extensors"})

    assert notes(sets=[before(37)], rules=rules) == ()
    assert len(notes(sets=[before(35, exercise="sled drag")], rules=rules)) == 1


def test_a_first_overload_is_said_to_be_one() -> None:
    [said] = notes(OVER, sets=[before(200)])

    assert said.startswith("This is the first overload in the log for these muscles: front")
    assert "Spotters or safety pins" in said


def test_an_overload_of_other_muscles_makes_this_one_no_less_the_first() -> None:
    pressed = before(200, exercise="bench press", load_kg=105.0)

    [said] = notes(OVER, overloads=[pressed])

    assert "first overload in the log for these muscles" in said
    assert notes(OVER, overloads=[before(200, exercise="leg press", load_kg=205.0)]) == ()


def test_an_exercise_of_no_group_has_a_first_overload_of_its_own() -> None:
    [said] = notes(OVER.replace("front squat", "sled drag"), overloads=[before(200)])

    assert said.startswith("This is the first overload in the log for these muscles: sled drag")


def test_an_overload_after_half_a_year_is_as_the_first() -> None:
    [said] = notes(OVER, overloads=[before(24 * 190, load_kg=105.0)])

    day = (NOW - timedelta(days=190)).date()
    assert said == (
        f"The last overload for these muscles was on {day}, over six months ago: begin as with "
        "the first."
    )


def test_a_fifth_week_of_overload_asks_for_the_break() -> None:
    overloads = [before(24 * days, load_kg=105.0) for days in (30, 23, 16, 9)]

    [said] = notes(OVER, overloads=overloads)

    assert said.startswith("This is week 5 of overload without a break of 2 weeks; after 4")


def test_without_a_max_the_method_tells_an_overload() -> None:
    assert len(notes(OVER, max_kg=None)) == 1
    assert notes("front squat 3x2 @ 110 kg 5-0-A-0 lowering only", max_kg=None) == ()


def test_a_load_under_which_the_lower_fell_short_is_said_to_be_too_heavy() -> None:
    done = before(60, timing="tapped")
    reps = [MeasuredRep(3000, 1000, 800, None)] * 5
    measured = SetMeasured.of(done.id, reps, times=PhaseTimes(), by="tapped", at=NOW)

    said = notes(sets=[done], measured={done.id: measured})

    assert said == (
        "front squat: 80 kg is too heavy for a lower of 4 s: on 2026-03-10 5 of 5 measured lowers "
        "of 4 s at 80 kg were short, by 1 s on the mean.",
    )
    assert notes(PLAIN, sets=[done], measured={done.id: measured}) == ()
    assert notes("front squat 4x5 @ bw 4-1-X-1", sets=[done], measured={done.id: measured}) == ()


def test_soreness_above_the_rule_is_said_with_what_it_asks_for_and_the_choice_to_go_on() -> None:
    [said] = notes(soreness=6)

    assert said.startswith("Soreness today is 6 of 10, above 5:")
    assert "or go on" in said
    assert said.endswith("Pain stops the set.")
    assert notes(soreness=5) == ()
    assert notes(soreness=6, rules=DosingRules(soreness_most=6)) == ()


def test_ordinary_work_is_told_of_soreness_too_and_a_raise_alone_is_not() -> None:
    assert len(notes(PLAIN, soreness=6)) == 1
    assert notes("front squat 4x5 @ 80 kg 2-0-1-0 raise only", soreness=6) == ()


def test_very_much_soreness_is_pointed_to_the_warning_signs() -> None:
    _, signs = notes(soreness=9)

    assert signs == WARNING_SIGNS
    assert len(notes(soreness=8)) == 1


def test_an_exercise_of_no_group_is_alike_to_itself() -> None:
    sets = [before(20, exercise="Zercher carry")]

    [said] = notes("zercher carry 3x5 @ 60 kg 4-0-1-0", sets=sets)

    assert said.startswith("20 h since lowering emphasis for zercher carry; less than 48 h")
    assert notes("yoke walk 3x5 @ 60 kg 4-0-1-0", sets=sets) == ()


def test_hours_are_real_ones_over_a_change_of_the_clocks_and_of_the_place() -> None:
    # On 29 March 2026 the clocks of central Europe went from 02:00 to 03:00.
    spring = datetime.fromisoformat("2026-03-28T18:00:00+01:00")
    at = datetime.fromisoformat("2026-03-30T18:00:00+02:00")
    flown = datetime.fromisoformat("2026-03-31T02:00:00+10:00")
    last = done_set(id="last", started_at=spring, ended_at=spring)

    for moment in (at, flown):
        ahead = Ahead(parse_prescription(SLOW), moment)
        known = Known([last], DosingRules(), None, Strength(), lambda: (), {}, None)
        [said] = set_notes(ahead, known)
        assert said.startswith("47 h since")
