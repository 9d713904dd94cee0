from __future__ import annotations

import csv
import io
import json
import os
import resource
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, datetime, timedelta
from pathlib import Path

import pandas as pd
import pytest
from openpyxl import load_workbook

from tempo_coach import bootstrap
from tempo_coach.core.export_columns import COLUMNS, SEASON, By, named
from tests.tempo_coach.cli.conftest import LINES, Command, set_line
from tests.tempo_coach.fakes import NOON, HandClock

GOLDEN = Path(__file__).parent / "golden"
ROOT = Path(__file__).parents[3]
FULL_DISK = Path("/dev/full")

SORE_LINES = (
    '{"v":1,"kind":"soreness_told","id":"dd01","at":"2026-11-25T17:59:00+01:00",'
    '"lifter":"mirela oude","soreness":3}',
    '{"v":1,"kind":"soreness_told","id":"dd02","at":"2026-11-27T08:00:00+01:00",'
    '"lifter":"Mirela Oude","soreness":6}',
)
ODD_NAMES = (
    'Oude, "Mirela"',
    "=1+1",
    "+31 6",
    "-x",
    "@here",
    "\tTab",
    "\rCR",
    "two\r\nlines",
    "🏋️ Ihle",
    "#N/A",
    "a\x07b\x1b[2J",
)


@pytest.fixture
def odd_log(home: Path) -> Path:
    """A log of lifters whose names are hard to write into a table."""
    path = home / "odd.jsonl"
    lines = (
        set_line(id=f"{number}", lifter=name, note=name) for number, name in enumerate(ODD_NAMES)
    )
    path.write_text("".join(line + "\n" for line in lines), encoding="utf-8")
    return path


