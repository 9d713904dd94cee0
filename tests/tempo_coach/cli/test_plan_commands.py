from __future__ import annotations

import re
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import jsonschema
import openpyxl
import pytest

from tempo_coach.core.plan_starter import starter
from tests.tempo_coach.cli.conftest import Command, max_line
from tests.tempo_coach.core.plans import TEXT

GOLDEN = Path(__file__).parent / "golden"
PLAN = GOLDEN / "plan.toml"
FAULTY = GOLDEN / "plan_with_faults.toml"


def golden(name: str) -> str:
    return (GOLDEN / name).read_text(encoding="utf-8")


def today() -> datetime:
    return datetime.now().astimezone()


# New.


def test_the_plan_to_begin_from_is_printed_or_written(command: Command, home: Path) -> None:
    printed = command("plan", "new")
    written = command("plan", "new", "-o", home / "winter.toml")

    dates = r"(start|on|first|last) = \d{4}-\d\d-\d\d"
    assert re.sub(dates, r"\1 = DATE", printed.out) == re.sub(
        dates, r"\1 = DATE", golden("plan_new.toml")
    )
    assert (home / "winter.toml").read_text(encoding="utf-8") == printed.out
    assert written.out == (
        f"wrote {home}/winter.toml; open it in any editor, then 'tempo-coach plan check' it\n"
    )
    assert command("plan", "check", home / "winter.toml").code == 0


def test_a_plan_is_never_written_over_a_file_unless_told_to(command: Command, home: Path) -> None:
    path = home / "winter.toml"
    path.write_text("mine", encoding="utf-8")

    refused = command("plan", "new", "-o", path)

    assert (refused.code, path.read_text("utf-8")) == (73, "mine")
    assert refused.err == f"tempo-coach: {path} is there already; --replace writes over it\n"
    assert command("plan", "new", "-o", path, "--replace").code == 0
    assert path.read_text("utf-8") == starter(today().date())


def test_the_group_alone_shows_its_help(command: Command) -> None:
    outcome = command("plan")
    assert outcome.code == 0
    assert "tempo-coach plan new -o winter.toml" in outcome.out


# Check.


def test_a_check_names_every_fault_with_its_line(command: Command) -> None:
    outcome = command("plan", "check", FAULTY)

    assert outcome.code == 65
    shown = outcome.out.replace(str(GOLDEN), "FOLDER")
    assert re.sub(r"start = \d{4}-\d\d-\d\d", "start = DATE", shown) == golden("plan_check.txt")


def test_a_plan_without_faults_is_summed_up(command: Command, home: Path) -> None:
    path = home / "winter.toml"
    path.write_text(starter(datetime(2026, 11, 25).date()), "utf-8")  # noqa: DTZ001 - a date has no offset

    outcome = command("plan", "check", path)

    assert (outcome.code, outcome.out) == (
        0,
        "Winter block: 6 weeks from 2026-11-30, 18 days of work for Mirela Oude, Jonne Tarval\n"
        "0 faults\n",
    )


def test_a_missing_max_is_a_fault_for_the_check_alone(command: Command) -> None:
    outcome = command("plan", "check", PLAN)
    assert outcome.code == 65
    assert "line 27: 72% of 'front squat': 'נועה בן-דוד' has no max of it" in outcome.out
    assert outcome.out.endswith("\n2 faults\n")
    assert command("plan", "show", PLAN).code == 0


@pytest.mark.parametrize("what", ["check", "show"])
def test_a_plan_that_can_not_be_read_says_why(command: Command, home: Path, what: str) -> None:
    missing = command("plan", what, home / "nowhere.toml")
    folder = command("plan", what, home)

    assert (missing.code, missing.out, folder.code) == (66, "", 66)
    assert missing.err == (
        f"tempo-coach: the plan {home}/nowhere.toml can't be read: there is no such file; "
        "'tempo-coach plan new' writes one to begin from\n"
    )
    assert "it is a folder" in folder.err


