from __future__ import annotations

from datetime import date

import pytest
import tomlkit
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan import Plan
from tempo_coach.core.plan_reading import PlanReading
from tempo_coach.errors import PlanRefused
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.harmless import is_harmless
from tests.tempo_coach.core.plans import DAYS, HEAD, LIFTERS, TEXT, plan_of, reading


def said(text: str) -> list[str]:
    return [str(fault) for fault in reading(text).faults]


def only(text: str) -> str:
    faults = said(text)
    assert len(faults) == 1, faults
    return faults[0]


def test_a_plan_without_faults_is_read_whole() -> None:
    plan = plan_of()

    assert (plan.name, plan.start, plan.weeks) == ("Winter block", date(2026, 11, 30), 6)
    assert [lifter.name for lifter in plan.lifters] == ["Mirela Oude", "Jonne Tarval"]
    assert str(plan.days[0].work[1].line) == "chin-up 3x5 @ bw+10 kg 5-0-1-0 rest 1:30"
    assert str(plan.loads_by) == "2.5 kg"


def test_another_toml_library_reads_the_same_plan() -> None:
    # tomlkit: a second, independent reader of TOML 1.0.
    assert Plan.model_validate(tomlkit.parse(TEXT).unwrap()) == plan_of()


@pytest.mark.parametrize(
    ("before", "after", "fault"),
    [
        (
            'name = "Winter block"',
            "name = 3",
            "line 1: name = 3 is not possible; a text of 1 to 80",
        ),
        ('"Winter block"', '""', "line 1: the name of the plan is empty; give at least one letter"),
        (
            "start = 2026-11-30\n",
            "",
            "line 1: start is missing; for next Monday write start = 2026-11-30",
        ),
        (
            "= 2026-11-30\n",
            '= "2026-11-30"\n',
            'line 2: start = "2026-11-30" is not possible; a date without quotes',
        ),
        (
            "= 2026-11-30\n",
            "= 2026-11-30T10:00:00\n",
            "line 2: start = 2026-11-30 10:00:00 is not possible; a date",
        ),
        ("= 2026-11-30\n", "= 2026-13-12\n", "line 2: there is no 2026-13-12; months are 01 to 12"),
        (
            "= 2026-11-30\n",
            "= 2026-1-5\n",
            "line 2: '2026-1-5' is not how a date is written; write",
        ),
        (
            "= 2026-11-30\n",
            "= 2026-11-31T10:00:00 # Monday\n",
            "line 2: there is no 2026-11-31; that month ends on 2026-11-30",
        ),
        (
            "= 2026-11-30\n",
            "= 2026-11-30T25:00:00\n",
            "line 2: '2026-11-30T25:00:00' is no date alone; write 2026-11-30",
        ),
        (
            "= 2026-11-30\n",
            '= "2026-11-31"\n',
            "line 2: start: there is no 2026-11-31; that month ends on 2026-11-30, and a date",
        ),
        ("= 2026-11-12", "= 2027-02-29", "line 11: there is no 2027-02-29; that month ends on"),
        (
            "= 2026-11-12",
            "= 1969-12-31",
            "line 11: on = 1969-12-31 is not possible; a date without quotes or a time, 1970-01-01",
        ),
        ("lower_s = 2", "lower_s = 2,5", "line 12: '2,5' is no number and no date; a number is"),
        ('"68 kg"', "68 kg", "line 7: '68 kg' is no number and no date; a number is written as"),
        (
            "weeks = 6",
            "weeks = 0",
            "line 3: weeks = 0 is not possible; a whole number from 1 to 104",
        ),
        ("weeks = 6", "weeks = true", "line 3: weeks = true is not possible"),
        (
            "weeks = 6",
            "weeks = 6\nstep = 2.5",
            "line 4: step: a load is a text such as 80 kg; at most 50 kg, such as",
        ),
        (
            "weeks = 6",
            'weeks = 6\nstep = "5 lb"',
            'line 4: step is in lb, but loads are shown in kg; write unit = "lb"',
        ),
        (
            "weeks = 6",
            'weeks = 6\nstep = "60 kg"',
            "line 4: 60 kg is not possible here; in kg or lb, at most 50 kg",
        ),
        (
            "weeks = 6",
            'weeks = 6\nunit = "kilos"',
            'line 4: unit = "kilos" is not possible; write unit = "kg"',
        ),
        (
            "weeks = 6",
            "weeks = 6\nweek = 6",
            "line 4: 'week' is no key of the top of the plan; the nearest is 'weeks'",
        ),
        (
            "weeks = 6",
            "weeks = 6\nbase_s = 240",
            "line 4: 'base_s' is no key of the top of the plan; known are name, start, weeks, "
            "unit, step, calendar, dosing, lifters, days; it is one of [[lifters]] and of [dosing]",
        ),
        (
            "weeks = 6",
            'weeks = ["6"]',
            "line 3: weeks = […] is not possible; a whole number from 1 to 104",
        ),
        (
            "body_mass",
            "bodymass",
            "line 7: 'bodymass' is no key of [[lifters]]; the nearest is 'body_mass'",
        ),
        ('"68 kg"', '"bw"', "line 7: bw is not possible here; in kg or lb, at most 600 kg"),
        ('"68 kg"', '"68"', "line 7: body_mass: '68' is no load; write 68 kg or 68 lb"),
        (
            'body_mass = "68 kg"',
            'overload = "yes"',
            'line 7: overload = "yes" is not possible; write overload = true or overload = false',
        ),
        ('load = "90 kg"\n', "", "line 8: load is missing; such as load = "),
        ("on = 2026-11-12", "on = 12", "line 11: on = 12 is not possible; a date without quotes"),
        (
            "lower_s = 2",
            "lower_s = 61",
            "line 12: lower_s = 61 is not possible; seconds from 0 to 60",
        ),
        (
            '"Jonne Tarval"',
            '"mirela  OUDE"',
            "line 14: two lifters are called 'mirela OUDE'; give each a name",
        ),
        (
            '"Monday"',
            '"Mondy"',
            "line 17: day = \"Mondy\" is not possible; the nearest is 'Monday'",
        ),
        (
            '"Monday"',
            '"monday"',
            "line 17: day = \"monday\" is not possible; the nearest is 'Monday'",
        ),
        (
            '"Thursday"',
            '"Monday"',
            "line 27: 'Monday' stands twice for 'Mirela Oude'; put the work of one day",
        ),
        (
            '= ["Mirela Oude"]',
            '= ["Mirela Oud"]',
            "line 18: 'Mirela Oud' is no lifter of this plan; the nearest is 'Mirela Oude'",
        ),
        (
            '= ["Mirela Oude"]',
            "= []",
            "line 18: lifters = [] is not possible; give at least one name",
        ),
        (
            "4-1-X-1 rest",
            "4-X-X-1 rest",
            "line 20: in 'front squat 4x5 @ 72% 4-X-X-1 rest 3:00', column 25: the pause can't be",
        ),
        ('"heels down"', "5", "line 21: note = 5 is not possible; a text of at most 2000"),
        (
            "from_week.3",
            "from_week.9",
            "line 22: from_week.9 in a plan of 6 weeks; 2 to 6, for week 1 is the line",
        ),
        ("from_week.3", "from_week.1", "line 22: from_week.1 in a plan of 6 weeks; 2 to 6"),
        ("from_week.3", "from_week.x", "line 22: from_week: 'x' is no week; such as from_week.3"),
        ("from_week.3", "from_week.03", "line 22: from_week: '03' is no week"),
        (
            "3x5 @ bw+10 kg 5-0",
            "3x99 @ bw+10 kg 9-0",
            "line 25: 99 reps of 10 s take 990 s, and a set is at most 600 s; at most 60 reps",
        ),
        (
            "front squat 4x5",
            "front sqat 4x5",
            "line 20: 72% of 'front sqat': 'Mirela Oude' has no max of it; there",
        ),
        (
            "[[lifters]]",
            "[lifters]",
            "line 13: column 10: cannot overwrite a value; each key stands once in its table, and",
        ),
        (
            "weeks = 6",
            "weeks = 6\nweeks = 6",
            "line 4: column 10: cannot overwrite a value; each key stands once",
        ),
        (
            '"Winter block"',
            "Winter block",
            "line 1: column 8: invalid value; a line reads key = value",
        ),
        (
            '"Winter block"',
            "“Winter block”",
            "line 1: column 8: invalid value; a line reads key = value",
        ),
        (
            'lead raise"\n',
            "lead raise",
            "line 29: unterminated string at the end of the text; a line reads",
        ),
    ],
)
def test_a_fault_has_its_line_and_the_nearest_good_value(
    before: str, after: str, fault: str
) -> None:
    assert before in TEXT
    changed = said(TEXT.replace(before, after, 1))
    assert changed[0].startswith(fault)
    # A lifter or an exercise that lost its name is missed in other places too.
    assert len(changed) <= 3


