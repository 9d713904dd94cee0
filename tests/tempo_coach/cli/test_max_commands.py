from __future__ import annotations

import json
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tempo_coach.core.cautions import MAX_TEST
from tempo_coach.core.rep_equations import EQUATIONS
from tests.tempo_coach.cli.conftest import Command, max_line, set_line
from tests.tempo_coach.fakes import NOON, HandClock

GOLDEN = Path(__file__).parent / "golden"
PLAN = """\
name = "Block"
start = 2026-11-30
weeks = 2
[[lifters]]
name = "Mirela Oude"
[[lifters.maxes]]
exercise = "front squat"
load = "80 kg"
on = 2026-11-21
lower_s = 5
[[lifters]]
name = "Jonne Tarval"
[[lifters.maxes]]
exercise = "back squat"
load = "145 kg"
on = 2026-11-21
[[days]]
day = "Monday"
[[days.work]]
line = "chin-up 3x5 @ bw 3-0-1-0"
"""


@pytest.fixture(autouse=True)
def _noon(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("tempo_coach.bootstrap.SystemClock", HandClock)


def facts(log: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in log.read_text(encoding="utf-8").splitlines()]


def words(text: str) -> str:
    """Return a text without the line breaks that its width made."""
    return " ".join(text.split())


# The listing.


def test_the_list_is_as_it_always_was(command: Command, maxes_log: Path) -> None:
    outcome = command("max", maxes_log)

    assert (outcome.code, outcome.err) == (0, "")
    assert outcome.out == (GOLDEN / "maxes.txt").read_text(encoding="utf-8")


def test_the_list_as_json_is_as_it_always_was(command: Command, maxes_log: Path) -> None:
    outcome = command("max", maxes_log, "--json")

    assert outcome.out == (GOLDEN / "maxes.json").read_text(encoding="utf-8")
    assert outcome.data["maxes"][0]["reserve"]["lifted_kg"] == 90.0


@pytest.mark.parametrize(
    ("options", "found"),
    [
        ((), [("Mirela Oude", "front squat"), ("Sabine Ihle", "bench press")]),
        (("--exercise", "BENCH press"), [("Sabine Ihle", "bench press")]),
        (("--lifter", "sabine ihle"), [("Sabine Ihle", "bench press")]),
        (("--lifter", "Jonne Tarval"), []),
        (("--lifter", "Jonne Tarval", "--plan", "plan.toml"), [("Jonne Tarval", "back squat")]),
        (("--plan", "plan.toml", "--exercise", "front squat"), [("Mirela Oude", "front squat")]),
    ],
)
def test_the_list_is_chosen_by_lifter_and_exercise(
    command: Command,
    maxes_log: Path,
    monkeypatch: pytest.MonkeyPatch,
    options: tuple[str, ...],
    found: list[tuple[str, str]],
) -> None:
    monkeypatch.chdir(maxes_log.parent)
    Path("plan.toml").write_text(PLAN, encoding="utf-8")

    for listing in (("max",), ("max", "list")):
        outcome = command(*listing, maxes_log, "--json", *options)
        assert [(one["lifter"], one["exercise"]) for one in outcome.data["maxes"]] == found


def test_the_plan_s_maxes_stand_beside_those_of_the_log(
    command: Command, maxes_log: Path, home: Path
) -> None:
    (home / "plan.toml").write_text(PLAN, encoding="utf-8")

    outcome = command("max", maxes_log, "--plan", home / "plan.toml", "--lifter", "Mirela Oude")

    assert "lifted   80 kg    5        2026-11-21  plan" in outcome.out


def test_folders_and_several_logs_are_merged_and_one_max_counts_once(
    command: Command, maxes_log: Path, home: Path
) -> None:
    assert maxes_log.parent == home
    other = home / "other.jsonl"
    other.write_text(max_line() + "\n" + max_line(id="cc03", load_kg=96.0) + "\n")

    outcome = command("max", home, "--lifter", "Mirela Oude", "--json")

    tested = outcome.data["maxes"][0]["tested"]
    assert [one["id"] for one in tested].count("cc01") == 1
    assert "disagree about the max cc03; the one that was tested later counts" in outcome.err


def test_an_unknown_name_is_refused_with_the_nearest(command: Command, maxes_log: Path) -> None:
    outcome = command("max", maxes_log, "--lifter", "Sabine Ile")

    assert (outcome.code, outcome.out) == (65, "")
    assert "the logs know no lifter 'Sabine Ile'; the nearest is 'Sabine Ihle'" in outcome.err


def test_an_empty_log_has_no_maxes(command: Command) -> None:
    outcome = command("max")

    assert outcome.out == "no maxes yet, and no sets hard enough to estimate one\n"


def test_a_tested_max_below_a_set_is_said_with_the_set(command: Command, home: Path) -> None:
    log = home / "log.jsonl"
    log.write_text(max_line() + "\n" + set_line(load_kg=95.0) + "\n")

    said = words(command("max", log).out)

    assert "Look again: the 90 kg lifted after a lower of 2 s (log, 2026-11-20) is below a set" in (
        said
    )
    assert "5 × 95 kg at 4-1-X-1 on 2026-11-25 (set aa01)" in said


@pytest.mark.parametrize(
    ("kg", "standing"),
    [(95.0, "4.0 kg below"), (100.0, "within the target (1.10"), (117.0, "9.0 kg above")],
)
def test_the_reserve_says_what_it_divides_and_how_far_the_target_is(
    command: Command, home: Path, kg: float, standing: str
) -> None:
    log = home / "log.jsonl"
    low = max_line(id="b", what="lowered", load_kg=kg, load_as_written=f"{kg:g} kg", lower_s=3.0)
    log.write_text(max_line() + "\n" + low + "\n")

    said = words(command("max", log).out)

    assert f"{kg:g} kg lowered in 3 s (2026-11-20) ÷ 90 kg lifted with a lower of 2 s" in said
    assert standing in said
    assert MAX_TEST in said


# Recording.


def test_a_max_is_recorded_as_a_fact_of_today(command: Command, home: Path) -> None:
    log = home / "log.jsonl"

    outcome = command(
        "max", "add", "front  squat", "200 lb", "--lower-s", "2", "--note", "belt",
        "--lifter", "Mirela Oude", "--log", log,
    )  # fmt: skip

    (fact,) = facts(log)
    assert outcome.code == 0
    assert outcome.out.startswith(f"recorded: {fact['id']}, Mirela Oude, front squat, lifted")
    assert MAX_TEST in words(outcome.out)
    assert datetime.fromisoformat(fact.pop("at")) == NOON
    assert fact.pop("id")
    assert fact == {
        "v": 1,
        "kind": "max_tested",
        "lifter": "Mirela Oude",
        "exercise": "front squat",
        "what": "lifted",
        # International yard and pound agreement, 1959: 1 lb = 0.45359237 kg.
        "load_kg": 90.718474,
        "load_as_written": "200 lb",
        "lower_s": 2.0,
        "note": "belt",
    }


def test_the_day_of_the_test_can_be_given(command: Command, home: Path) -> None:
    log = home / "log.jsonl"
    line = ("--lowered", "--lower-s", "3", "--on", "2025-12-31", "--lifter", "Mirela", "--log", log)

    command("max", "add", "front squat", "100 kg", *line)

    (fact,) = facts(log)
    assert (fact["at"], fact["what"]) == ("2025-12-31T12:00:00+00:00", "lowered")


def test_a_max_below_a_set_of_the_log_is_recorded_and_said(command: Command, home: Path) -> None:
    log = home / "log.jsonl"
    log.write_text(set_line(load_kg=95.0, started_at="2026-02-20T18:00:10+01:00") + "\n")
    to = ("--lifter", "MIRELA oude", "--log", log)

    outcome = command("max", "add", "Front Squat", "90 kg", "--lower-s", "2", *to)

    assert (outcome.code, len(facts(log))) == (0, 2)
    assert outcome.err == (
        "tempo-coach: the 90 kg lifted after a lower of 2 s (log, 2026-03-02) is below a set of "
        "the log: 5 × 95 kg at 4-1-X-1 on 2026-02-20 (set aa01); test it again, or correct the "
        "set\n"
    )


def test_a_lowered_max_is_held_against_the_lifted_one(command: Command, home: Path) -> None:
    to = ("--lifter", "Mirela Oude", "--log", home / "log.jsonl")

    def lowered(load: str, on: str) -> str:
        line = ("max", "add", "squat", load, "--lowered", "--lower-s", "3", "--on", on, *to)
        outcome = command(*line)
        assert outcome.code == 0
        return outcome.err

    command("max", "add", "squat", "75 kg", *to)
    assert lowered("82.5 kg", "2026-02-01") == ""
    assert "is below the 75 kg lifted (log, 2026-03-02)" in lowered("70 kg", "2026-02-02")
    assert "is 2.46 times the 75 kg lifted (log, 2026-03-02): above 1.5 is rare" in (
        lowered("184.5 kg", "2026-02-03")
    )


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("squat", "0 kg"), 65, "a load of 0 kg is not possible"),
        (("squat", "--", "-80 kg"), 65, "'-80 kg' is no load"),
        (("squat", "72%"), 65, "'72%' is a share of a max, so its kilograms are not known"),
        (("squat", "bw"), 65, "'bw' leaves the body out"),
        (("squat", "bw+20 kg"), 65, "give kg or lb, of body and load together"),
        (("squat", "90"), 65, "'90' is no load; write 90 kg or 90 lb"),
        (("squat", "601 kg"), 65, "a max of 601 kg is not possible; at most 600 kg"),
        (("squat", "90 kg", "--on", "2026-03-03"), 65, "from 1970-01-01 to today, 2026-03-02"),
        (("squat", "90 kg", "--on", "0001-01-01"), 65, "a test on 0001-01-01 is not possible"),
        (("squat", "90 kg", "--on", "2.3.2026"), 64, "'2.3.2026' is no date; a date is"),
        (("squat", "90 kg", "--lowered"), 64, "give --lower-s, such as 3"),
        (("squat", "90 kg", "--lowered", "--lower-s", "0"), 64, "give --lower-s, such as 3"),
        (("squat", "90 kg", "--lower-s", "61"), 64, "'61' is not possible; give 0 to 60 seconds"),
        (("squat", "90 kg", "--lower-s", "nan"), 64, "'nan' is not possible"),
        (("squat", "90 kg", "--note", "n" * 2001), 65, "at most 2000 characters"),
        (("squat", "90 kg", "--note", "\udcff"), 65, "can't be kept"),
        (("", "90 kg"), 65, "exercise"),
        (("\udcff", "90 kg"), 65, "exercise"),
        (("squat",), 64, "Missing argument 'LOAD'"),
    ],
)
def test_a_max_that_makes_no_sense_is_refused_in_one_line_and_not_recorded(
    command: Command, home: Path, arguments: tuple[str, ...], code: int, said: str
) -> None:
    log = home / "log.jsonl"

    outcome = command("max", "add", "--lifter", "Mirela", "--log", log,
                      *arguments)  # fmt: skip

    assert (outcome.code, outcome.out) == (code, "")
    assert said in outcome.err
    assert outcome.err.count("\n") == 1
    assert not log.exists()


