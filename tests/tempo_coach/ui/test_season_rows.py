from __future__ import annotations

import re
from datetime import date, datetime, timedelta

import pytest
from rich.cells import cell_len

from tempo_coach.core.facts import SetDone
from tempo_coach.core.lifter_advice import LifterAdvice
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.ui.bars import BAR
from tempo_coach.ui.season_rows import LIMIT, season_rows
from tests.tempo_coach.core.done_sets import done_set
from tests.tempo_coach.core.plans import plan_of
from tests.tempo_coach.ui.plan_rack import PlanRack

WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MIRELA = 'lifters = ["Mirela Oude"]'


def span(kind: str, first: str, last: str, more: str = "", *, name: str = "") -> str:
    named = f'name = "{name}"\n' if name else ""
    return f'[[calendar]]\nkind = "{kind}"\nfirst = {first}\nlast = {last}\n{named}{more}\n'


def year(start: str, *spans: str, weeks: int = 8) -> str:
    head = f'name = "Year"\nstart = {start}\nweeks = {weeks}\n[dosing]\nbase_s = 240\n'
    people = '[[lifters]]\nname = "Mirela Oude"\n[[lifters]]\nname = "Jonne Tarval"\n'
    work = '[[days]]\nday = "Monday"\n[[days.work]]\nline = "front squat 4x5 @ 80 kg 4-1-X-1"\n'
    return "".join((head, *spans, people, work))


def slow(begun: str, **changes: object) -> SetDone:
    """Return five slow front squats: 20 s of lowering."""
    at = datetime.fromisoformat(begun)
    given = {"id": begun, "lifter": "Mirela Oude", "started_at": at, "ended_at": at}
    return done_set(**given | changes)


def rack_at(now: str, text: str) -> PlanRack:
    return PlanRack(text=text, begins=datetime.fromisoformat(now))


async def season(text: str, now: str, *sets: SetDone, keys: tuple[str, ...] = ()) -> list[str]:
    """Return the rows of the window in which the season is shown, without the spaces between."""
    rack = rack_at(now, text)
    rack.log.facts += [one for one in sets if one.started_at <= rack.clock.wall()]
    async with rack.running():
        await rack.press("f9", *keys)
        return [" ".join(line.split()) for line in rack.lines()]


def beginning(rows: list[str], *words: str) -> list[str]:
    return [row for row in rows if row.removeprefix("▸ ").startswith(words)]


def days(rows: list[str], *weekdays: str) -> list[str]:
    """Return what days are, what is left of each, and what was done; without their limits."""
    return [re.sub(r"% \S+ ", "% ", row) for row in beginning(rows, *weekdays)]


OVERLAPS = (
    span("in season", "2026-11-02", "2026-12-20", "lowering_percent = 40", name="League"),
    span("holiday", "2026-11-18", "2026-11-22", MIRELA, name="Camp"),
    span("illness", "2026-12-08", "2026-12-10", MIRELA),
    span("meet", "2026-12-12", "2026-12-13", name="Autumn meet"),
    span("meet", "2026-12-13", "2026-12-14", MIRELA, name="Own meet"),
)


@pytest.mark.screen
async def test_where_spans_overlap_the_lifter_s_own_holds_and_a_taper_names_both() -> None:
    now = "2026-11-18T12:00:00+01:00"

    shown = await season(year("2026-10-26", *OVERLAPS), now, keys=("right",))
    meet = await season(year("2026-10-26", *OVERLAPS), now, keys=("right", "down", "down", "down"))

    assert "2026-11-16 to 2026-11-22, this week: League, then Camp" in shown
    assert days(shown, "Tue", "Wed") == [
        "Tue 2026-11-17 League 40% 0",
        "Wed 2026-11-18 today, Camp 0% 0",
    ]
    assert days(meet, "Mon", "Tue", "Fri", "Sat") == [
        "Mon 2026-12-07 5 days to Autumn meet, League 13% 0",
        "Tue 2026-12-08 4 days to Autumn meet, illness 0% 0",
        "Fri 2026-12-11 1 day to Autumn meet, League 0% 0",
        "Sat 2026-12-12 Autumn meet 0% 0",
    ]


@pytest.mark.screen
async def test_a_span_that_may_not_overlap_is_said_and_the_season_stays_as_it_was() -> None:
    rack = rack_at("2026-11-18T12:00:00+01:00", year("2026-10-26", *OVERLAPS))
    async with rack.running():
        rack.plan.text += span("holiday", "2026-12-01", "2026-12-02")
        await rack.press("f9")
        text = rack.text()

    assert "the span overlaps the one of 2026-11-02 to 2026-12-20" in text
    assert "All stays as it was last read." in text
    assert "▸ 2026-W47" in text


TRAVELS = (
    slow("2026-11-15T23:50:00+13:00"),
    slow("2026-11-16T00:10:00+13:00", exercise="chin-up"),
    # Later than both, and a Sunday again.
    slow("2026-11-15T18:00:00+01:00"),
    slow("2026-11-15T23:55:00+01:00"),
)


