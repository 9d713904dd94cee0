from __future__ import annotations

from pathlib import Path

from tests.tempo_coach.cli.conftest import Command, set_line


def test_a_week_holds_every_total_with_its_unit(command: Command, written_log: Path) -> None:
    outcome = command("week", written_log, "--lifter", "mirela oude", "--json")

    assert outcome.code == 0
    assert outcome.data["skipped"] == []
    last_week, this_week = outcome.data["weeks"]
    assert (last_week["week"], last_week["from"]) == ("2026-W47", "2026-11-16")
    assert (this_week["week"], this_week["from"]) == ("2026-W48", "2026-11-23")
    assert this_week["exercises"] == [
        {
            "exercise": "front squat",
            "sets": 2,
            "reps": 10,
            "lower_s": 40.0,
            "pause_s": 10.0,
            "raise_s": 10.0,
            "top_s": 10.0,
            "tension_s": 70.0,
            "moving_s": 50.0,
            "by_allowance": {
                "lower_s": 0.0,
                "pause_s": 0.0,
                "raise_s": 10.0,
                "top_s": 0.0,
                "tension_s": 10.0,
            },
            "lowering_share": 0.5714,
            "lowering_kg_s": 3200.0,
            "tonnage_kg": 800.0,
            "lower_measured_s": 0.0,
            "measured_share": 0.0,
            "sets_without_load": 0,
        }
    ]
    assert this_week["lower_change_s"] == 30.0
    assert last_week["lower_change_s"] is None


def test_several_logs_are_merged_by_id(command: Command, written_log: Path, home: Path) -> None:
    copy = home / "copy.jsonl"
    copy.write_bytes(written_log.read_bytes() + set_line(id="cc01").encode() + b"\n")

    outcome = command("week", written_log, copy, "--json")

    assert [week["total"]["sets"] for week in outcome.data["weeks"]] == [1, 4]


def test_skipped_lines_are_named_and_the_rest_counts(command: Command, written_log: Path) -> None:
    text = written_log.read_text(encoding="utf-8")
    written_log.write_text(f'half a line\n{text}{{"v":9,"kind":"set_done"}}\n{{"v":1,', "utf-8")

    outcome = command("week", written_log, "--json")

    assert [(one["line"], one["why"].split()[0]) for one in outcome.data["skipped"]] == [
        (1, "not"),
        (9, "version"),
        (10, "torn:"),
    ]
    assert {one["file"] for one in outcome.data["skipped"]} == {str(written_log)}
    assert outcome.data["weeks"][-1]["total"]["sets"] == 3


def test_the_table_says_what_rests_on_allowances_and_what_has_no_load(
    command: Command, written_log: Path
) -> None:
    outcome = command("week", written_log, "--weeks", "1")

    assert "2026-W48 from 2026-11-23, +50 s lowering on the week before" in outcome.out
    assert "2026-W47" not in outcome.out
    assert "≈10.0" in outcome.out
    assert "≈ rests in part on what planning counts for X, V and A." in outcome.out
    assert "+ leaves out sets whose load in kg is not known." in outcome.out
    assert "2 lifters together; --lifter NAME shows one: Jonne Tarval, Mirela Oude." in outcome.out


def test_an_empty_log_has_no_weeks(command: Command) -> None:
    assert command("week").out == "no sets yet\n"
    assert command("week", "--json").data == {"weeks": [], "skipped": []}


def test_a_log_that_was_named_must_be_there(command: Command, home: Path) -> None:
    missing = command("week", home / "nowhere.jsonl")
    empty = command("week", home)

    assert (missing.code, missing.out) == (66, "")
    assert missing.err == (
        f"tempo-coach: the log {home}/nowhere.jsonl can't be read: there is no such file; "
        "give a JSON Lines file that this program wrote\n"
    )
    assert empty.code == 66
    assert "has no log in it or below" in empty.err


def test_a_lifter_whom_the_logs_do_not_know_is_refused(command: Command, written_log: Path) -> None:
    outcome = command("week", written_log, "--lifter", "Mirela Ode")

    assert outcome.code == 65
    assert "the logs know no lifter 'Mirela Ode'; the nearest is 'Mirela Oude'" in outcome.err


