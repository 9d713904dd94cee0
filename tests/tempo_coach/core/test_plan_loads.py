from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.fact_values import HEAVIEST_KG
from tempo_coach.core.load import KG_PER_LB, Load, LoadUnit
from tempo_coach.core.plan_loads import ResolvedLoad, resolve, round_to
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.recorded_maxes import RecordedMaxes, fold_maxes
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.done_sets import max_tested
from tests.tempo_coach.core.plans import TEXT, plan_of

MAXES = """\
[[lifters.maxes]]
exercise = "Front Squat"
load = "81.5 kg"
on = 2026-10-01
lower_s = 6
[[lifters.maxes]]
exercise = "front squat"
load = "84 kg"
on = 2026-11-01
lower_s = 6
[[lifters.maxes]]
exercise = "front squat"
load = "120 kg"
on = 2026-11-20
[[lifters]]
name = "Jonne"""
SEVERAL = TEXT.replace('[[lifters]]\nname = "Jonne', MAXES)


def resolved(
    line: str,
    *,
    text: str = TEXT,
    lifter: str = "Mirela Oude",
    recorded: RecordedMaxes | None = None,
) -> ResolvedLoad:
    plan = plan_of(text)
    return resolve(
        parse_prescription(line),
        plan=plan,
        lifter=plan.lifter(lifter),
        allowances=Allowances(),
        recorded=recorded,
    )


def test_a_share_is_worked_out_and_rounded_to_what_the_rack_allows_and_says_both() -> None:
    load = resolved("front squat 4x5 @ 72% 2-1-X-1 rest 3:00")
    assert str(load.prescription) == "front squat 4x5 @ 65 kg 2-1-X-1 rest 3:00"
    assert load.load_kg == 65.0
    assert load.words == "72% of 90 kg = 64.8, loadable 65 kg"


def test_accentuated_loads_of_a_published_trial_are_worked_out_and_rounded() -> None:
    # Lates et al. 2022, JSCR 36:1485: bench press at 105 % down and 80 % up of a 1RM of 125.0 kg,
    # so 131.25 and 100 kg; the first can't be loaded exactly, and lies halfway.
    text = TEXT.replace('"90 kg"', '"125 kg"')
    down = resolved("front squat 3x5 @ 105% 2-0-X-0", text=text)
    up = resolved("front squat 3x5 @ 80% 2-0-X-0", text=text)
    assert down.words == "105% of 125 kg = 131.25, loadable 130 kg"
    assert (down.load_kg, up.load_kg) == (130.0, 100.0)


def test_a_max_in_the_other_unit_is_converted() -> None:
    # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg; 198.4 lb = 89.9927 kg.
    assert resolved(
        "front squat 1x1 @ 50% 2-0-1-0", text=TEXT.replace("90 kg", "198.4 lb")
    ).words == ("50% of 198.4 lb = 45, loadable 45 kg")
    pounds = TEXT.replace("weeks = 6", 'weeks = 6\nunit = "lb"')
    shown = resolved("front squat 1x1 @ 72% V-0-1-0", text=pounds)
    assert shown.words == "72% of 90 kg = 142.86, loadable 145 lb"
    assert shown.load_kg == pytest.approx(65.77, abs=0.01)


@pytest.mark.parametrize(
    ("tempo", "words"),
    [
        ("2-0-1-0", "50% of 90 kg = 45, loadable 45 kg (the plan's max, lowered in 2 s, tested"),
        ("5-0-1-0", "50% of 84 kg = 42, loadable 42.5 kg (the plan's max, lowered in 6 s, tested"),
        # Halfway between 2 and 6 s the later test counts.
        ("4-0-1-0", "50% of 90 kg = 45, loadable 45 kg (the plan's max, lowered in 2 s, tested"),
        # V is planned as 2 s, X as 1 s.
        ("V-0-1-0", "50% of 90 kg = 45, loadable 45 kg (the plan's max, lowered in 2 s, tested"),
        ("X-0-1-0", "50% of 90 kg = 45, loadable 45 kg (the plan's max, lowered in 2 s, tested"),
    ],
)
def test_the_max_whose_tested_lower_is_nearest_counts(tempo: str, words: str) -> None:
    assert resolved(f"FRONT squat 4x5 @ 50% {tempo}", text=SEVERAL).words.startswith(words)


def test_one_max_of_another_tempo_is_not_taken_in_silence() -> None:
    slow = resolved("front squat 4x5 @ 50% 6-0-1-0")
    untimed = resolved("front squat 4x5 @ 50% 6-0-1-0", text=TEXT.replace("lower_s = 2\n", ""))
    assert slow.words == (
        "50% of 90 kg = 45, loadable 45 kg (the plan's max, lowered in 2 s, tested 2026-11-12)"
    )
    assert untimed.words == "50% of 90 kg = 45, loadable 45 kg"


def test_a_max_of_the_log_holds_beside_the_plan_s_and_says_so() -> None:
    recorded = fold_maxes(
        [
            max_tested(lifter="MIRELA Oude", load_kg=80.0, lower_s=5.0),
            max_tested(id="lowered", lifter="Mirela Oude", what="lowered", lower_s=4.0),
            max_tested(id="other", lifter="Jonne Tarval", load_kg=200.0, lower_s=4.0),
        ]
    )
    assert resolved("front squat 4x5 @ 50% 4-1-X-1", recorded=recorded).words == (
        "50% of 80 kg = 40, loadable 40 kg (the log's max, lowered in 5 s, tested 2026-11-20)"
    )
    assert resolved("front squat 4x5 @ 50% 4-1-X-1", lifter="Jonne Tarval").words == "no max"