def test_somebody_must_have_been_tested(command: Command) -> None:
    outcome = command("max", "add", "squat", "90 kg")

    assert outcome.code == 64
    assert "say who was tested with --lifter NAME" in outcome.err


def test_the_help_of_recording_says_what_makes_a_test_safe(command: Command) -> None:
    assert MAX_TEST in words(command("max", "add", "--help").out)


# Striking.


def test_a_struck_max_no_longer_counts_and_its_line_stays(
    command: Command, maxes_log: Path
) -> None:
    outcome = command("max", "strike", "cc03", "--why", "no pins", "--log", maxes_log)

    assert outcome.out == "struck: cc03, front squat, 97.5 kg, 2026-11-20\n"
    assert facts(maxes_log)[-1]["why"] == "no pins"
    assert "cc03" not in command("max", maxes_log).out
    assert "cc03" in maxes_log.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("max_id", "said"),
    [
        ("cc0", "4 maxes have an id that begins with 'cc0'"),
        ("cc04", "the max 'cc04' is struck"),
        ("aa01", "no max has the id 'aa01'; 'tempo-coach max' lists the ids"),
    ],
)
def test_an_id_that_names_no_single_max_is_refused(
    command: Command, maxes_log: Path, max_id: str, said: str
) -> None:
    before = maxes_log.read_bytes()

    outcome = command("max", "strike", max_id, "--log", maxes_log)

    assert (outcome.code, said in outcome.err) == (65, True)
    assert maxes_log.read_bytes() == before


