from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import pytest

from tests.tempo_coach.cli.conftest import Command

GOLDEN = Path(__file__).parent / "golden" / "compare.txt"
LINE = "front squat 1x5 4-1-X-1"


@pytest.fixture
def trace(command: Command, home: Path) -> Path:
    path = home / "trace.csv"
    assert command("simulate", LINE, "-o", path, "--fatigue", "20", "--seed", "3").code == 0
    return path


def test_a_trace_is_set_beside_the_line_rep_by_rep(command: Command, trace: Path) -> None:
    outcome = command("compare", trace, LINE)

    lines = [line.split() for line in outcome.out.splitlines()]
    assert outcome.code == 0
    first = lines.index(["line", "4.00", "1.00", "X", "1.00"]) + 1
    assert [line[0] for line in lines[first : first + 6]] == ["1", "2", "3", "4", "5", "sum"]
    assert "Speed lost over the raise" in outcome.out


def test_another_number_of_reps_than_prescribed_is_said_and_not_forced(
    command: Command, trace: Path
) -> None:
    outcome = command("compare", trace, "front squat 1x6 4-1-X-1", "--json")

    assert outcome.data["reps_found"] == len(outcome.data["reps"]) == 5
    assert "5 reps found, 6 prescribed." in outcome.data["remarks"]


