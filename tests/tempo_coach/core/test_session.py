from __future__ import annotations

from datetime import date, datetime, timedelta
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import Fact, MaxStruck, SetDone
from tempo_coach.core.history import fold
from tempo_coach.core.load import parse_load
from tempo_coach.core.plan_days import planned_days
from tempo_coach.core.running_set import RunningSet
from tempo_coach.core.session import Session, session_of
from tempo_coach.core.tempo import Allowances, parse_tempo
from tempo_coach.core.timeline import Timeline
from tests.tempo_coach.core.done_sets import done_set, max_tested, seconds
from tests.tempo_coach.core.plans import TEXT, plan_of
from tests.tempo_coach.core.test_session_changed import AT, changed, session_changes

MONDAY = date(2026, 11, 30)
EVENING = datetime.fromisoformat("2026-11-30T18:00:00+01:00")


def session(
    *facts: Fact, text: str = TEXT, on: date = MONDAY, lifter: str = "Mirela Oude"
) -> Session:
    plan = plan_of(text)
    day = planned_days(plan, lifter=lifter, around=on).today
    assert day is not None
    return session_of(plan, day, lifter=lifter, history=fold(facts), allowances=Allowances())


def squat(number: int = 1, **changes: Any) -> SetDone:
    """Return a set of Monday's squats, a few minutes after the one before."""
    began = changes.pop("began", EVENING) + timedelta(minutes=4 * number)
    return done_set(
        **{
            "id": f"s{number}",
            "lifter": "Mirela Oude",
            "started_at": began,
            "ended_at": began + timedelta(seconds=35),
            "load_kg": 65.0,
        }
        | changes
    )


def chin_up(number: int = 1, **changes: Any) -> SetDone:
    fields = {"exercise": "Chin-up", "lead": "raise", "tempo": parse_tempo("5-0-1-0")}
    return squat(number, **({"id": f"c{number}"} | fields | changes))


def test_a_fresh_day_says_what_is_to_be_done() -> None:
    day = session()

    squats, chins = day.items
    assert (day.plan, day.lifter, day.day.week) == ("Winter block", "Mirela Oude", 1)
    assert str(squats.prescription) == "front squat 4x5 @ 65 kg 4-1-X-1 rest 3:00"
    assert str(squats.written) == "front squat 4x5 @ 72% 4-1-X-1 rest 3:00"
    assert (squats.resolved.load_kg, squats.note) == (65.0, "heels down")
    assert (chins.resolved.load_kg, chins.note) == (78.0, "")
    assert [item.next_set for item in day.items] == [1, 1]
    assert day.next_item is squats
    assert (day.written.sets, day.written.reps, day.written.times.lower_ms) == (7, 35, 155_000)
    assert (day.done.sets, day.done.reps, day.done.times.lower_ms) == (0, 0, 0)


def test_sets_done_count_for_their_items_and_add_up() -> None:
    day = session(squat(1), squat(2, reps_done=4, seconds=seconds(lower=16)), chin_up(3))

    squats, chins = day.items
    assert [done.id for done in squats.done] == ["s1", "s2"]
    assert (squats.next_set, chins.next_set) == (3, 2)
    assert (day.done.sets, day.done.reps, day.done.times.lower_ms) == (3, 14, 56_000)


def test_the_day_is_done_when_every_set_is() -> None:
    sets = [squat(number) for number in range(1, 6)] + [chin_up(number) for number in (6, 7, 8)]
    day = session(*sets)
    assert [len(item.done) for item in day.items] == [5, 3]
    assert day.next_item is None


def test_sets_count_after_midnight_and_until_the_next_planned_day() -> None:
    sunday = squat(1, began=EVENING - timedelta(days=1))
    tuesday = squat(2, began=EVENING + timedelta(days=1))
    wednesday = squat(3, began=EVENING + timedelta(days=2))
    thursday = squat(4, began=EVENING + timedelta(days=3))
    day = session(sunday, tuesday, wednesday, thursday)
    assert [done.id for done in day.items[0].done] == ["s2", "s3"]
    assert day.until == date(2026, 12, 3)


