from __future__ import annotations

import os
import stat
import subprocess
import sys
from pathlib import Path

import pandas as pd
import pytest
from pypdfium2 import PdfDocument

from tests.tempo_coach.cli.conftest import Command, set_line
from tests.tempo_coach.cli.test_export_command import (
    FULL_DISK,
    ROOT,
    SORE_LINES,
    file_size_limit,
)
from tests.tempo_coach.core.text_logs import made_up
from tests.tempo_coach.report.page_tree import Element, tree_of

PLAN = """\
name = "Winter block"
start = 2026-11-23
weeks = 2
[[lifters]]
name = "Mirela Oude"
[[days]]
day = "Wednesday"
[[days.work]]
line = "front squat 3x5 @ 80 kg 4-1-X-1 rest 3:00"
[[days.work]]
line = "row 2x8 @ 50 kg 3-0-1-0"
"""


def table(tree: Element, caption: str) -> list[list[str]]:
    return next(one for one in tree.all("table") if one.one("caption").text == caption).rows()


def number(text: str) -> float:
    return float(text.strip("≈+").replace(",", "").replace("−", "-"))


# What is written.


def test_a_report_of_several_lifters_has_the_roster_and_a_page_for_each(
    command: Command, written_log: Path, home: Path
) -> None:
    outcome = command("report", written_log, "-o", home / "week.html")

    tree = tree_of((home / "week.html").read_text("utf-8"))
    assert outcome.out == f"wrote {home}/week.html: 2026-W48, 2 lifters\n"
    assert [one.text for one in tree.all("h2")] == [
        "2 lifters side by side", "Mirela Oude", "Jonne Tarval",
    ]  # fmt: skip
    assert "First whose lowering seconds rose most" in tree.text


def test_sums_are_those_of_the_week_and_the_week_before(
    command: Command, written_log: Path
) -> None:
    line = ("report", written_log, "--lifter", "Mirela Oude", "-o", "-")

    tree = tree_of(command(*line).out)

    assert table(tree, "Week by week")[1:] == [
        ["2026-W47", "1", "5", "10", "20", "800"],
        ["2026-W48", "2", "10", "40", "≈70", "3,200"],
        ["change", "+1", "+5", "+30", "≈+50", "+2,400"],
        ["change, %", "+100", "+100", "+300", "≈+250", "+300"],
    ]
    assert table(tree, "Sets of the week, as prescribed and as done")[1:] == [
        ["Wed 25", "front squat", "4-1-X-1", "80 kg", "2 × 5", "5, 5", "40", "40", "8.5", "belt"]
    ]
    assert "≈ rests in part on what planning counts for X, V and A." in tree.text


def test_sets_without_a_known_load_are_told(command: Command, written_log: Path) -> None:
    out = command("report", written_log, "--lifter", "Jonne Tarval", "-o", "-").out

    assert "+ leaves out sets whose load in kg is not known. This week 1 set of 1." in out
    assert table(tree_of(out), "This week by exercise")[1][-1] == "0+"


@pytest.mark.slow
def test_sums_are_those_that_pandas_makes_of_the_exported_sets(
    command: Command, home: Path
) -> None:
    (home / "made.jsonl").write_bytes(made_up(3_000))
    command("export", home / "made.jsonl", "--by", "set", "-o", home / "sets.csv")
    frame = pd.read_csv(home / "sets.csv", keep_default_na=False, na_values=[""])
    sums = frame.groupby(["lifter", "week"])[["reps_done", "lower_s", "tension_s", "lowering_kg_s"]]
    expected = sums.sum().to_dict("index")

    tree = tree_of(command("report", home / "made.jsonl", "-o", "-").out)

    checked = 0
    for page in tree.all("article"):
        lifter = page.all("h2")[0].text
        rows = table(page, "Week by week")[1:-2]
        figures = table(page, "Lowering seconds in figures, s")
        for row, lowered in zip(rows, figures[-1][1:], strict=True):
            week, _, *found = row
            assert [number(one) for one in found] == pytest.approx(
                list(expected[lifter, week].values()), abs=0.51
            )
            assert number(lowered) == number(found[1])
            checked += 1
        for column in range(1, len(figures[0])):
            parts = [number(row[column]) for row in figures[1:-1]]
            assert sum(parts) == pytest.approx(number(figures[-1][column]), abs=0.3)
    assert checked == 24


def test_a_week_is_held_against_the_plan(command: Command, written_log: Path, home: Path) -> None:
    (home / "plan.toml").write_text(PLAN)
    line = ("report", written_log, "--plan", home / "plan.toml", "-o", "-")

    found = tree_of(command(*line, "--lifter", "Mirela Oude").out)
    other = tree_of(command(*line, "--lifter", "Jonne Tarval").out)

    assert table(found, "Done of what is planned this week")[1:] == [
        ["front squat", "2", "3", "10", "15", "40", "60"],
        ["row", "0", "2", "0", "16", "0", "48"],
        ["all", "2", "5", "10", "31", "40", "108"],
    ]
    assert table(other, "This week by exercise")