# Estimating.


def test_an_estimate_is_as_it_always_was(command: Command) -> None:
    outcome = command("max", "estimate", "175 lb", "12", "--lower-s", "4")

    assert outcome.out == (GOLDEN / "max_estimate.txt").read_text(encoding="utf-8")


def test_an_estimate_as_json_has_every_equation_with_its_range(command: Command) -> None:
    # Reynolds et al. 2006, JSCR 20:584: 1.1307 · 80 + 0.6999 = 91.156.
    data = command("max", "estimate", "80 kg", "5", "--exercise", "chest press", "--json").data

    by_name = {one["name"]: one for one in data["equations"]}
    assert list(by_name) == [one.name for one in EQUATIONS]
    assert by_name["Reynolds et al."]["max_kg"] == 91.156
    assert by_name["Reynolds et al."]["in_band"]
    assert by_name["Epley"]["reps"] == [1, 10]
    assert (data["band"]["low_kg"], data["band"]["caveats"]) == (90.0, [])


def test_an_equation_for_another_exercise_is_shown_and_not_counted(command: Command) -> None:
    outcome = command("max", "estimate", "80 kg", "5")

    assert "by 6 equations: 90.0 to 95.2 kg" in outcome.out
    assert "Reynolds et al. is for the chest press alone, and not counted." in outcome.out


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("80 kg", "0"), 65, "the equations say nothing of 0 reps; 1 to 36"),
        (("80 kg", "37"), 65, "say nothing of 37 reps"),
        (("80 kg", "1000"), 65, "say nothing of 1000 reps"),
        (("80 kg", "many"), 64, "'many' is not a valid integer"),
        (("bw", "5"), 65, "leaves the body out"),
        (("0 kg", "5"), 65, "a load of 0 kg is not possible"),
        (("80 kg", "5", "--lower-s", "inf"), 64, "'inf' is not possible"),
    ],
)
def test_an_estimate_that_makes_no_sense_is_refused(
    command: Command, arguments: tuple[str, ...], code: int, said: str
) -> None:
    outcome = command("max", "estimate", *arguments)

    assert (outcome.code, outcome.out) == (code, "")
    assert said in outcome.err