def test_every_fault_is_named_at_once() -> None:
    text = TEXT.replace("weeks = 6", "weeks = 0").replace('"68 kg"', '"x"').replace("4-1-X-1", "4")
    assert [fault.split(":")[0] for fault in said(text)] == ["line 3", "line 7", "line 20"]


def test_faults_between_parts_are_named_beside_faults_of_parts() -> None:
    text = TEXT.replace("start = 2026-11-30", "start = 1").replace("front squat 4x4", "row 4x4")
    assert said(text) == [
        "line 2: start = 1 is not possible; a date without quotes or a time, "
        "1970-01-01 to 2999-12-31, such as start = 2026-11-30",
        "line 22: 77% of 'row': 'Mirela Oude' has no max of it; "
        "give one in [[lifters.maxes]] behind the lifter",
    ]


def test_a_missing_max_is_a_fault_and_leaves_the_plan_usable() -> None:
    read = reading(HEAD + LIFTERS + DAYS.replace('lifters = ["Mirela Oude"]\n', ""))
    assert [str(fault) for fault in read.faults] == [
        "line 19: 72% of 'front squat': 'Jonne Tarval' has no max of it; "
        "give one in [[lifters.maxes]] behind the lifter"
    ]
    assert read.usable("winter.toml").weeks == 6