# Show.


@pytest.mark.parametrize("week", ["1", "3"])
def test_a_week_is_shown_as_on_a_board(command: Command, week: str) -> None:
    outcome = command("plan", "show", PLAN, "--week", week)

    assert outcome.code == 0
    assert outcome.out == golden(f"plan_week_{week}.txt")


def test_a_week_is_shown_as_json(command: Command) -> None:
    outcome = command("plan", "show", PLAN, "--week", "1", "--lifter", "mirela oude", "--json")

    assert outcome.code == 0
    assert outcome.out == golden("plan_week.json")


def test_the_week_of_today_is_shown_else_the_first_with_a_note(
    command: Command, home: Path
) -> None:
    path = home / "winter.toml"
    text = golden("plan.toml")
    path.write_text(
        text.replace("2026-11-30", (today() - timedelta(weeks=2)).date().isoformat()), "utf-8"
    )

    now = command("plan", "show", path)
    path.write_text(text.replace("2026-11-30", "2001-01-01"), "utf-8")
    over = command("plan", "show", path)

    assert now.out.startswith("Winter block, week 3 of 6: ")
    assert "Today is in no week" not in now.out
    assert over.out.startswith(
        "Winter block, week 1 of 6: 2001-W01 from 2001-01-01\n"
        "Today is in no week of the plan, so this is week 1; --week N shows another.\n"
    )


def test_a_week_or_a_lifter_that_is_not_there_is_refused(command: Command) -> None:
    week = command("plan", "show", PLAN, "--week", "9")
    lifter = command("plan", "show", PLAN, "--lifter", "Mirela")

    assert (week.code, week.err) == (
        65,
        "tempo-coach: the plan has no week 9; the last is week 6\n",
    )
    assert (lifter.code, lifter.err) == (
        65,
        "tempo-coach: the plan has no lifter 'Mirela'; the nearest is 'Mirela Oude'\n",
    )


def test_the_lifter_may_stand_before_the_command(command: Command) -> None:
    before = command("--lifter", "mirela oude", "plan", "show", PLAN, "--week", "1")
    behind = command("plan", "show", PLAN, "--week", "1", "--lifter", "mirela oude")
    assert before == behind
    assert "ヒップ" not in before.out


def test_a_plan_with_faults_is_not_shown(command: Command) -> None:
    outcome = command("plan", "show", FAULTY)
    assert outcome.code == 65
    assert "has 14 faults, the first in line 1: start is missing" in outcome.err
    assert outcome.err.count("\n") == 1


def test_the_allowances_of_the_settings_count(command: Command, home: Path) -> None:
    settings = home / "config" / "tempo-coach" / "settings.toml"
    settings.parent.mkdir(parents=True)
    settings.write_text("fast_s = 2.0\n", "utf-8")
    outcome = command("plan", "show", PLAN, "--week", "1", "--lifter", "mirela oude")
    assert "20 of ≈40" in outcome.out


def test_controls_in_a_plan_show_literally(command: Command, home: Path) -> None:
    path = home / "odd.toml"
    text = golden("plan.toml").replace("bench", "\\u001b")
    path.write_text(text.replace("heels down", "\\u001b[31m[bold]x"), "utf-8")
    outcome = command("plan", "show", path, "--week", "1")
    assert "\x1b" not in outcome.out
    assert r"\x1b[31m[bold]x" in outcome.out


# The maxes of the log.


def test_loads_go_by_the_maxes_of_the_log_too_and_that_is_said(
    command: Command, home: Path
) -> None:
    log = home / "maxes.jsonl"
    log.write_text(max_line(lower_s=4.0, load_kg=85.0, load_as_written="85 kg") + "\n", "utf-8")
    line = ("plan", "show", PLAN, "--week", "1", "--lifter", "mirela oude", "--log", log)

    outcome, data = command(*line), command(*line, "--json").data

    assert f"Loads and remarks go by 1 max of the log, too: {log}\n" in outcome.out
    assert "72% of 85 kg = 61.2, loadable 60 kg (the log's max, lowered in 4 s" in outcome.out
    assert data["log_maxes"] == 1
    assert data["lifters"][0]["days"][0]["work"][0]["load_kg"] == 60