def test_the_season_s_limits_stand_beside_what_was_done(
    command: Command, written_log: Path, home: Path
) -> None:
    (home / "plan.toml").write_text(f"{PLAN}\n[dosing]\nbase_s = 30\n")
    caption = "Lowering emphasis in the season, s (! over the limit)"
    line = ("report", written_log, "--plan", home / "plan.toml", "-o", "-", "--lifter")

    found = tree_of(command(*line, "Mirela Oude").out)
    other = command(*line, "Jonne Tarval").out

    headings, done, limits = table(found, caption)
    assert headings == ["seconds", "2026-W47", "2026-W48"]
    assert (done[0], limits[0]) == ("done", "limit")
    assert done[1:] == ["–", "40!"]
    assert limits[1:] == ["–", "30"]
    assert caption not in other


def test_with_a_plan_it_says_who_is_ready_and_proposes_next_week(
    command: Command, written_log: Path, home: Path
) -> None:
    (home / "plan.toml").write_text(PLAN)
    line = ("report", written_log, "--plan", home / "plan.toml", "-o", "-", "--lifter")

    tree = tree_of(command(*line, "Mirela Oude").out)
    other = command(*line, "Jonne Tarval").out

    _, overloaded, fast = table(tree, "Ready or not yet, at the end of 2026-W48")
    assert overloaded[:2] == ["front squat", "overloaded: not yet, 1 of 6 met"]
    assert overloaded[2].startswith(
        "3 weeks more of slow lowering under control; a test of the 1RM"
    )
    assert fast[1] == "fast: not yet, 0 of 3 met"
    [proposal] = [one for one in tree.all("table") if "A proposal" in one.one("caption").text]
    assert proposal.rows()[1:] == [
        ["Wed, keep", "front squat 2x5 @ 80 kg 4-1-X-1", "done as written"]
    ]
    assert "for the coach to take or to edit, and changes nothing." in tree.text
    assert "Ready or not yet" not in other
    assert "A proposal" not in other


def test_soreness_stands_with_the_day_it_was_told_also_without_a_plan(
    command: Command, written_log: Path
) -> None:
    with written_log.open("a", encoding="utf-8") as file:
        file.writelines(f"{line}\n" for line in SORE_LINES)
    line = ("report", written_log, "-o", "-")

    found = tree_of(command(*line, "--lifter", "Mirela Oude").out)
    masked = command(*line, "--pseudonyms").out
    other = command(*line, "--lifter", "Jonne Tarval").out

    assert "Soreness told, 0 to 10: Wed 3, Fri 6." in found.text
    assert "Soreness told, 0 to 10: Wed 3, Fri 6." in masked
    assert "Soreness told" not in other


def test_an_earlier_week_can_be_reported(command: Command, written_log: Path) -> None:
    out = command("report", written_log, "--week", "2026-w47", "-o", "-").out

    tree = tree_of(out)
    assert tree.one("h1").text == "Report of 2026-W47"
    assert "in the first week on record" in out
    assert "Jonne" not in out


def test_pseudonyms_leave_no_name_and_no_note(command: Command, home: Path) -> None:
    log = home / "log.jsonl"
    log.write_text(set_line(exercise="Mirela's row", load_as_written="Oude bar", note="secret",
                            load_kg=None) + "\n", "utf-8")  # fmt: skip

    outcome = command("report", log, "--pseudonyms", "-o", "-")

    assert outcome.code == 0
    assert "codes" in outcome.err
    for name in ("Mirela", "Oude", "secret"):
        assert name not in outcome.out


@pytest.mark.slow
def test_a_pdf_has_the_roster_and_a_sheet_for_each_lifter(
    command: Command, written_log: Path, home: Path
) -> None:
    outcome = command("report", written_log, "-o", home / "week.PDF")

    assert outcome.code == 0
    assert len(PdfDocument(home / "week.PDF")) == 3
    assert stat.S_IMODE((home / "week.PDF").stat().st_mode) == 0o600


def test_skipped_lines_and_logs_that_disagree_are_told(command: Command, home: Path) -> None:
    one, other = home / "one.jsonl", home / "other.jsonl"
    one.write_text(set_line(reps_done=4) + "\ntorn\n")
    other.write_text(set_line(ended_at="2026-11-25T18:00:46+01:00") + "\n")

    outcome = command("report", one, other, "-o", "-")

    assert "the logs disagree about the set aa01; the one that ended later counts" in outcome.err
    assert "one.jsonl, line 2" in outcome.err


