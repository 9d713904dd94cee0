from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command, set_line


def test_the_log_lists_its_sets_as_they_are_now(command: Command, written_log: Path) -> None:
    outcome = command("log", "--log", written_log)

    rows = outcome.out.splitlines()
    assert [row.split()[0] for row in rows] == ["id", "ab03", "aa01", "bb01", "aa02"]
    assert "8.5  belt" in rows[-1]


def test_the_list_of_one_lifter_is_json_on_demand(command: Command, written_log: Path) -> None:
    outcome = command("log", "--log", written_log, "--lifter", "Jonne Tarval", "--json")

    (only,) = outcome.data
    assert (only["id"], only["seconds"]["lower"], only["load_kg"]) == ("bb01", 20.0, None)


def test_check_says_what_is_wrong_and_where(command: Command, written_log: Path) -> None:
    with written_log.open("a", encoding="utf-8") as file:
        file.write("\n".join(["{]", set_line(id="zz", load_kg="80"), '{"v":2,"kind":"new"}', ""]))
        file.write(set_line(id="aa01", reps_done=3) + "\n")

    outcome = command("log", "check", written_log)

    assert outcome.code == 65
    assert outcome.out.splitlines() == [
        f"{written_log}, line 8: not JSON",
        f"{written_log}, line 9: load_kg: Input should be a valid number",
        f"{written_log}, line 10: version 2 is newer than this program knows; kept",
        "set aa01: the logs disagree; the one that ended later counts",
        "4 sets count, 3 faults",
    ]


def test_check_finds_nothing_in_a_sound_log(command: Command, written_log: Path) -> None:
    outcome = command("log", "check", "--log", written_log)

    assert (outcome.code, outcome.out) == (0, "4 sets count, 0 faults\n")


def test_a_correction_is_appended_and_reps_bring_their_seconds(
    command: Command, written_log: Path
) -> None:
    before = written_log.read_bytes()

    outcome = command(
        "log", "correct", "aa01", "--reps", "4", "--load", "175 lb", "--effort", "9",
        "--log", written_log,
    )  # fmt: skip

    assert outcome.code == 0
    after = written_log.read_bytes()
    assert after.startswith(before)
    appended = json.loads(after[len(before) :])
    assert appended["kind"] == "set_corrected"
    assert appended["changes"] == {
        "reps_done": 4,
        "load_kg": 79.37866475,
        "load_as_written": "175 lb",
        "effort": 9.0,
        "seconds": {"lower": 16.0, "pause": 4.0, "raise": 4.0, "top": 4.0},
    }


@pytest.mark.parametrize(("text", "kg"), [("125 kg", 125.0), ("275 lb", 124.73790175)])
def test_what_was_lowered_is_corrected_in_kg_or_lb(
    command: Command, home: Path, text: str, kg: float
) -> None:
    log = home / "releasers.jsonl"
    log.write_text(
        set_line(id="cc01", v=2, shape="lower @ 130 kg", lower_load_kg=130.0) + "\n", "utf-8"
    )

    outcome = command("log", "correct", "cc01", "--lowered", text, "--log", log)

    appended = json.loads(log.read_text(encoding="utf-8").splitlines()[-1])
    assert outcome.code == 0
    assert (appended["v"], appended["changes"]) == (2, {"lower_load_kg": kg})
    assert f"80, lowered {kg:g}" in outcome.out
    assert command("log", "--json", "--log", log).data[0]["lower_load_kg"] == kg


def test_seconds_can_be_corrected_by_themselves(command: Command, written_log: Path) -> None:
    command("log", "correct", "aa01", "--seconds", "19.5/5/5/4", "--log", written_log)

    listed = command("log", "--log", written_log, "--json").data
    (corrected,) = [one for one in listed if one["id"] == "aa01"]
    assert corrected["seconds"] == {"lower": 19.5, "pause": 5.0, "raise": 5.0, "top": 4.0}
    assert corrected["reps_done"] == 5