def test_a_load_that_can_not_be_worked_out_says_why_and_stays_as_written() -> None:
    no_max = resolved("row 4x5 @ 72% 4-1-X-1")
    assert (str(no_max.prescription), no_max.load_kg, no_max.words) == (
        "row 4x5 @ 72% 4-1-X-1",
        None,
        "no max",
    )
    assert resolved("chin-up 4x5 @ bw 4-1-X-1", lifter="Jonne Tarval").words == "no body mass"
    none = resolved("row 4x5 4-1-X-1")
    assert (none.load_kg, none.words) == (None, "")


@pytest.mark.parametrize(
    ("load", "kg"), [("80 kg", 80.0), ("bw", 68.0), ("bw+10 kg", 78.0), ("bw+5 lb", 70.26796185)]
)
def test_other_loads_stay_and_are_known_in_kg(load: str, kg: float) -> None:
    line = f"chin-up 4x5 @ {load} 4-1-X-1"
    shown = resolved(line)
    assert (str(shown.prescription), shown.words) == (line, "")
    assert shown.load_kg == pytest.approx(kg)


@given(
    st.decimals(0, 160, places=2),
    st.decimals("0.1", HEAVIEST_KG, places=2),
    st.decimals("0.01", 50, places=2),
)
def test_any_share_of_any_max_can_be_loaded(share: Decimal, heaviest: Decimal, by: Decimal) -> None:
    amount = share / 100 * heaviest
    load = round_to(amount, Load(by, LoadUnit.KG))
    assert load.amount % by == 0
    assert abs(load.amount - amount) <= max(by / 2, by - amount)


def test_the_heaviest_max_in_pounds_stays_below_the_heaviest_load() -> None:
    in_lb = Decimal(160) / 100 * HEAVIEST_KG / KG_PER_LB
    assert round_to(in_lb, Load(Decimal(100), LoadUnit.LB)).amount == 2100


@pytest.mark.parametrize(
    ("line", "raised", "lowered", "words"),
    [
        # Lates et al. 2022, JSCR 36:1485: of 125.0 kg, 80 and 105 % are 100 and 131.25 kg.
        (
            "front squat 3x5 @ 80% 2-0-X-0 lower @ 105%",
            "100 kg",
            "130 kg",
            "80% of 125 kg = 100, loadable 100 kg; "
            "lowered: 105% of 125 kg = 131.25, loadable 130 kg",
        ),
        (
            "front squat 3x5 @ 70% 2-0-X-0 first lower @ 120%",
            "87.5 kg",
            "150 kg",
            "70% of 125 kg = 87.5, loadable 87.5 kg; "
            "lowered: 120% of 125 kg = 150, loadable 150 kg",
        ),
        (
            "front squat 3x5 @ 80% 2-0-X-0 lower @ 81%",
            "100 kg",
            "102.5 kg",
            "80% of 125 kg = 100, loadable 100 kg; lowered: 81% of 125 kg = 101.25, "
            "loadable 100 kg, which is raised too, so 102.5 kg",
        ),
        (
            "front squat 3x5 @ 80% 2-0-X-0 lower @ 130 kg",
            "100 kg",
            "130 kg",
            "80% of 125 kg = 100, loadable 100 kg",
        ),
        ("chin-up 3x5 @ bw 3-0-X-0 lower @ bw+20 kg", "bw", "88 kg", "lowered: bw+20 kg is 88 kg"),
        ("row 3x5 @ 80% 2-0-X-0 lower @ 105%", "80%", "105%", "no max"),
    ],
)
def test_what_is_lowered_is_worked_out_like_the_load(
    line: str, raised: str, lowered: str, words: str
) -> None:
    shown = resolved(line, text=TEXT.replace('"90 kg"', '"125 kg"'))
    shape = shown.prescription.shape
    assert shape.lower_load is not None
    assert (str(shown.prescription.load), str(shape.lower_load.load)) == (raised, lowered)
    assert shown.words == words
    assert shown.lower_load_kg == (None if "%" in lowered else shape.lower_load.load.kg())


def test_a_lowered_load_that_is_no_more_than_the_one_raised_is_left_out_and_said() -> None:
    shown = resolved("front squat 3x5 @ 80% 3-0-X-0 lower @ 60 kg")
    assert str(shown.prescription) == "front squat 3x5 @ 72.5 kg 3-0-X-0"
    assert shown.words.endswith("lower @ 60 kg is no more than what is raised, so it is left out")


@given(st.integers(1, 119), st.integers(1, 40), st.integers(1, 600), st.integers(1, 50))
def test_what_is_lowered_is_always_more_than_what_is_raised(
    share: int, more: int, heaviest: int, by: int
) -> None:
    text = TEXT.replace('"90 kg"', f'"{heaviest} kg"').replace(
        "weeks = 6", f'weeks = 6\nstep = "{by} kg"'
    )
    shown = resolved(f"front squat 3x5 @ {share}% 3-0-X-0 lower @ {share + more}%", text=text)
    assert shown.lower_load_kg is not None
    assert shown.load_kg is not None
    assert shown.lower_load_kg > shown.load_kg
