from __future__ import annotations

import pytest

from tempo_coach.core.settings import CueSet, Settings
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.setting_entries import ENTRIES, Entry

BY_LABEL = {entry.label: entry for entry in ENTRIES}
HELD = Settings(cues=(CueSet.TICK,), setup_s=7.5)


def test_every_setting_can_be_given_but_the_lifter_who_has_a_screen_of_his_own() -> None:
    assert {entry.key for entry in ENTRIES} == Settings.model_fields.keys() - {"lifter"}


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.label)
def test_what_an_entry_shows_is_read_back_as_what_holds(entry: Entry) -> None:
    assert entry.read(entry.text(HELD), HELD) == getattr(HELD, entry.key)


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.label)
def test_every_option_of_an_entry_can_be_taken_and_is_then_shown(entry: Entry) -> None:
    voiced = Settings(cues=(CueSet.TICK, CueSet.VOICE))

    for option in entry.options:
        taken = voiced.model_copy(update={entry.key: entry.read(option, voiced)})
        assert entry.text(taken) == option


@pytest.mark.parametrize("entry", ENTRIES, ids=lambda entry: entry.label)
def test_every_entry_says_in_a_sentence_what_it_does(entry: Entry) -> None:
    assert entry.meaning().endswith(".")


def test_cue_sets_are_turned_on_and_off_each_by_itself() -> None:
    both = BY_LABEL["Voice"].read("on", HELD)
    voice = BY_LABEL["Tick"].read("off", Settings(cues=both))

    assert both == (CueSet.TICK, CueSet.VOICE)
    assert voice == (CueSet.VOICE,)


def test_the_last_cue_set_stays_on() -> None:
    with pytest.raises(OutOfRange) as refusal:
        BY_LABEL["Tick"].read("off", HELD)

    assert str(refusal.value) == "no cue would be left; turn another on first"


@pytest.mark.parametrize(
    ("label", "text", "allowed"),
    [
        ("Volume", "11", "a whole number from 1 to 10"),
        ("Volume", "2.5", "a whole number from 1 to 10"),
        ("Before rep 1", "2.9", "a number from 3 to 60"),
        ("Before rep 1", "", "a number from 3 to 60"),
        ("Sound is late by", "-501", "a whole number from -500 to 1000"),
        ("X counts as", "nan", "a number from 0.2 to 10"),
        ("X counts as", "one", "a number from 0.2 to 10"),
    ],
)
def test_a_number_out_of_range_is_refused_with_the_range(
    label: str, text: str, allowed: str
) -> None:
    with pytest.raises(OutOfRange) as refusal:
        BY_LABEL[label].read(text, HELD)

    assert str(refusal.value) == f"'{text}' can't be taken; {allowed}"
