from __future__ import annotations

from tempo_coach.core.plan_remarks import remarks_of
from tempo_coach.core.tempo import Allowances
from tests.tempo_coach.core.plans import HEAD, LIFTERS, TEXT, reading

OVERLOAD = """
[[days]]
day = "Monday"
lifters = ["Mirela Oude"]
[[days.work]]
line = "front squat 3x2 @ 105% 4-0-A-0 lowering only rest 4:00 method overloaded-lowering"
from_week.5 = "off"
"""
CLEARED = LIFTERS.replace('body_mass = "68 kg"', "overload = true")


def remarks(text: str) -> list[str]:
    return [str(one) for one in remarks_of(reading(text), allowances=Allowances())]


def test_a_plan_within_its_methods_has_no_remarks() -> None:
    assert remarks(TEXT) == []
    assert remarks(HEAD + CLEARED + OVERLOAD) == []


def test_a_line_outside_its_method_is_a_remark_with_its_line_and_no_fault() -> None:
    text = HEAD + CLEARED + OVERLOAD.replace("105%", "140%")
    assert remarks(text) == [
        "line 20: for 'Mirela Oude', load 140%: overloaded-lowering has load above 100 to about "
        "130% of the 1RM (common practice, no source)"
    ]
    assert reading(text).faults == ()


def test_overload_without_the_coachs_word_or_against_it_is_a_remark() -> None:
    unsaid = remarks(HEAD + LIFTERS + OVERLOAD)
    refused = remarks(HEAD + CLEARED.replace("true", "false") + OVERLOAD)
    assert "only for those whom their coach has cleared" in unsaid[0]
    assert refused == [
        "line 20: for 'Mirela Oude', overload: the coach has not cleared this lifter for it "
        "(the plan)"
    ]


def test_a_line_in_a_later_week_has_its_own_place() -> None:
    later = OVERLOAD.replace(
        'from_week.5 = "off"',
        'from_week.3 = "front squat 3x2 @ 140% 4-0-A-0 lowering only method overloaded-lowering"\n'
        'from_week.5 = "off"',
    )
    assert [one.split(":")[0] for one in remarks(HEAD + CLEARED + later)] == ["line 21"]


def test_more_weeks_or_days_of_a_method_than_the_trade_has_are_remarks() -> None:
    # At most 4 weeks at a time, once a week: common practice, no source.
    long = OVERLOAD.replace('from_week.5 = "off"\n', "")
    both = long + long.replace("Monday", "Thursday")
    assert remarks(HEAD + CLEARED + long) == [
        "line 5: for 'Mirela Oude', overloaded-lowering in 6 weeks on end: 2 to 4 (common "
        "practice, no source) weeks at a time"
    ]
    assert "on 2 days of a week: 1 (common practice, no source) sessions a week" in " ".join(
        remarks(HEAD + CLEARED + both)
    )


def test_a_plan_that_can_not_be_used_has_no_remarks() -> None:
    assert remarks("name = 3") == []


def test_a_span_outside_the_season_is_a_remark_and_one_that_reaches_into_it_is_none() -> None:
    spans = (
        ("meet", "2026-03-27", ""),
        ("holiday", "2026-11-20", "last = 2026-11-30\n"),
        ("meet", "2028-11-26", ""),
        ("meet", "2028-11-27", ""),
    )
    calendar = "".join(
        f'[[calendar]]\nkind = "{kind}"\nfirst = {first}\n{last}' for kind, first, last in spans
    )

    assert [one.partition(": ")[2] for one in remarks(TEXT + calendar)] == [
        "the meet of 2026-03-27 is over before week 1, which begins 2026-11-30",
        "the meet of 2028-11-27 is behind the 104 weeks that a season has",
    ]
    assert reading(TEXT + calendar).faults == ()
