from __future__ import annotations

from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command


def write_settings(home: Path, text: str) -> Path:
    path = home / "config" / "tempo-coach" / "settings.toml"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return path


def test_settings_say_where_each_comes_from(
    command: Command, home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = write_settings(home, 'cues = "glide"\nsetup_s = 5\nlifter = "Mirela Oude"\n')
    monkeypatch.setenv("TEMPO_COACH_SETUP_S", "7.5")

    outcome = command("settings", "--json")

    assert outcome.code == 0
    assert outcome.data["cues"] == {"value": "glide", "from": f"the settings file {path}"}
    assert outcome.data["setup_s"] == {"value": 7.5, "from": "the environment"}
    assert outcome.data["volume"] == {"value": 10, "from": "default"}


def test_a_wrong_setting_is_named_with_what_is_allowed_and_the_rest_applies(
    command: Command, home: Path
) -> None:
    path = write_settings(home, 'volume = 11\ncues = "voice"\n')

    outcome = command("settings")

    assert outcome.code == 78
    assert outcome.err == (
        f"tempo-coach: the settings file {path} has volume = '11': "
        "input should be less than or equal to 10\n"
    )
    assert "voice" in outcome.out


def test_a_variable_that_is_empty_sets_nothing(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TEMPO_COACH_VOLUME", "")

    assert command("settings", "--json").data["volume"] == {"value": 10, "from": "default"}


def test_the_command_line_goes_over_the_environment(
    command: Command, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("TEMPO_COACH_SETUP_S", "7")
    line = ("track", "squat 1x1 2-0-1-0", "--list", "--json")

    assert command(*line).data["setup_ms"] == 7000
    assert command(*line, "--setup", "4").data["setup_ms"] == 4000


def test_cue_sets_make_different_tracks_of_one_length(command: Command, home: Path) -> None:
    for cues in ("tick", "glide", "voice", "tick+glide+voice"):
        command("track", "squat 1x1 2-0-1-0", "--cues", cues, "-o", home / f"{cues}.wav")
    for count in ("up", "down"):
        command(
            "track", "squat 1x1 4-0-1-0", "--cues", "voice", "--count", count,
            "-o", home / f"{count}.wav",
        )  # fmt: skip

    waves = {path.stem: path.read_bytes() for path in home.glob("*.wav")}
    assert len(waves) == len(set(waves.values())) == 6
    assert len({len(wave) for name, wave in waves.items() if name not in ("up", "down")}) == 1


def test_a_choice_of_cues_that_is_none_is_refused(command: Command) -> None:
    outcome = command("track", "squat 1x1 2-0-1-0", "--list", "--cues", "bells")

    assert outcome.code == 64
    assert "'bells' is no choice of cues; write tick, glide, voice, or several" in outcome.err


def test_the_cautions_name_spotters_pain_warning_signs_and_who_should_ask(
    command: Command,
) -> None:
    text = " ".join(command("cautions").out.split())

    for said in (
        "Pain stops the set.",
        "safety pins",
        "dark urine, the colour of tea or cola",
        "Seek medical care at once.",
        "Ask a clinician before you begin",
        "Facility rules and local law come first.",
    ):
        assert said in text


def test_help_and_version_are_no_error(command: Command) -> None:
    assert command("--help").code == 0
    assert command("--version").out.startswith("tempo-coach ")