# What is refused.


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (("-o", "week.txt"), 64, "'week.txt' does not say what to write; let the name end in .htm"),
        (("-o", "gone/w.html"), 73, "the folder gone is not there; make it first"),
        (("-o", str(FULL_DISK), "--replace"), 64, "does not say what to write"),
        (("-o", "w.html", "--lifter", "Mirela Ode"), 65, "the nearest is 'Mirela Oude'"),
        (("-o", "w.html", "--week", "2026-W30"), 65, "no sets in 2026-W30; the nearest week is 20"),
        (("-o", "w.html", "--week", "2026-W54"), 64, "'2026-W54' is no week of ISO 8601"),
        (("-o", "w.html", "--week", "last"), 64, "'last' is no week of ISO 8601; give one such as"),
        (
            ("-o", "w.html", "--weeks", "1"),
            64,
            "'1' is not possible; give a whole number from 2 to 10",
        ),
        (("-o", "w.html", "--plan", "gone.toml"), 66, "the plan gone.toml can't be read"),
        (("-o", "w.html", "--plan", "p.toml", "--pseudonyms"), 64, "give --plan or --pseudonyms"),
    ],
)
def test_what_can_not_be_reported_is_refused_with_what_can(
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

    outcome = command("report", written_log, *options)

    assert (outcome.code, outcome.out) == (code, "")
    assert said in outcome.err
    assert sorted(home.iterdir()) == before


def test_an_empty_log_has_nothing_to_report(command: Command, home: Path) -> None:
    outcome = command("report", "-o", home / "week.html")

    assert (outcome.code, (home / "week.html").exists()) == (65, False)
    assert "there are no sets to report" in outcome.err


def test_a_file_that_is_there_stays_unless_it_is_to_be_replaced(
    command: Command, written_log: Path, home: Path
) -> None:
    path = home / "week.html"
    path.write_text("mine")

    kept = command("report", written_log, "-o", path)
    assert (kept.code, path.read_text()) == (73, "mine")
    assert kept.err == f"tempo-coach: {path} is there already; --replace writes over it\n"

    assert command("report", written_log, "-o", path, "--replace").code == 0
    assert path.read_text("utf-8").startswith("<!DOCTYPE html>")


@pytest.mark.parametrize("ending", ["html", pytest.param("pdf", marks=pytest.mark.slow)])
def test_a_disk_that_fills_leaves_the_old_file_and_nothing_else(
    command: Command, written_log: Path, home: Path, ending: str
) -> None:
    folder = home / "out"
    folder.mkdir()
    path = folder / f"week.{ending}"
    path.write_text("old")

    with file_size_limit(200):
        outcome = command("report", written_log, "-o", path, "--replace")

    assert outcome.code == 73
    assert "the disk or the quota is full; free some space" in outcome.err
    assert [one.name for one in folder.iterdir()] == [path.name]
    assert path.read_text() == "old"


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write everywhere")
def test_a_folder_that_takes_no_files_is_refused(command: Command, home: Path) -> None:
    folder = home / "closed"
    folder.mkdir(mode=0o500)

    outcome = command("report", home / "no.jsonl", "-o", folder / "week.html")

    assert outcome.code == 73
    assert "does not take files: permission is denied" in outcome.err


@pytest.mark.slow
@pytest.mark.skipif(not FULL_DISK.exists(), reason="the system has no /dev/full")
def test_standard_output_that_is_full_is_told(written_log: Path) -> None:
    with FULL_DISK.open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "tempo_coach", "report", written_log, "-o", "-"],
            stdout=full,
            stderr=subprocess.PIPE,
            cwd=ROOT,
            check=False,
        )

    assert done.returncode == 73
    assert b"standard output can't be written: the disk is full" in done.stderr


@pytest.mark.parametrize(
    ("missing", "form"), [("jinja2", "html"), ("matplotlib", "html"), ("weasyprint", "pdf")]
)
def test_without_the_extra_one_sentence_says_what_to_install(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch, missing: str, form: str
) -> None:
    for name in ("report_writer", "html_pages"):
        monkeypatch.delitem(sys.modules, f"tempo_coach.report.{name}", raising=False)
    # None in its place makes the import of a module fail, as where it is not installed.
    monkeypatch.setitem(sys.modules, missing, None)

    outcome = command("report", "no.jsonl", "-o", home / f"week.{form}")

    assert (outcome.code, outcome.out) == (69, "")
    assert outcome.err == (
        f"tempo-coach: a report needs {missing}, which is not installed; "
        "pip install 'tempo-coach[report]'\n"
    )


def test_without_its_text_library_a_pdf_is_refused_with_what_brings_it(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (home / "weasyprint.py").write_text("print('advice'); raise OSError('cannot load library')")
    monkeypatch.syspath_prepend(home)
    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)

    outcome = command("report", "no.jsonl", "-o", home / "week.pdf")

    assert (outcome.code, outcome.out) == (69, "")
    assert "a PDF needs the text library Pango, which is not on this machine" in outcome.err
    assert "apt-get install libpango-1.0-0" in outcome.err


@pytest.mark.slow
def test_a_home_that_takes_no_files_is_neither_written_to_nor_complained_about(
    written_log: Path, home: Path
) -> None:
    nowhere = home / "nowhere"
    environment = {"PATH": os.environ["PATH"], "HOME": str(nowhere), "XDG_CACHE_HOME": "/dev/null"}

    done = subprocess.run(
        [sys.executable, "-W", "error", "-m", "tempo_coach", "report", written_log, "-o", "-"],
        capture_output=True,
        env=environment,
        cwd=ROOT,
        check=False,
    )

    assert (done.returncode, done.stderr) == (0, b"")
    assert not nowhere.exists()