def test_more_than_the_log_ever_saw_lowered_is_remarked_on(command: Command, home: Path) -> None:
    path, log = home / "winter.toml", home / "maxes.jsonl"
    line = "front squat 3x2 @ 110% 4-0-A-0 lowering only rest 4:00 method overloaded-lowering"
    text = TEXT.replace("front squat 4x5 @ 72% 4-1-X-1 rest 3:00", line)
    path.write_text(
        text.replace('name = "Mirela Oude"', 'name = "Mirela Oude"\noverload = true'), "utf-8"
    )
    lowered = max_line(what="lowered", load_kg=95.0, load_as_written="95 kg", lower_s=4.0)
    log.write_text(lowered + "\n", "utf-8")
    shown = ("plan", "show", path, "--week", "1", "--lifter", "Mirela Oude")

    by_file = command(*shown, "--log", home / "none.jsonl").out
    by_both = command(*shown, "--log", log).out

    remark = "1: remark: 99 kg lowered: more than the most that was lowered under control"
    assert remark in " ".join(by_both.split())
    assert "remark:" not in by_file


def test_without_a_log_that_can_be_read_the_plan_is_shown_all_the_same(
    command: Command, home: Path
) -> None:
    outcome = command("plan", "show", PLAN, "--week", "1", "--log", home)

    assert outcome.code == 0
    assert "without the maxes of the log" in outcome.err
    assert "front squat" in outcome.out


# Schema.


def test_the_schema_is_one(command: Command) -> None:
    jsonschema.Draft202012Validator.check_schema(command("plan", "schema").data)


# Import.

TABLE: list[list[Any]] = [
    ["Winter block"],
    ["Wk", "Day", "Exercise", "Set", "Reps/Set", "Tempo", "% 1RM", "Rest (s)", "Comments", "RPE"],
    [1, "Monday", "front squat", 4, 5, "41X1", "72%", 180, "heels down", 8],
    [None, None, "romanian deadlift", 3, 8, "4/0/1/1", None, 120],
    [None, "Thursday", "chin-up", 4, "8-10", "5-0-X-0", None, "2:00"],
    [2, "Monday", "front squat", 4, 4, "5-1-X-1", 0.77, "3 min"],
]


@pytest.fixture
def table(home: Path) -> Path:
    book = openpyxl.Workbook()
    for row in TABLE:
        book.worksheets[0].append(row)
    book.save(home / "winter.xlsx")
    return home / "winter.xlsx"


def test_an_import_says_row_by_row_what_it_understood(
    command: Command, table: Path, home: Path
) -> None:
    outcome = command(
        "plan", "import", table, "-o", home / "out.toml",
        "--start", "2026-11-30", "--lifter", "Sabine Ihle",
    )  # fmt: skip

    assert outcome.code == 0
    assert outcome.out.replace(str(home), "FOLDER") == golden("plan_import.txt")
    text = (home / "out.toml").read_text("utf-8").replace(str(home), "FOLDER")
    assert text == golden("plan_imported.toml")


def test_what_was_imported_passes_the_check_once_its_maxes_are_there(
    command: Command, table: Path, home: Path
) -> None:
    path = home / "out.toml"
    command("plan", "import", table, "-o", path, "--lifter", "Sabine Ihle")
    assert command("plan", "check", path).out.endswith("\n1 fault\n")
    added = (
        'name = "Sabine Ihle"\n[[lifters.maxes]]\nexercise = "front squat"\n'
        'load = "80 kg"\non = 2026-11-01\n'
    )
    path.write_text(path.read_text("utf-8").replace('name = "Sabine Ihle"\n', added), "utf-8")
    assert command("plan", "check", path).code == 0


