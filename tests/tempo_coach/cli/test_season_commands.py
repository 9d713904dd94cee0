from __future__ import annotations

from datetime import date, datetime, timedelta
from pathlib import Path

import icalendar
import pytest
from rich.cells import cell_len

from tests.tempo_coach.cli.conftest import Command, set_line
from tests.tempo_coach.cli.terminal import on_a_terminal

GOLDEN = Path(__file__).parent / "golden"
PLAN = GOLDEN / "season.toml"
SETS_A_WEEK = {
    "Mirela Oude": (11, 12, 13, 14, 0, 1, 7, 8),
    "Sabine Ihle": (4, 4, 5, 5, 0, 0, 0, 1),
    "Jonne Tarval": (8, 10, 12, 14, 15, 16, 17, 9),
}


@pytest.fixture
def season_log(home: Path) -> Path:
    """Eight weeks of slow sets on Mondays: one lifter has a gap, one trains on in season."""
    path = home / "season.jsonl"
    monday = datetime.fromisoformat("2026-09-07T18:00:00+02:00")
    lines = [
        set_line(
            id=f"{lifter[:2]}{week}{number}",
            lifter=lifter,
            started_at=(monday + timedelta(weeks=week, minutes=5 * number)).isoformat(),
            ended_at=(monday + timedelta(weeks=week, minutes=5 * number + 1)).isoformat(),
            load_kg=60.0,
        )
        for lifter, counts in SETS_A_WEEK.items()
        for week, count in enumerate(counts)
        for number in range(count)
    ]
    path.write_text("".join(line + "\n" for line in lines), encoding="utf-8")
    return path


def golden(name: str) -> str:
    return (GOLDEN / name).read_text(encoding="utf-8")


def test_the_year_of_a_rower_a_squad_and_a_meet_lifter_is_as_a_coach_signed_it(
    command: Command, season_log: Path
) -> None:
    outcome = command("season", PLAN, season_log, "--on", "2026-10-28", "--days")

    assert outcome.code == 0
    assert outcome.out == golden("season.txt")