def test_the_last_day_of_a_plan_ends_after_a_week() -> None:
    assert session(on=date(2027, 1, 7)).until == date(2027, 1, 14)


def test_the_local_date_of_the_lifter_counts() -> None:
    # Half past midnight on Monday here is still Sunday in UTC.
    here = datetime.fromisoformat("2026-11-30T00:30:00+01:00")
    there = datetime.fromisoformat("2026-11-29T23:30:00+00:00")
    assert len(session(squat(0, began=here)).items[0].done) == 1
    assert len(session(squat(0, began=there)).items[0].done) == 0


def test_sets_of_others_and_of_other_exercises_do_not_count() -> None:
    others = squat(1, lifter="Jonne Tarval"), squat(2, exercise="back squat")
    assert session(*others).done.sets == 0


def test_a_set_counts_at_any_tempo_and_goes_to_the_item_of_its_tempo() -> None:
    again = '[[days.work]]\nline = "front squat 2x3 @ 50 kg 6-0-1-0"\n[[days]]\nday = "Thursday"'
    text = TEXT.replace('[[days]]\nday = "Thursday"', again)
    slow = squat(2, tempo=parse_tempo("6-0-1-0"), reps_prescribed=3)
    day = session(squat(1), slow, squat(3, tempo=parse_tempo("2-0-1-0")), text=text)
    assert [[done.id for done in item.done] for item in day.items] == [["s1", "s3"], [], ["s2"]]


def test_of_two_items_alike_the_first_is_filled_first() -> None:
    again = '[[days.work]]\nline = "front squat 2x5 @ 60 kg 4-1-X-1"\n[[days]]\nday = "Thursday"'
    text = TEXT.replace('[[days]]\nday = "Thursday"', again)
    day = session(*(squat(number) for number in range(1, 6)), text=text)
    assert [len(item.done) for item in day.items] == [4, 0, 1]


def test_last_time_is_the_latest_earlier_day_at_that_tempo() -> None:
    week_before = [squat(number, began=EVENING - timedelta(days=7)) for number in (1, 2)]
    longer_ago = squat(3, began=EVENING - timedelta(days=14), id="old")
    other_tempo = squat(4, began=EVENING - timedelta(days=2), tempo=parse_tempo("2-0-1-0"))
    day = session(longer_ago, *week_before, other_tempo, squat(5))
    assert [done.id for done in day.items[0].last_time] == ["s1", "s2"]
    assert day.items[1].last_time == ()


# Today's changes.


def test_a_skipped_item_has_nothing_left_to_do_and_keeps_its_sets() -> None:
    day = session(squat(1), changed(why="knee"))
    squats = day.items[0]
    assert (squats.skipped, squats.next_set, len(squats.done)) == ("knee", None, 1)
    assert day.next_item is day.items[1]


def test_swapping_a_skipped_item_back_takes_it_up_again() -> None:
    back = changed("c2", at=AT + timedelta(minutes=1), change="swapped", exercise="front squat")
    assert session(changed(), back).items[0].next_set == 1
    assert session(back, changed(at=AT + timedelta(minutes=2))).items[0].next_set is None


def test_each_added_set_counts_once() -> None:
    one, two = (changed(set_id, change="added_set") for set_id in ("a", "b"))
    squats = session(one, two, two).items[0]
    assert (squats.added_sets, squats.prescription.sets) == (2, 6)


def test_a_swapped_item_has_the_other_exercise_its_load_and_its_lead() -> None:
    swap = changed(change="swapped", exercise="barbell row")
    squats = session(swap, squat(1), squat(2, exercise="Barbell Row")).items[0]
    assert str(squats.prescription) == "barbell row 4x5 @ 72% 4-1-X-1 rest 3:00"
    assert squats.prescription.lead == "raise"
    assert (squats.resolved.load_kg, squats.resolved.words) == (None, "no max")
    assert [done.id for done in squats.done] == ["s1", "s2"]


def test_the_later_load_for_today_holds() -> None:
    light = changed("a", change="load_changed", load=parse_load("60 kg"))
    lighter = changed(
        "b", at=AT + timedelta(minutes=1), change="load_changed", load=parse_load("50%")
    )
    assert session(light).items[0].resolved.load_kg == 60.0
    squats = session(lighter, light).items[0]
    assert squats.resolved.words.startswith("50% of 90 kg = 45, loadable 45 kg")