# What else reads maxes.


def test_check_counts_maxes_and_tells_of_those_that_disagree(
    command: Command, maxes_log: Path, home: Path
) -> None:
    other = home / "other.jsonl"
    later = (NOON + timedelta(days=400)).astimezone(UTC).isoformat()
    strike = f'{{"v":1,"kind":"max_struck","id":"none","at":"{later}","why":""}}'
    other.write_text(max_line(at=later) + "\n" + strike + "\n")

    alone = command("log", "check", maxes_log)
    both = command("log", "check", maxes_log, other)

    assert (alone.code, alone.out) == (0, "6 sets and 4 maxes count, 0 faults\n")
    assert both.code == 65
    assert both.out.splitlines() == [
        "max cc01: the logs disagree; the one that was tested later counts",
        "max none: struck, but not in these logs",
        "6 sets and 4 maxes count, 1 faults",
    ]


def test_pseudonyms_hide_who_was_tested(command: Command, maxes_log: Path) -> None:
    line = ("export", maxes_log, "--by", "max", "--pseudonyms", "-o", "-", "--format", "json")

    rows = command(*line).data["rows"]
    weeks = command("week", maxes_log, "--pseudonyms")

    assert len({row["lifter"] for row in rows}) == 2
    assert all(row["lifter"].startswith("L-") and row["note"] is None for row in rows)
    assert weeks.code == 0