def test_two_maxes_of_one_test_are_a_fault() -> None:
    again = '[[lifters.maxes]]\nexercise = "Front Squat"\nload = "95 kg"\n'
    again += "on = 2026-11-12\nlower_s = 2\n"
    text = TEXT.replace('[[lifters]]\nname = "Jonne', f'{again}[[lifters]]\nname = "Jonne')
    assert only(text).startswith("line 13: two maxes of 'Front Squat' are of one day and one lower")


def test_tables_in_one_bracket_or_of_the_wrong_kind_are_told_how_they_begin() -> None:
    assert said(HEAD + '[lifters]\nname = "A"\n' + DAYS.replace('lifters = ["Mirela Oude"]\n', ""))[
        0
    ].endswith("each of them begins with [[lifters]], in two brackets")
    assert said(HEAD) == [
        "line 1: [[lifters]] is missing; begin it with [[lifters]]",
        "line 1: [[days]] is missing; begin it with [[days]]",
    ]
    begins = "is not possible; each of them begins with"
    assert said(HEAD + "lifters = [3]\ndays = []\n") == [
        f"line 4: lifters = 3 {begins} [[lifters]], in two brackets",
        f"line 5: days = [] {begins} [[days]], in two brackets",
    ]


def test_a_note_of_a_thousand_lines_is_kept_and_a_longer_one_refused() -> None:
    note = '"""' + "\n" * 1000 + '"""'
    assert len(plan_of(TEXT.replace('"heels down"', note)).days[0].work[0].note) == 999
    longer = TEXT.replace('"heels down"', '"""' + "ab\n" * 1000 + '"""')
    assert only(longer).endswith("; a text of at most 2000 characters between quotes")


def test_a_plan_that_is_refused_names_its_source_and_its_first_fault() -> None:
    with pytest.raises(PlanRefused) as caught:
        reading(TEXT.replace("weeks = 6", "weeks = 0")).usable("winter.toml")
    assert str(caught.value).startswith("the plan winter.toml, line 3: weeks = 0 is not possible; ")
    with pytest.raises(PlanRefused, match=r"has 2 faults, the first in line 1: .*plan check"):
        reading(HEAD).usable("winter.toml")


def test_nesting_too_deep_to_be_read_is_refused() -> None:
    assert "nested too deeply" in only("a = " + "[" * 100_000)


def test_a_number_too_long_for_python_is_refused() -> None:
    assert only("\nweeks = " + "1" * 5000).startswith("line 2: a number is too long; a number is")


_pieces = st.sampled_from(
    (
        *TEXT.splitlines(keepends=True),
        *(
            "[",
            "]",
            "[[",
            "]]",
            "{",
            "}",
            '"',
            "'",
            '"""',
            "=",
            ".",
            ",",
            "#",
            "\n",
            "\ufeff",
            "\x00",
        ),
        *(
            "from_week = 3\n",
            "[days.work]\n",
            "lifters.name = 3\n",
            "maxes = [1]\n",
            "first = 2026-13-12\n",
            "[dosing]\n",
            "[[calendar]]\n",
            "weeks = -1\n",
        ),
    )
)
_texts = st.lists(_pieces, max_size=30).map("".join) | strategies.any_text


@given(_texts)
def test_any_text_is_a_plan_or_refused_in_harmless_words(text: str) -> None:
    read: PlanReading = reading(text)
    assert read.plan is not None or read.faults
    assert all(is_harmless(str(fault)) for fault in read.faults)
    lines = text.count("\n") + 1
    assert all(fault.line is None or 1 <= fault.line <= lines for fault in read.faults)


_keys = st.sampled_from(
    ("name", "start", "weeks", "step", "unit", "lifters", "days", "day", "work", "line", "note",
     "from_week", "maxes", "exercise", "load", "on", "lower_s", "body_mass", "3", "x",
     "calendar", "kind", "first", "last", "lowering_percent", "dosing", "base_s", "taper",
     "taper_cut_percent", "last_days", "groups", "group_base_s", "overload")
)  # fmt: skip
_values = st.recursive(
    st.sampled_from(
        (
            "Monday",
            "kg",
            "front squat 4x5 @ 72% 4-1-X-1",
            "off",
            "90 kg",
            "Mirela Oude",
            "in season",
            "linear",
            "calves",
            "2026-11-31",
        )
    )
    | st.integers(-1, 9)
    | st.floats()
    | st.dates()
    | st.booleans()
    | st.text(max_size=5),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(_keys, inner, max_size=5),
    max_leaves=20,
)


@given(st.dictionaries(_keys, _values, max_size=8))
def test_any_values_under_the_plan_s_keys_are_a_plan_or_refused(data: dict[str, object]) -> None:
    text = tomlkit.dumps(data)
    read = reading(text)
    assert read.plan is not None or read.faults
    lines = text.count("\n") + 1
    assert all(fault.line is not None and 1 <= fault.line <= lines for fault in read.faults)