def test_escape_sequences_and_markup_in_names_show_literally(command: Command, home: Path) -> None:
    log = home / "odd.jsonl"
    log.write_text(set_line(exercise="\x1b[31m[bold]squat[/bold]") + "\n", "utf-8")

    outcome = command("week", log)

    assert "\x1b" not in outcome.out
    assert r"\x1b[31m[bold]squat[/bold]" in outcome.out


def test_a_roster_says_its_order_and_what_rests_on_allowances(
    command: Command, written_log: Path
) -> None:
    outcome = command("week", written_log, "--roster", "--weeks", "2")

    assert outcome.code == 0
    heading, *rows = outcome.out.splitlines()[1:4]
    assert heading.split() == [
        "lifter", "2026-W47", "2026-W48", "change", "s", "last", "session",
    ]  # fmt: skip
    assert [row.split() for row in rows] == [
        ["Mirela", "Oude", "10.0", "40.0", "+30.0", "2026-11-25"],
        ["Jonne", "Tarval", "0.0", "20.0", "+20.0", "(first)", "2026-11-25"],
    ]
    assert "First whose lowering seconds rose most" in outcome.out


def test_a_roster_is_given_to_machines_too(command: Command, written_log: Path) -> None:
    data = command("week", written_log, "--roster", "--json").data

    assert data["weeks"][-1] == "2026-W48"
    assert len(data["weeks"]) == 8
    assert [(one["lifter"], one["lower_change_s"]) for one in data["lifters"]] == [
        ("Mirela Oude", 30.0),
        ("Jonne Tarval", 20.0),
    ]
    assert data["skipped"] == []
    assert command("week", "--roster").out == "no sets yet\n"


def test_pseudonyms_take_the_names_out_of_weeks_and_are_the_same_every_time(
    command: Command, written_log: Path
) -> None:
    with written_log.open("a", encoding="utf-8") as log:
        log.write("torn")
    tables = [command("week", written_log, *more, "--pseudonyms") for more in ((), ("--roster",))]
    data = [command("week", written_log, "--roster", "--json", "--pseudonyms") for _ in range(2)]

    for outcome in (*tables, *data):
        assert outcome.code == 0
        assert "Mirela" not in outcome.out
        assert str(written_log) not in outcome.out
        assert "Names are replaced by codes" in outcome.err
    assert data[0].data == data[1].data
    assert data[0].data["skipped"][0]["file"] == "log 1"


def test_one_lifter_is_chosen_by_name_and_shown_by_code(
    command: Command, written_log: Path
) -> None:
    chosen = ("--lifter", "mirela OUDE", "--pseudonyms", "--json")

    shown = command("week", written_log, "--roster", *chosen).data["lifters"]
    exported = command(
        "export", written_log, *chosen[:-1], "--by", "set", "-o", "-", "--format", "json"
    ).data["rows"]
    unknown = command("week", written_log, "--lifter", "Mirela Ode", "--pseudonyms")

    assert len(shown) == 1
    assert {row["lifter"] for row in exported} == {shown[0]["lifter"]}
    assert {row["note"] for row in exported} == {None}
    assert not {"aa01", "aa02", "ab03"} & {row["id"] for row in exported}
    assert (unknown.code, unknown.out) == (65, "")
    assert "the nearest is 'Mirela Oude'" in unknown.err


def test_methods_maxes_and_the_reserve_stand_beneath_the_weeks(
    command: Command, home: Path
) -> None:
    path = home / "log.jsonl"
    path.write_text(f"{set_line(method='slow-lowering')}\n", encoding="utf-8")
    tests = (("90 kg",), ("100 kg", "--lowered"))
    for load, *more in tests:
        words = ("--lower-s", "3", "--lifter", "Mirela Oude", "--on", "2026-11-20")
        command("max", "add", "front squat", load, *more, *words, "--log", path)

    outcome = command("week", path)

    assert "of these slow-lowering" in outcome.out
    assert (
        "front squat: 90 kg lifted after a lower in 3 s (2026-11-20), "
        "100 kg lowered in 3 s (2026-11-20), reserve 111% of the 1RM."
    ) in " ".join(outcome.out.split())