def test_a_struck_set_no_longer_counts_and_its_line_stays(
    command: Command, written_log: Path
) -> None:
    outcome = command("log", "strike", "ab", "--why", "not mine", "--log", written_log)

    assert outcome.out == "struck: ab03, Front Squat, 2026-11-19 18:04\n"
    assert '"why":"not mine"' in written_log.read_text(encoding="utf-8").splitlines()[-1]
    assert command("log", "--log", written_log, "--json").data[0]["id"] != "ab03"
    assert "ab03" in written_log.read_text(encoding="utf-8")


def test_a_lifter_that_the_log_does_not_know_is_refused_with_the_nearest(
    command: Command, written_log: Path
) -> None:
    outcome = command("log", "--log", written_log, "--lifter", "Mirella")

    assert (outcome.code, outcome.out) == (65, "")
    assert outcome.err == (
        "tempo-coach: the log knows no lifter 'Mirella'; the nearest is 'Mirela Oude'\n"
    )


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        (("correct", "aa", "--reps", "4"), 65, "2 sets have an id that begins with 'aa'"),
        (("correct", "nope", "--reps", "4"), 65, "no set has the id 'nope'"),
        (("strike", "bb02"), 65, "the set 'bb02' is struck"),
        (("correct", "aa01"), 64, "nothing to correct"),
        (("correct", "aa01", "--load", "heavy"), 65, "'heavy' is no load"),
        (("correct", "aa01", "--load", "80 kg 5"), 65, "is no load"),
        (("correct", "aa01", "--lowered", "105%"), 65, "the kilograms of 105% are not known here"),
        (("correct", "aa01", "--lowered", "bw"), 65, "the kilograms of bw are not known here"),
        (("correct", "aa01", "--lowered", "2001 kg"), 65, "2001 kg"),
        (("correct", "aa01", "--lowered", "90 kg"), 65, "lowers no other load than it raises"),
        (("correct", "aa01", "--seconds", "1/2"), 65, "are no seconds"),
        (("correct", "aa01", "--seconds", "99999/0/0/0"), 65, "at most 36,000 each"),
        (
            ("correct", "aa01", "--effort", "7.3"),
            64,
            "'7.3' is not possible; give 1 to 10 by halves",
        ),
        (("correct", "aa01", "--effort", "11"), 64, "'11' is not possible; give 1 to 10 by halves"),
        (("correct", "aa01", "--note", "n" * 2001), 65, "at most 2000 characters of UTF-8"),
        (("correct", "aa01", "--note", "\udcff"), 65, "at most 2000 characters of UTF-8"),
        (("strike", "aa01", "--why", "n" * 2001), 65, "at most 2000 characters of UTF-8"),
        (("correct", "aa01", "--reps", "2.5"), 64, "a whole number from 0 to 1,000"),
    ],
)
def test_a_correction_that_makes_no_sense_is_refused_in_one_line(
    command: Command, written_log: Path, arguments: tuple[str, ...], code: int, said: str
) -> None:
    before = written_log.read_bytes()

    outcome = command("log", *arguments, "--log", written_log)

    assert outcome.code == code
    assert said in outcome.err
    assert outcome.err.count("\n") == 1
    assert written_log.read_bytes() == before


def test_the_schema_names_every_kind_of_fact(command: Command) -> None:
    schema = command("log", "schema").data

    assert schema["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert set(schema["discriminator"]["mapping"]) >= {"set_done", "set_corrected", "set_struck"}
    assert schema["$defs"]["SetDone"]["properties"]["started_at"]["format"] == "date-time"


def test_the_log_is_where_option_variable_or_folder_say(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert command("where").out == f"{home}/data/tempo-coach/log.jsonl\n"
    monkeypatch.setenv("TEMPO_COACH_LOG", "/somewhere/by-variable.jsonl")
    assert command("where").out == "/somewhere/by-variable.jsonl\n"
    assert command("--log", "before.jsonl", "where").out == "before.jsonl\n"
    assert command("where", "--log", "behind.jsonl").out == "behind.jsonl\n"
    twice = command("--log", "before.jsonl", "where", "--log", "behind.jsonl")
    assert (twice.code, "--log is given twice" in twice.err) == (64, True)