@pytest.mark.screen
@pytest.mark.parametrize(
    ("now", "weeks", "proposed"),
    [
        (
            "2026-11-15T23:58:00+01:00",
            ["▸ 2026-W46 60 now", "2026-W47 20"],
            ("Sun", "front squat"),
        ),
        (
            "2026-11-16T00:02:00+01:00",
            ["2026-W46 60", "▸ 2026-W47 20 now"],
            ("Mon", "chin-up"),
        ),
    ],
)
async def test_around_midnight_a_set_counts_for_its_own_local_day_wherever_it_was_done(
    now: str, weeks: list[str], proposed: tuple[str, str]
) -> None:
    text = year("2026-11-02")

    shown = await season(text, now, *TRAVELS)
    sunday = await season(text, now, *TRAVELS, keys=("home", "down", "right"))
    proposal = await season(text, now, *TRAVELS, keys=("n",))

    rows = beginning(shown, "2026-W46", "2026-W47")
    assert [re.sub(r" ( ?[█▏▎▍▌▋▊▉│]+)+| \d+(?= now|$)", "", row) for row in rows] == weeks
    assert beginning(sunday, "Sun")[0].endswith(" 60")
    [line] = beginning(proposal, *WEEKDAYS)
    assert all(words in line for words in proposed)


@pytest.mark.screen
async def test_a_53rd_week_stands_between_december_and_january_and_is_over_on_its_sunday() -> None:
    text = year("2026-12-07", span("holiday", "2026-12-24", "2027-01-01", name="New Year"))
    sets = [slow(f"2026-12-{day:02d}T18:00:00+01:00") for day in (7, 14, 21, 28)]
    sets.append(slow("2027-01-03T23:50:00+01:00"))
    sunday = "2027-01-03T23:59:00+01:00"
    monday = "2027-01-04T00:01:00+01:00"

    shown = await season(text, sunday, *sets, keys=("right",))
    after = await season(text, monday, *sets)
    ready = await season(text, monday, *sets, keys=("r",))

    weeks = [row.removeprefix("▸ ").split()[0] for row in beginning(shown, "2026-W5", "2027-W")]
    assert weeks[:6] == ["2026-W50", "2026-W51", "2026-W52", "2026-W53", "2027-W01", "2027-W02"]
    assert "2026-12-28 to 2027-01-03, this week: New Year, then off season" in shown
    assert days(shown, "Mon", "Fri", "Sun") == [
        "Mon 2026-12-28 New Year 0% 20",
        "Fri 2027-01-01 New Year 0% 0",
        "Sun 2027-01-03 today, off season 100% 20",
    ]
    assert beginning(after, "2027-W01")[0].endswith("now")
    assert any("4 of the last 4" in row for row in ready)


@pytest.mark.screen
@pytest.mark.parametrize(
    ("start", "meet", "hour", "sets", "midnight"),
    [
        # In the time zone database, Europe/Berlin: from 2 to 3 comes twice on 2026-10-25,
        (
            "2026-10-05",
            "2026-11-07",
            "2026-10-25T02:40:00+01:00",
            ("2026-10-25T02:30:00+02:00", "2026-10-25T02:30:00+01:00"),
            "2026-10-26T00:01:00+01:00",
        ),
        # and is left out on 2027-03-28.
        (
            "2027-03-08",
            "2027-04-10",
            "2027-03-28T03:10:00+02:00",
            ("2027-03-28T01:58:00+01:00", "2027-03-28T03:02:00+02:00"),
            "2027-03-29T00:01:00+02:00",
        ),
    ],
)
async def test_on_a_day_of_23_or_25_hours_weeks_days_and_the_way_to_a_meet_stay_as_they_are(
    start: str, meet: str, hour: str, sets: tuple[str, str], midnight: str
) -> None:
    text = year(start, span("meet", meet, meet, name="Meet"))
    done = [slow(begun) for begun in sets]
    sunday = date.fromisoformat(hour[:10])

    shown = await season(text, hour, *done, keys=("right",))
    spans = await season(text, hour, *done, keys=("right", "right"))
    after = await season(text, midnight, *done, keys=("right",))

    dates = [date.fromisoformat(row.split()[1]) for row in beginning(shown, *WEEKDAYS)]
    assert dates == [sunday - timedelta(days=before) for before in reversed(range(7))]
    assert days(shown, "Sun") == [f"Sun {sunday} today, 13 days to Meet 88% 40"]
    assert any(row.startswith(f"{meet} {meet} Meet (meet) in 13 days") for row in spans)
    assert days(after, "Mon") == [f"Mon {midnight[:10]} today, 12 days to Meet 78% 0"]


@pytest.mark.parametrize("width", [40, 78, 104, 156])
@pytest.mark.parametrize("name", ["League", "Many clubs' evening league" * 3, "杯" * 40])
def test_a_week_takes_one_line_with_a_bar_and_a_limit_whatever_its_spans_are_called(
    width: int, name: str
) -> None:
    spans = (
        span("in season", "2026-11-16", "2026-11-18", "lowering_percent = 40", name=name),
        span("holiday", "2026-11-20", "2026-11-21", name=name),
    )
    advice = LifterAdvice.of(
        plan_of(year("2026-11-16", *spans)),
        "Mirela Oude",
        sets=[slow("2026-11-16T18:00:00+01:00")],
        maxes=RecordedMaxes(),
        today=date(2026, 11, 17),
    )

    _, first, *rest = season_rows(advice.season, width=width)

    assert {cell_len(row) for row in (first, *rest)} == {width}
    assert BAR.search(first)
    assert all(LIMIT in row for row in (first, *rest))


@pytest.mark.screen
async def test_from_a_day_the_heading_of_a_week_has_the_whole_width_too() -> None:
    name = "Evening league of the halls by the river, second division, north"
    text = year("2026-11-16", span("in season", "2026-11-18", "2026-11-22", name=name))
    rack = rack_at("2026-11-17T12:00:00+01:00", text)
    async with rack.running(columns=160, rows=50):
        await rack.press("f9")

        assert any(line.endswith(f"this week: off season, then {name}") for line in rack.lines())