def test_no_week_and_no_date_is_broken_on_a_terminal_of_80_columns(
    command: Command, season_log: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        terminal = on_a_terminal(patch)
        command("season", PLAN, season_log, "--on", "2026-10-28", "--lifter", "Jonne Tarval")

    lines = terminal.getvalue().splitlines()
    assert max(map(cell_len, lines)) <= 80
    assert [line[:19] for line in lines if "26 Oct" in line] == ["> 2026-W44  26 Oct "]
    assert [line[:19] for line in lines if "02 Nov" in line] == ["  2026-W45  02 Nov "]


def test_one_changed_date_moves_the_taper_and_nothing_before_it(
    command: Command, season_log: Path, home: Path
) -> None:
    later = home / "later.toml"
    text = PLAN.read_text(encoding="utf-8").replace("2027-05-08", "2027-05-15")
    later.write_text(text.replace("2027-05-09", "2027-05-16"), encoding="utf-8")
    asked = ("--lifter", "Jonne Tarval", "--on", "2026-10-28", "--json")

    before = command("season", PLAN, season_log, *asked).data["lifters"][0]["weeks"]
    after = command("season", later, season_log, *asked).data["lifters"][0]["weeks"]

    moved = [a["week"] for a, b in zip(before, after, strict=False) if a != b]
    assert moved[0] == "2027-W16"
    assert moved[-1] == "2027-W20"
    tapered = {week["week"]: week["emphasis"]["lower_s"]["limit"] for week in after}
    assert tapered["2027-W19"] < tapered["2027-W18"] < tapered["2027-W17"]


def test_on_a_day_nothing_is_known_of_what_was_done_later(
    command: Command, season_log: Path
) -> None:
    asked = ("season", PLAN, season_log, "--lifter", "Jonne Tarval", "--json", "--on")

    weeks = command(*asked, "2026-09-20").data["lifters"][0]["weeks"]

    assert [week["emphasis"]["lower_s"]["done"] for week in weeks[:4]] == [160, 200, 0, 0]


def test_the_calendar_file_is_read_by_another_program(command: Command, home: Path) -> None:
    path = home / "jonne.ics"

    outcome = command("season", PLAN, "--lifter", "jonne tarval", "-o", path)

    assert outcome.out == f"wrote {path}\n"
    assert path.stat().st_mode & 0o777 == 0o600
    # The icalendar library, a reader of RFC 5545.
    read = icalendar.Calendar.from_ical(path.read_bytes())
    events = {
        str(event["SUMMARY"]): (event.decoded("DTSTART"), event.decoded("DTEND"))
        for event in read.walk("VEVENT")
    }
    assert events["Open meet"] == (date(2027, 5, 8), date(2027, 5, 10))
    assert events["Winter break"] == (date(2026, 12, 21), date(2027, 1, 4))
    assert events["last lowering emphasis before Open meet"] == (
        date(2027, 5, 4),
        date(2027, 5, 5),
    )
    assert "League" not in events
    # RFC 5545, 3.1: lines end in CRLF and have at most 75 octets.
    lines = path.read_bytes().split(b"\r\n")
    assert max(map(len, lines)) <= 75
    assert b"\n" not in b"".join(lines)


def test_a_calendar_file_is_one_lifter_s_and_goes_over_no_other_file(
    command: Command, home: Path
) -> None:
    path = home / "team.ics"
    refused = command("season", PLAN, "-o", path)
    path.write_text("mine", encoding="utf-8")
    there = command("season", PLAN, "--lifter", "Sabine Ihle", "-o", path)

    assert (refused.code, there.code) == (64, 73)
    assert "one lifter's" in refused.err
    assert path.read_text(encoding="utf-8") == "mine"


def test_with_no_history_and_no_base_it_says_what_it_can_t_say_yet(
    command: Command, home: Path
) -> None:
    plan = home / "bare.toml"
    text = PLAN.read_text(encoding="utf-8")
    bare = [line for line in text.splitlines() if not line.startswith("base_")]
    plan.write_text("\n".join(bare), encoding="utf-8")

    outcome = command("season", plan, "--on", "2026-10-28")

    assert outcome.code == 0
    assert "No limit can be told yet" in outcome.out


def test_groups_that_are_limited_by_themselves_have_a_table_of_their_own(
    command: Command, season_log: Path, home: Path
) -> None:
    plan = home / "groups.toml"
    text = PLAN.read_text(encoding="utf-8")
    groups = 'group_base_s = { "knee extensors" = 240, calves = 30 }'
    plan.write_text(text.replace("growth_percent = 8", groups), encoding="utf-8")

    outcome = command("season", plan, season_log, "--lifter", "Mirela Oude", "--on", "2026-09-23")

    table = outcome.out.split("Mirela Oude: lowering emphasis by movement group\n")[1]
    heading, first, second, third = (line.split("  ") for line in table.splitlines()[:4])
    assert [cell.strip() for cell in heading if cell] == [
        *("week", "knee extensors s", "knee extensors limit", "calves s", "calves limit"),
    ]
    cells = [" ".join(" ".join(line).split()) for line in (first, second, third)]
    assert cells == [
        "2026-W37 220 240 0 30",
        "2026-W38 240 264 0 30",
        "> 2026-W39 260 290 0 30",
    ]


def test_a_lifter_that_the_plan_does_not_have_is_refused(command: Command) -> None:
    outcome = command("season", PLAN, "--lifter", "Nobody")

    assert outcome.code == 65
    assert "the plan has no lifter 'Nobody'" in outcome.err


def test_a_meet_that_is_over_is_said_to_be(command: Command, season_log: Path) -> None:
    outcome = command("season", PLAN, season_log, "--lifter", "Jonne Tarval", "--on", "2027-06-01")

    assert "Open meet of 2027-05-08 is over." in outcome.out
    assert "Taper:" not in outcome.out