def test_without_scipy_one_sentence_says_how_to_get_it(
    command: Command, trace: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in [name for name in sys.modules if name.startswith(("tempo_coach.trace.", "scipy"))]:
        monkeypatch.delitem(sys.modules, name)
    monkeypatch.setitem(sys.modules, "scipy", None)

    outcome = command("compare", trace, LINE)

    assert outcome.code == 69
    assert outcome.err.startswith("tempo-coach: a trace needs scipy")
    assert "pip install 'tempo-coach[trace]'" in outcome.err


def test_a_trace_that_is_not_there_is_a_file_that_cant_be_read(command: Command) -> None:
    outcome = command("compare", "none.csv", LINE)

    assert outcome.code == 66
    assert "there is no such file" in outcome.err


def test_a_made_up_table_says_so_in_its_first_line(command: Command) -> None:
    outcome = command("simulate", "squat 1x2 2-0-X-0", "-o", "-")

    first, heading, *rows = outcome.out.splitlines()
    assert first == "# simulated by tempo-coach, not measured: squat 1x2 2-0-X-0; seed 1"
    assert heading == "time (s),height (m)"
    assert len(rows) > 500


def test_what_is_printed_stays_as_it_is(command: Command, trace: Path) -> None:
    assert command("compare", trace, LINE).out == GOLDEN.read_text(encoding="utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("ending", ["svg", "png"])
def test_a_picture_is_drawn_into_a_file_and_not_over_one(
    command: Command, trace: Path, ending: str
) -> None:
    path = trace.with_name(f"set.{ending}")

    first = command("compare", trace, LINE, "--picture", path)
    again = command("compare", trace, LINE, "--picture", path)

    assert first.code == 0
    assert first.err == f"drew {path}\n"
    assert path.stat().st_size > 10_000
    assert (again.code, again.out) == (73, "")
    assert "--replace writes over it" in again.err


def test_a_picture_needs_a_name_that_says_what_it_is(command: Command, trace: Path) -> None:
    outcome = command("compare", trace, LINE, "--picture", "set.gif")

    assert outcome.code == 64
    assert "let the name end in .svg, .png, .pdf" in outcome.err


def test_a_part_of_a_trace_can_be_chosen(command: Command, trace: Path) -> None:
    outcome = command("compare", trace, LINE, "--from", "12", "--json")

    assert outcome.data["reps_found"] < 5


@pytest.mark.parametrize(
    ("content", "code", "said"),
    [
        ("t,h\n0,1\n1,1\n0.5,2\n", 65, "line 4: the time runs backwards"),
        ("t,h\n0,1\n0.01,1\n0.02,2\n", 65, "3 samples over 0.02 s are too few for a set"),
        ("", 65, "there is no row of numbers"),
    ],
)
def test_a_trace_that_cant_be_used_is_one_sentence(
    command: Command, home: Path, content: str, code: int, said: str
) -> None:
    path = home / "bad.csv"
    path.write_text(content)

    outcome = command("compare", path, LINE)

    assert outcome.code == code
    assert said in outcome.err
    assert outcome.err.count("\n") == 1


@pytest.mark.parametrize("of", ["speed", "acceleration"])
def test_speeds_and_accelerations_will_do_too(command: Command, home: Path, of: str) -> None:
    path = home / "felt.csv"
    assert command("simulate", LINE, "-o", path, "--of", of, "--no-walk").code == 0

    outcome = command("compare", path, LINE, "--json")

    assert outcome.data["trace"]["quantity"] == of
    assert outcome.data["reps_found"] == 5


def test_columns_and_units_can_be_given(command: Command, trace: Path, home: Path) -> None:
    rows = trace.read_text().splitlines()[2:]
    path = home / "bare.txt"
    # Without headings, in centimetres, and counted downwards.
    path.write_text("".join(f"{-float(row.split(',')[1]) * 100:.3f}\n" for row in rows))

    outcome = command(
        "compare", path, LINE, "--height", "1", "--unit", "cm", "--rate", "100",
        "--down-positive", "--json",
    )  # fmt: skip

    assert outcome.data["reps_found"] == 5


@pytest.mark.parametrize(
    ("given", "code", "said"),
    [
        (("--range", "9"), 64, "'9' is not possible; give 0.02 to 2.5 m"),
        (("--scatter", "99"), 64, "'99' is not possible; give 0 to 30 percent"),
        (("--rate", "many"), 64, "'many' is not possible; give 5 to 2,000 samples a second"),
        (("--of", "smell"), 64, "is not one of"),
    ],
)
def test_what_cant_be_simulated_is_refused(
    command: Command, home: Path, given: tuple[str, ...], code: int, said: str
) -> None:
    outcome = command("simulate", LINE, "-o", home / "made.csv", *given)

    assert outcome.code == code
    assert said in outcome.err
    assert not (home / "made.csv").exists()


def test_a_simulated_table_is_not_written_over_one(command: Command, trace: Path) -> None:
    before = trace.read_text()

    outcome = command("simulate", LINE, "-o", trace)

    assert outcome.code == 73
    assert trace.read_text() == before


# Into the log.


def facts(home: Path) -> list[dict[str, Any]]:
    text = (home / "log.jsonl").read_text(encoding="utf-8")
    return [json.loads(line) for line in text.splitlines()]


def test_a_trace_is_logged_beside_the_last_set_of_its_exercise(
    command: Command, trace: Path, written_log: Path, home: Path
) -> None:
    written_log.rename(home / "log.jsonl")

    outcome = command(
        "compare", trace, LINE, "--set", "last", "--lifter", "mirela oude", "--log",
        home / "log.jsonl",
    )  # fmt: skip

    assert outcome.code == 0
    fact = facts(home)[-1]
    assert (fact["kind"], fact["id"], fact["timing"]) == ("set_measured", "aa02", "trace")
    assert len(fact["reps"]) == 5
    assert fact["reps"][0]["motion"]["range_m"] > 0.2
    assert "measured: aa02, Mirela Oude, front squat, 2026-11-25 18:04, lowering" in outcome.out
    (week,) = command("week", home / "log.jsonl", "--lifter", "mirela oude", "--weeks", 1,
                      "--json").data["weeks"]  # fmt: skip
    assert 0 < week["total"]["lower_measured_s"] < week["total"]["lower_s"]


def test_a_trace_can_be_a_set_of_its_own(command: Command, trace: Path, home: Path) -> None:
    outcome = command(
        "compare", trace, f"{LINE}", "--log-set", "--began", "2026-11-20T18:04", "--lifter",
        "Mirela Oude", "--log", home / "log.jsonl", "--json",
    )  # fmt: skip

    assert outcome.code == 0
    assert outcome.err.strip().startswith("logged as a set: ")
    done, measured = facts(home)
    assert (done["kind"], done["timing"], done["reps_done"]) == ("set_done", "trace", 5)
    assert done["started_at"].startswith("2026-11-20T18:04")
    assert (measured["kind"], measured["id"]) == ("set_measured", done["id"])


@pytest.mark.parametrize(
    ("options", "code", "said"),
    [
        (("--set", "last", "--lifter", "Jonne Tarval"), 65, "has no set of 'front squat'"),
        (("--set", "bb01"), 65, "the set 'bb01' is 'chin-up', and the line says 'front squat'"),
        (("--set", "nothing"), 65, "no set has the id 'nothing'"),
        (("--set", "aa02", "--log-set"), 64, "--set and --log-set don't go together"),
        (("--set", "aa02", "--began", "2026-11-20T18:04"), 64, "--began goes with --log-set"),
        (("--began", "2026-11-20T18:04"), 64, "--began goes with --log-set"),
        (("--log-set", "--began", "2126-11-20T18:04", "--lifter", "Ana"), 65, "lies ahead"),
        (("--log-set",), 64, "nobody is named"),
        (("--set", "last"), 64, "nobody is named"),
    ],
)
def test_what_can_t_be_logged_is_refused_first_and_nothing_is_printed_drawn_or_written(
    command: Command,
    trace: Path,
    written_log: Path,
    options: tuple[str, ...],
    code: int,
    said: str,
) -> None:
    before, picture = written_log.read_bytes(), trace.with_name("set.svg")

    outcome = command("compare", trace, LINE, "--picture", picture, *options, "--log", written_log)

    assert (outcome.code, outcome.out) == (code, "")
    assert outcome.err.startswith("tempo-coach: ")
    assert said in outcome.err
    assert not picture.exists()
    assert written_log.read_bytes() == before