def test_an_import_starts_next_monday_and_is_for_the_lifter_of_the_settings(
    command: Command, table: Path, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TEMPO_COACH_LIFTER", "Jonne Tarval")
    command("plan", "import", table, "-o", home / "out.toml")
    text = (home / "out.toml").read_text("utf-8")
    started = datetime.fromisoformat(text.split("start = ")[1][:10]).date()
    assert started.weekday() == 0
    assert timedelta(0) < started - today().date() <= timedelta(weeks=1)
    assert 'name = "Jonne Tarval"' in text


def test_a_table_of_which_nothing_is_understood_writes_nothing(
    command: Command, home: Path
) -> None:
    table = home / "table.csv"
    table.write_text("Exercise,Sets,Reps,Tempo\nrow,4,5,fast\n", "utf-8")

    outcome = command("plan", "import", table, "-o", home / "out.toml")

    assert (outcome.code, outcome.out) == (65, "")
    assert "row 2: 'fast' is no tempo" in outcome.err
    assert not (home / "out.toml").exists()


def test_an_import_is_never_written_over_a_file_unless_told_to(
    command: Command, table: Path, home: Path
) -> None:
    path = home / "out.toml"
    path.write_text("mine", "utf-8")
    assert command("plan", "import", table, "-o", path).code == 73
    assert path.read_text("utf-8") == "mine"
    assert command("plan", "import", table, "-o", path, "--replace").code == 0


@pytest.mark.parametrize("start", ["30.11.2026", "2026-02-30", "1066-10-14"])
def test_a_start_that_is_no_date_of_a_plan_is_refused(
    command: Command, table: Path, home: Path, start: str
) -> None:
    outcome = command("plan", "import", table, "-o", home / "out.toml", "--start", start)
    assert outcome.code in {64, 65}
    assert outcome.err.count("\n") == 1


# Remarks on methods.


def test_a_line_outside_its_method_is_remarked_on_and_is_no_fault(
    command: Command, home: Path
) -> None:
    path = home / "winter.toml"
    line = "front squat 3x2 @ 140% 4-0-A-0 lowering only rest 4:00 method overloaded-lowering"
    path.write_text(TEXT.replace("front squat 4x5 @ 72% 4-1-X-1 rest 3:00", line), "utf-8")

    checked = command("plan", "check", path)
    shown = command("plan", "show", path, "--week", "1", "--lifter", "Mirela Oude")

    assert checked.code == 0
    assert (
        f"{path}, remark on line 20: for 'Mirela Oude', load 140%: overloaded-lowering has load "
        "above 100 to about 130% of the 1RM (common practice, no source)\n"
    ) in checked.out
    assert checked.out.endswith("\n0 faults, 2 remarks\n")
    assert "1: remark: load 140%: overloaded-lowering has load above 100 to about 130%" in shown.out
    assert "1: remark: overload: only for those whom their coach has cleared" in shown.out


def test_what_is_lowered_is_worked_out_on_the_board(command: Command, home: Path) -> None:
    path = home / "winter.toml"
    line = "front squat 3x5 @ 80% 2-0-X-0 lower @ 105% rest 4:00 method accentuated-lowering"
    path.write_text(TEXT.replace("front squat 4x5 @ 72% 4-1-X-1 rest 3:00", line), "utf-8")

    data = command("plan", "show", path, "--week", "1", "--json").data
    work = data["lifters"][0]["days"][0]["work"][0]

    assert "@ 72.5 kg 2-0-X-0 lower @ 95 kg" in work["loaded_line"]
    assert (work["load_kg"], work["lower_load_kg"]) == (72.5, 95.0)
    assert work["load_words"].endswith("lowered: 105% of 90 kg = 94.5, loadable 95 kg")