def test_a_max_that_the_log_holds_is_taken_for_the_day() -> None:
    tested = max_tested(lifter="Mirela Oude", load_kg=80.0, lower_s=4.0)
    struck = MaxStruck(id=tested.id, at=AT)
    assert session(tested).items[0].resolved.words.startswith("72% of 80 kg = 57.6, loadable")
    assert session(tested, struck).items[0].resolved.words.startswith("72% of 90 kg")


def test_a_moved_item_takes_its_new_place() -> None:
    move = changed(item=2, change="moved", to=1)
    assert [item.item for item in session(move).items] == [2, 1]
    back = changed("m2", at=AT + timedelta(minutes=1), item=2, change="moved", to=9)
    assert [item.item for item in session(back, move).items] == [1, 2]


def test_changes_of_other_days_plans_lifters_and_items_do_not_count() -> None:
    others = (
        changed("a", date=date(2026, 12, 7)),
        changed("b", plan="Summer block"),
        changed("c", lifter="Jonne Tarval"),
        changed("d", item=7),
        changed("e", item=7, change="moved", to=1),
    )
    assert [item.skipped for item in session(*others).items] == [None, None]


def test_names_are_the_same_in_any_spelling() -> None:
    change = changed(plan="WINTER block", lifter="mirela OUDE")
    assert session(change).items[0].skipped == "knee"


_sets = st.builds(
    lambda number, exercise, hours: squat(
        number, exercise=exercise, began=EVENING + timedelta(hours=hours)
    ),
    st.integers(1, 40),
    st.sampled_from(("front squat", "chin-up", "goblet squat", "row")),
    st.integers(-30, 90),
)


@given(st.lists(_sets | session_changes, max_size=12), st.permutations(range(12)))
def test_a_session_is_the_same_whatever_the_order_of_its_facts(
    facts: list[Fact], order: list[int]
) -> None:
    shuffled = [facts[place] for place in order if place < len(facts)]
    assert session(*shuffled) == session(*facts)


@given(st.lists(_sets | session_changes, max_size=12))
def test_every_item_stands_there_once_and_no_set_counts_twice(facts: list[Fact]) -> None:
    day = session(*facts)
    assert sorted(item.item for item in day.items) == [1, 2]
    counted = [done.id for item in day.items for done in item.done]
    assert len(counted) == len(set(counted)) == day.done.sets


ACCENTUATED = TEXT.replace(
    "front squat 4x5 @ 72% 4-1-X-1 rest 3:00",
    "front squat 3x5 @ 80% 3-0-X-0 lower @ 130 kg rest 4:00 method accentuated-lowering",
)


def test_an_item_says_what_leaves_its_method_and_what_must_be_typed() -> None:
    item = session(text=ACCENTUATED).items[0]
    assert item.resolved.lower_load_kg == 130.0
    # 130 of 90 kg are 144 %.
    assert [flag.what for flag in item.flags] == ["overload", "lower 130 kg, 144% of the 1RM"]
    assert item.overload is not None
    assert str(item.overload.load) == "130 kg"


def test_a_load_of_today_that_is_more_than_what_was_to_be_lowered_is_lowered_too() -> None:
    heavier = changed(change="load_changed", load=parse_load("135 kg"))
    item = session(heavier, text=ACCENTUATED).items[0]
    assert str(item.prescription) == (
        "front squat 3x5 @ 135 kg 3-0-X-0 rest 4:00 method accentuated-lowering"
    )


def test_a_set_of_the_day_is_logged_with_what_was_lowered() -> None:
    prescription = session(text=ACCENTUATED.replace("130 kg", "120%")).items[0].prescription
    running = RunningSet(
        "s1", "Mirela Oude", prescription, Timeline.of(prescription), zero_ms=0, began_at=EVENING
    )
    done = running.fact(60_000)
    assert done is not None
    # 80 and 120 % of 90 kg are 72 and 108 kg, by steps of 2.5 kg.
    assert (done.load_kg, done.lower_load_kg) == (72.5, 107.5)
