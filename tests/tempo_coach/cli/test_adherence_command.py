from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command, set_line


def measured_line(set_id: str, *lowers_s: float) -> str:
    reps = [
        {"lower": one, "pause": 1.0, "raise": 1.0, "top": None, "motion": None} for one in lowers_s
    ]
    spent = {"lower": sum(lowers_s), "pause": 5.0, "raise": 5.0, "top": 5.0}
    fact = {
        "v": 1,
        "kind": "set_measured",
        "id": set_id,
        "at": "2026-11-25T19:00:00+01:00",
        "timing": "tapped",
        "seconds": spent,
        "reps": reps,
    }
    return json.dumps(fact)


@pytest.fixture
def measured_log(home: Path) -> Path:
    path = home / "measured.jsonl"
    lines = (
        set_line(id="aa01"),
        set_line(id="aa02"),
        set_line(id="bb01", lifter="Jonne Tarval", exercise="row"),
        measured_line("aa01", 4.0, 3.9, 3.8, 3.2, 3.1),
        measured_line("bb01", 4.0, 4.2, 4.1, 4.0, 4.0),
    )
    path.write_text("".join(f"{line}\n" for line in lines), encoding="utf-8")
    return path


def test_tempos_are_listed_with_how_they_were_kept(command: Command, measured_log: Path) -> None:
    outcome = command("adherence", measured_log)

    rows = [line.split() for line in outcome.out.splitlines()]
    assert outcome.code == 0
    assert ["Jonne", "Tarval", "row", "4-1-X-1", "2026-W48",
            "1", "5", "5", "5", "+0.06", "+2", "−0.02"] in rows  # fmt: skip
    assert ["Mirela", "Oude", "front", "squat", "4-1-X-1", "2026-W48",
            "1", "5", "3", "3", "−0.40", "−10", "−0.25"] in rows  # fmt: skip
    assert "good to about 0.15 s" in " ".join(outcome.out.split())


def test_one_lifter_and_one_exercise_can_be_asked_for(command: Command, measured_log: Path) -> None:
    outcome = command("adherence", measured_log, "--lifter", "jonne tarval", "--json")

    (tempo,) = outcome.data["tempos"]
    assert tempo["exercise"] == "row"
    assert tempo["lower_off_s"] == 0.06
    assert command("adherence", measured_log, "--exercise", "rwo").code != 0


def test_a_log_without_measured_sets_says_how_to_measure(
    command: Command, written_log: Path
) -> None:
    outcome = command("adherence", written_log)

    assert outcome.code == 0
    assert "no lower was measured yet" in outcome.out


def test_an_export_by_tempo_holds_the_same(command: Command, measured_log: Path) -> None:
    outcome = command("export", measured_log, "--by", "tempo", "-o", "-", "--format", "csv")

    heading, first, second = outcome.out.splitlines()
    assert heading == (
        "lifter,week,week_begins,exercise,tempo,sets_measured,lowers,lowers_within_6_percent,"
        "lowers_within_half_second,lower_prescribed_s,lower_off_s,lower_off_share,lower_drift_s"
    )
    assert first == "Jonne Tarval,2026-W48,2026-11-23,row,4-1-X-1,1,5,5,5,4.0,0.06,0.015,-0.02"
    assert second.startswith("Mirela Oude,2026-W48,2026-11-23,front squat,4-1-X-1,1,5,3,3,")


def test_a_week_says_which_share_of_its_lowering_was_measured(
    command: Command, measured_log: Path
) -> None:
    outcome = command("week", measured_log, "--json")

    (week,) = outcome.data["weeks"]
    assert week["total"]["lower_s"] == pytest.approx(18.0 + 20.0 + 20.3)
    assert week["total"]["lower_measured_s"] == pytest.approx(38.3)
    assert week["total"]["measured_share"] == pytest.approx(38.3 / 58.3, abs=1e-4)
    assert "66% of the lowering measured" in command("week", measured_log).out