@pytest.fixture
def friday(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let today be 27 November 2026: readiness is that of a day."""
    noon = HandClock((date(2026, 11, 27) - NOON.date()) // timedelta(milliseconds=1))
    monkeypatch.setattr(bootstrap, "clock", lambda: noon)


@contextmanager
def file_size_limit(size: int) -> Iterator[None]:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def sheets(path: Path) -> dict[str, list[tuple[object, ...]]]:
    book = load_workbook(path)
    return {sheet.title: list(sheet.iter_rows(values_only=True)) for sheet in book.worksheets}


# What is written.


@pytest.mark.parametrize(
    "golden", ["set.csv", "week.csv", "exercise.csv", "set.json", "week.json", "exercise.json"]
)
def test_an_export_is_as_it_always_was(
    command: Command, written_log: Path, home: Path, golden: str
) -> None:
    path = home / golden

    outcome = command("export", written_log, "--by", Path(golden).stem, "-o", path)

    assert outcome.code == 0
    assert path.read_bytes() == (GOLDEN / golden).read_bytes()


@pytest.mark.parametrize("golden", ["max.csv", "max.json"])
def test_an_export_of_maxes_is_as_it_always_was(
    command: Command, maxes_log: Path, home: Path, golden: str
) -> None:
    path = home / golden

    outcome = command("export", maxes_log, "--by", "max", "-o", path)

    assert outcome.code == 0
    assert path.read_bytes() == (GOLDEN / golden).read_bytes()


@pytest.mark.usefixtures("friday")
@pytest.mark.parametrize("golden", ["day.csv", "day.json", "readiness.csv", "readiness.json"])
def test_an_export_of_days_and_of_readiness_is_as_it_always_was(
    command: Command, maxes_log: Path, home: Path, golden: str
) -> None:
    with maxes_log.open("a", encoding="utf-8") as file:
        file.writelines(f"{line}\n" for line in SORE_LINES)
    path = home / golden
    line = ("export", maxes_log, "--by", Path(golden).stem, "--lifter", "Mirela Oude")

    outcome = command(*line, "-o", path)

    assert outcome.code == 0
    assert path.read_bytes() == (GOLDEN / golden).read_bytes()


@pytest.mark.usefixtures("friday")
def test_a_workbook_is_as_it_always_was(command: Command, written_log: Path, home: Path) -> None:
    outcome = command("export", written_log, "-o", home / "all.xlsx")

    assert outcome.out == (
        f"wrote {home}/all.xlsx; rows: 3 by week, 3 by exercise, 4 by set, 0 by tempo, 1 by max, "
        "3 by day, 18 by readiness\n"
    )
    assert sheets(home / "all.xlsx") == sheets(GOLDEN / "all.xlsx")


def test_the_cells_of_a_workbook_are_typed_under_a_frozen_heading(
    command: Command, written_log: Path, home: Path
) -> None:
    # Read back by openpyxl.
    command("export", written_log, "--by", "set", "-o", home / "sets.xlsx")

    book = load_workbook(home / "sets.xlsx")
    assert book.sheetnames == ["sets", "columns"]
    sheet = book["sets"]
    assert sheet.freeze_panes == "A2"
    heading, first, *_ = sheet.iter_rows()
    cells = {str(name.value): cell for name, cell in zip(heading, first, strict=True)}
    assert list(cells) == list(named(COLUMNS[By.SET]))
    assert cells["date"].value == datetime(2026, 11, 25)  # noqa: DTZ001 - a workbook has no offsets
    assert cells["date"].is_date
    assert cells["started_at"].value == datetime(2026, 11, 25, 18, 0, 10)  # noqa: DTZ001 - as above
    assert cells["lower_s"].data_type == "n"
    assert cells["load_kg"].value is None
    assert cells["lifter"].data_type == "s"


def test_a_workbook_explains_each_column_of_its_sheets(
    command: Command, written_log: Path, home: Path
) -> None:
    command("export", written_log, "-o", home / "all.xlsx")

    found = sheets(home / "all.xlsx")
    explained = {str(row[0]): row for row in found["columns"][1:]}
    for title in ("weeks", "sets", "exercises", "maxes", "days", "readiness"):
        for name in found[title][0]:
            assert title in str(explained[str(name)][3])
            assert str(explained[str(name)][2]).endswith(".")


def test_odd_names_come_back_from_csv_as_they_were(
    command: Command, odd_log: Path, home: Path
) -> None:
    # By the csv module's strict dialect, which refuses stray quotes.
    command("export", odd_log, "--by", "set", "-o", home / "odd.csv")

    content = (home / "odd.csv").read_bytes()
    heading, *rows = csv.reader(io.StringIO(content.decode(), newline=""), strict=True)
    found = {row[heading.index("lifter")] for row in rows}
    assert len(rows) == len(ODD_NAMES)
    assert found == {
        'Oude, "Mirela"', "'=1+1", "'+31 6", "'-x", "'@here", "'\tTab", "'\rCR", "two\r\nlines",
        "🏋️ Ihle", "#N/A", "a\\x07b\\x1b[2J",
    }  # fmt: skip
    assert content.endswith(b"\r\n")


def test_no_cell_of_a_workbook_is_a_formula_or_an_error(
    command: Command, odd_log: Path, home: Path
) -> None:
    # Read back by openpyxl, which marks formulas with f and errors with e.
    command("export", odd_log, "-o", home / "odd.xlsx")

    book = load_workbook(home / "odd.xlsx")
    kinds = {cell.data_type for sheet in book for row in sheet for cell in row}
    assert kinds == {"s", "n", "d"}
    # XML reads a line break in any form as one line feed.
    lifters = {str(row[1]).replace("\n", "\r\n") for row in sheets(home / "odd.xlsx")["sets"][1:]}
    assert {"=1+1", "+31 6", "@here", "#N/A", "🏋️ Ihle", "a\\x07b\\x1b[2J"} <= lifters


def test_pandas_reads_numbers_as_numbers_and_dates_as_dates(
    command: Command, written_log: Path, home: Path
) -> None:
    command("export", written_log, "--by", "set", "-o", home / "sets.csv")

    frame = pd.read_csv(home / "sets.csv", parse_dates=["date", "week_begins"])

    assert frame["lower_s"].dtype == "float64"
    assert frame["reps_done"].dtype == "int64"
    assert list(frame.loc[frame["lifter"] == "Mirela Oude", "date"]) == [
        pd.Timestamp(2026, 11, 19), pd.Timestamp(2026, 11, 25), pd.Timestamp(2026, 11, 25),
    ]  # fmt: skip
    assert pd.to_datetime(frame["started_at"], utc=True).max() == pd.Timestamp(
        "2026-11-25T17:04:00Z"
    )


@pytest.mark.parametrize("by", ["week", "exercise"])
def test_sums_are_those_that_pandas_makes_of_the_exported_sets(
    command: Command, written_log: Path, home: Path, by: str
) -> None:
    keys = ["lifter", "week", *(["exercise"] if by == "exercise" else [])]
    sums = ["lower_s", "pause_s", "raise_s", "top_s", "tension_s", "moving_s",
            "raise_by_allowance_s", "lowering_kg_s", "tonnage_kg"]  # fmt: skip
    command("export", written_log, "--by", "set", "-o", home / "sets.csv")
    command("export", written_log, "--by", by, "-o", home / "sums.csv")

    expected = pd.read_csv(home / "sets.csv").groupby(keys, as_index=False)[sums].sum()
    found = pd.read_csv(home / "sums.csv")[[*keys, *sums]]

    pd.testing.assert_frame_equal(found, expected, check_dtype=False)


def test_a_row_of_json_has_the_columns_it_explains(command: Command, written_log: Path) -> None:
    data = command("export", written_log, "-o", "-", "--format", "json", "--by", "set").data

    names = [column["name"] for column in data["columns"]]
    assert data["by"] == "set"
    assert all(list(row) == names for row in data["rows"])
    assert data["rows"][0]["started_at"] == "2026-11-25T18:00:10+01:00"


def test_corrections_are_in_and_struck_sets_are_out(command: Command, written_log: Path) -> None:
    rows = command("export", written_log, "-o", "-", "--format", "json", "--by", "set").data["rows"]

    assert {row["id"]: row["note"] for row in rows} == {
        "aa01": "", "aa02": "belt", "ab03": "", "bb01": "",
    }  # fmt: skip


# Which sets.


@pytest.mark.parametrize(
    ("options", "ids"),
    [
        (("--lifter", "MIRELA oude"), ["ab03", "aa01", "aa02"]),
        (("--lifter", "Mirela Oude", "--lifter", "Jonne Tarval"), ["bb01", "ab03", "aa01", "aa02"]),
        (("--exercise", "FRONT SQUAT"), ["ab03", "aa01", "aa02"]),
        (("--from", "2026-11-20"), ["bb01", "aa01", "aa02"]),
        (("--to", "2026-11-19"), ["ab03"]),
        (("--from", "2026-11-26"), []),
    ],
)
def test_sets_are_chosen_by_lifter_exercise_and_date(
    command: Command, written_log: Path, options: tuple[str, ...], ids: list[str]
) -> None:
    outcome = command("export", written_log, "--by", "set", "-o", "-", "--format", "json", *options)

    assert [row["id"] for row in outcome.data["rows"]] == ids


def test_a_lifter_may_stand_before_the_command(command: Command, written_log: Path) -> None:
    line = ("export", written_log, "-o", "-", "--format", "json")

    before = command("--lifter", "Jonne Tarval", *line)
    both = command("--lifter", "Jonne Tarval", *line, "--lifter", "Mirela Oude")

    assert {row["lifter"] for row in before.data["rows"]} == {"Jonne Tarval"}
    assert both.code == 64


def test_a_week_that_is_cut_has_no_change_and_a_whole_one_looks_back_past_the_first_day(
    command: Command, written_log: Path
) -> None:
    def changes(*options: str) -> list[float | None]:
        line = ("export", written_log, "--lifter", "Mirela Oude", "-o", "-", "--format", "json")
        return [row["lower_change_s"] for row in command(*line, *options).data["rows"]]

    assert changes() == [None, 30.0]
    assert changes("--from", "2026-11-23") == [30.0]
    assert changes("--from", "2026-11-24") == [None]
    assert changes("--to", "2026-11-28") == [None, None]


def test_maxes_are_chosen_by_lifter_exercise_and_date_even_of_who_has_no_sets(
    command: Command, maxes_log: Path
) -> None:
    def found(*options: str) -> list[tuple[str, str, float]]:
        line = ("export", maxes_log, "--by", "max", "-o", "-", "--format", "json")
        rows = command(*line, *options).data["rows"]
        return [(row["lifter"], row["what"], row["load_kg"]) for row in rows]

    assert found("--lifter", "sabine IHLE") == [("Sabine Ihle", "lifted", 49.89516072)]
    assert found("--exercise", "bench press") == [("Sabine Ihle", "lifted", 49.89516072)]
    assert found("--from", "2026-11-01", "--to", "2026-11-19") == [
        ("Mirela Oude", "estimated", 75.0)
    ]
    weeks = command("export", maxes_log, "-o", "-", "--format", "json", "--lifter", "Sabine Ihle")
    assert weeks.data["rows"] == []


@pytest.fixture
def methods_log(home: Path) -> Path:
    """A log of sets of two methods and of none."""
    path = home / "methods.jsonl"
    named = {"s1": "slow-lowering", "s2": "hold", "s3": "slow-lowering", "s4": None}
    lines = (set_line(id=set_id, method=method) for set_id, method in named.items())
    path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    return path


@pytest.mark.parametrize(
    ("options", "methods"),
    [
        (("--method", "SLOW-lowering"), ["slow-lowering", "slow-lowering"]),
        (
            ("--method", "slow-lowering", "--method", "hold"),
            ["slow-lowering", "hold", "slow-lowering"],
        ),
        (("--method", "hold", "--exercise", "front squat", "--pseudonyms"), ["hold"]),
    ],
)
def test_sets_are_chosen_by_method(
    command: Command, methods_log: Path, options: tuple[str, ...], methods: list[str]
) -> None:
    line = ("export", methods_log, "--by", "set", "-o", "-", "--format", "json")

    assert [row["method"] for row in command(*line, *options).data["rows"]] == methods


def test_a_choice_by_method_leaves_tested_maxes_out(command: Command, maxes_log: Path) -> None:
    with maxes_log.open("a", encoding="utf-8") as file:
        file.write(set_line(id="s1", method="hold") + "\n")
    line = ("export", maxes_log, "--by", "max", "-o", "-", "--format", "json")

    whats = {row["what"] for row in command(*line, "--method", "hold").data["rows"]}

    assert whats <= {"estimated"}
    assert "lifted" in {row["what"] for row in command(*line).data["rows"]}


def test_a_method_that_no_set_names_is_refused_with_the_nearest(
    command: Command, methods_log: Path, written_log: Path
) -> None:
    line = ("--by", "set", "-o", "-", "--format", "json", "--method", "slow lowering")

    with_others = command("export", methods_log, *line)
    without = command("export", written_log, *line)

    assert (with_others.code, without.code) == (65, 65)
    assert "no method 'slow lowering'; the nearest is 'slow-lowering'" in with_others.err
    assert "no method 'slow lowering'; no set names a method" in without.err


# What is refused.


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (("-o", "weeks.txt"), 64, "'weeks.txt' does not say what to write; let the name end in"),
        (("-o", "-"), 64, "standard output needs a --format: csv, json or xlsx"),
        (("-o", "w.csv", "--format", "json"), 64, "'w.csv' and --format json don't agree"),
        (("-o", "gone/w.csv"), 73, "the folder gone is not there; make it first"),
        (("-o", "w.csv", "--lifter", "Mirela Ode"), 65, "the nearest is 'Mirela Oude'"),
        (("-o", "w.csv", "--exercise", "squat"), 65, "the nearest is 'front squat'"),
        (("-o", "w.csv", "--from", "2026-11-02", "--to", "2026-11-01"), 65, "is after the last"),
        (("-o", "w.csv", "--from", "2.11.2026"), 64, "'2.11.2026' is no date; a date is"),
        (("-o", str(FULL_DISK), "--format", "csv", "--replace"), 73, "a folder or a device"),
    ],
)
def test_what_can_not_be_exported_is_refused_with_what_can(
    command: Command,
    written_log: Path,
    home: Path,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
    code: int,
    said: str,
) -> None:
    monkeypatch.chdir(home)
    before = sorted(home.iterdir())

    outcome = command("export", written_log, *options)

    assert (outcome.code, outcome.out) == (code, "")
    assert said in outcome.err
    assert sorted(home.iterdir()) == before


def test_a_file_that_is_there_stays_unless_it_is_to_be_replaced(
    command: Command, written_log: Path, home: Path
) -> None:
    path = home / "weeks.csv"
    path.write_text("mine")

    kept = command("export", written_log, "-o", path)
    assert (kept.code, path.read_text()) == (73, "mine")
    assert kept.err == f"tempo-coach: {path} is there already; --replace writes over it\n"

    assert command("export", written_log, "-o", path, "--replace").code == 0
    assert path.read_bytes() == (GOLDEN / "week.csv").read_bytes()


def test_the_file_is_private_whatever_the_umask(
    command: Command, written_log: Path, home: Path
) -> None:
    before = os.umask(0)
    try:
        command("export", written_log, "-o", home / "weeks.csv")
    finally:
        os.umask(before)
    assert stat.S_IMODE((home / "weeks.csv").stat().st_mode) == 0o600


@pytest.mark.parametrize("ending", ["csv", "json", "xlsx"])
def test_a_disk_that_fills_leaves_the_old_file_and_nothing_else(
    command: Command, written_log: Path, home: Path, ending: str
) -> None:
    folder = home / "out"
    folder.mkdir()
    path = folder / f"weeks.{ending}"
    path.write_text("old")

    with file_size_limit(200):
        outcome = command("export", written_log, "-o", path, "--replace")

    assert outcome.code == 73
    assert "the disk or the quota is full; free some space" in outcome.err
    assert [one.name for one in folder.iterdir()] == [path.name]
    assert path.read_text() == "old"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_takes_no_files_is_refused_before_anything_is_read(
    command: Command, home: Path
) -> None:
    folder = home / "closed"
    folder.mkdir(mode=0o500)

    outcome = command("export", home / "no.jsonl", "-o", folder / "weeks.csv")

    assert outcome.code == 73
    assert "does not take files: permission is denied" in outcome.err


@pytest.mark.skipif(not FULL_DISK.exists(), reason="the system has no /dev/full")
def test_standard_output_that_is_full_is_told(written_log: Path) -> None:
    with FULL_DISK.open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "tempo_coach", "export", written_log, "-o", "-",
             "--format", "csv"],
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=ROOT,
            check=False,
        )  # fmt: skip

    assert done.returncode == 73
    assert b"standard output can't be written: the disk is full" in done.stderr


# Which logs.


def test_folders_stand_for_their_logs_and_a_log_named_twice_counts_once(
    command: Command, home: Path
) -> None:
    (home / "club" / "deep").mkdir(parents=True)
    (home / "club" / "a.jsonl").write_text(LINES[0] + "\n", "utf-8")
    (home / "club" / "deep" / "b.jsonl").write_text("torn", "utf-8")
    (home / "club" / "notes.txt").write_text("no log")
    (home / "link.jsonl").symlink_to(home / "club" / "deep" / "b.jsonl")
    line = ("export", home / "club", home / "club" / "a.jsonl", home / "link.jsonl")

    outcome = command(*line, "-o", "-", "--format", "json")

    assert [row["sets"] for row in outcome.data["rows"]] == [1]
    assert outcome.err.count("skipped") == 1
    assert f"skipped {home}/club/deep/b.jsonl, line 1" in outcome.err
    assert "more" not in outcome.err


def test_a_folder_without_logs_is_refused(command: Command, home: Path) -> None:
    outcome = command("export", home, "-o", "-", "--format", "csv")

    assert (outcome.code, outcome.out) == (66, "")
    assert "has no log in it or below; the name of a log ends in .jsonl" in outcome.err


def test_logs_that_disagree_and_lines_of_a_newer_version_are_told(
    command: Command, home: Path
) -> None:
    one, other = home / "one.jsonl", home / "other.jsonl"
    one.write_text(set_line(reps_done=4) + "\n" + set_line(v=9, id="zz") + "\n")
    other.write_text(set_line(ended_at="2026-11-25T18:00:46+01:00") + "\n")

    outcome = command("export", one, other, "--by", "set", "-o", "-", "--format", "json")

    assert [row["reps_done"] for row in outcome.data["rows"]] == [5]
    assert "the logs disagree about the set aa01; the one that ended later counts" in outcome.err
    assert "one.jsonl, line 2: version 9 is newer than this program knows; kept" in outcome.err


def test_dates_before_the_calendar_of_workbooks_are_text(command: Command, home: Path) -> None:
    log = home / "old.jsonl"
    times = {"started_at": "0001-01-01T00:00:00+14:00", "ended_at": "0001-01-01T00:01:00+14:00"}
    log.write_text(set_line(**times) + "\n")

    assert command("export", log, "-o", home / "old.xlsx").code == 0
    assert sheets(home / "old.xlsx")["weeks"][1][2] == date(1, 1, 1).isoformat()


def test_an_empty_log_gives_the_headings(command: Command) -> None:
    outcome = command("export", "-o", "-", "--format", "csv", "--lifter", "Nobody")

    assert outcome.code == 0
    assert outcome.out.split(",")[:3] == ["lifter", "week", "week_begins"]
    assert json.loads(command("export", "-o", "-", "--format", "json").out)["rows"] == []


def season_weeks(command: Command, log: Path, *more: str) -> list[dict[str, object]]:
    outcome = command(
        "export", log, "--plan", GOLDEN / "season.toml", *more, "-o", "-", "--format", "json"
    )
    assert outcome.code == 0
    rows: list[dict[str, object]] = outcome.data["rows"]
    return rows


@pytest.fixture
def season_sets(home: Path) -> Path:
    """A slow and an ordinary set in the plan's first week and in its break, and one outside."""
    path = home / "season.jsonl"
    days = ("2026-09-08", "2026-12-22", "2026-08-04")
    path.write_text(
        "".join(
            set_line(
                id=f"{lifter}{day}{exercise}",
                lifter=lifter,
                exercise=exercise,
                tempo=tempo,
                started_at=f"{day}T18:00:00+02:00",
                ended_at=f"{day}T18:01:00+02:00",
                load_kg=60.0,
            )
            + "\n"
            for lifter in ("mirela oude", "Nobody Else")
            for day in days
            for exercise, tempo in (("front squat", "4-1-X-1"), ("row", "1-0-1-0"))
        ),
        encoding="utf-8",
    )
    return path


def test_weeks_stand_beside_the_plan_s_season(command: Command, season_sets: Path) -> None:
    rows = season_weeks(command, season_sets)

    *of_calendar, level, why = named(SEASON)
    found = {(row["lifter"], row["week"]): tuple(row[name] for name in of_calendar) for row in rows}
    assert found == {
        ("mirela oude", "2026-W32"): (None,) * 5,
        ("mirela oude", "2026-W37"): ("off season", 20, 240, 1200, 18000),
        ("mirela oude", "2026-W52"): ("Winter break", 20, 0, 1200, 0),
        ("Nobody Else", "2026-W32"): (None,) * 5,
        ("Nobody Else", "2026-W37"): (None,) * 5,
        ("Nobody Else", "2026-W52"): (None,) * 5,
    }
    assert [(row[level], row[why]) for row in rows[:2]] == [(None, None), (240, "the stated base")]


def test_a_choice_of_sets_leaves_the_season_of_all_of_them(
    command: Command, season_sets: Path
) -> None:
    rows = season_weeks(command, season_sets, "--exercise", "row", "--from", "2026-09-01")

    assert {(row["lower_s"], row["emphasis_s"]) for row in rows[:2]} == {(20.0, 20.0)}
    assert len(rows) == 4


def test_a_workbook_with_a_plan_explains_the_season_and_one_without_does_not(
    command: Command, season_sets: Path, home: Path
) -> None:
    command("export", season_sets, "--plan", GOLDEN / "season.toml", "-o", home / "with.xlsx")
    command("export", season_sets, "-o", home / "without.xlsx")

    names = []
    for name in ("with.xlsx", "without.xlsx"):
        book = load_workbook(home / name)
        headings = [cell.value for cell in book["weeks"][1]]
        explained = [row[0].value for row in book["columns"]]
        names.append(("emphasis_s" in headings, "emphasis_s" in explained))
    assert names == [(True, True), (False, False)]


@pytest.mark.parametrize(
    ("more", "why"),
    [
        (("--by", "set"), "--plan goes with rows of weeks or of readiness"),
        (("--pseudonyms",), "lifters by name"),
    ],
)
def test_a_plan_goes_with_weeks_or_readiness_and_with_names(
    command: Command, season_sets: Path, more: tuple[str, ...], why: str
) -> None:
    plan = GOLDEN / "season.toml"

    outcome = command("export", season_sets, "--plan", plan, *more, "-o", "-", "--format", "csv")

    assert outcome.code == 64
    assert why in outcome.err


@pytest.mark.usefixtures("friday")
def test_readiness_goes_by_the_criteria_of_a_plan(
    command: Command, season_sets: Path, home: Path
) -> None:
    text = (GOLDEN / "season.toml").read_text(encoding="utf-8")
    plan = home / "strict.toml"
    plan.write_text(text.replace("[dosing]\n", "[dosing]\nready_weeks = 7\n"), encoding="utf-8")
    line = ("export", season_sets, "--by", "readiness", "-o", "-", "--format", "json")

    with_plan = command(*line, "--plan", plan).data["rows"]
    without = command(*line).data["rows"]

    weeks = [
        {row["lifter"]: str(row["asked"])[:7] for row in rows[::9]} for rows in (with_plan, without)
    ]
    assert weeks == [
        {"mirela oude": "7 weeks", "Nobody Else": "4 weeks"},
        {"mirela oude": "4 weeks", "Nobody Else": "4 weeks"},
    ]
