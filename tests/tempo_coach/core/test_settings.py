from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from tempo_coach.core.settings import CueSet, Layer, Settings, cues_text, parse_cues, settle
from tempo_coach.core.tempo import Allowances
from tempo_coach.core.timeline import LEAST_SETUP_MS, LONGEST_SETUP_MS, USUAL_SETUP_MS


def test_nothing_needs_to_be_set() -> None:
    settings = Settings()
    assert settings.lifter is None
    assert settings.setup_ms == USUAL_SETUP_MS
    assert settings.offset_ms == 0
    assert settings.allowances == Allowances()


def test_seconds_become_whole_milliseconds() -> None:
    settings = Settings(setup_s=4.5, fast_s=0.7, own_s=2.2, assisted_s=3.3)
    assert settings.setup_ms == 4500
    assert settings.allowances == Allowances(700, 2200, 3300)


def test_the_bounds_of_the_setup_are_those_of_a_timeline() -> None:
    assert Settings(setup_s=3).setup_ms == LEAST_SETUP_MS
    assert Settings(setup_s=60).setup_ms == LONGEST_SETUP_MS


@pytest.mark.parametrize(
    "given",
    [
        {"setup_s": 2.999},
        {"setup_s": 60.001},
        {"setup_s": "10"},
        {"setup_s": float("nan")},
        {"setup_s": True},
        {"offset_ms": -501},
        {"offset_ms": 1001},
        {"offset_ms": 1.5},
        {"fast_s": 0.1},
        {"own_s": 11},
        {"assisted_s": None},
        {"lifter": ""},
        {"lifter": 7},
        {"volume": 11},
        {"volume": 0},
        {"cues": "ticks"},
        {"cues": "tick+tick"},
        {"cues": ""},
        {"cues": 3},
        {"count": "sideways"},
        {"unit": "stone"},
        {"sound_check": "yes"},
        {"colour": "red"},
    ],
)
def test_anything_else_is_refused_by_its_name(given: dict[str, Any]) -> None:
    with pytest.raises(ValidationError, match=next(iter(given))):
        Settings.model_validate(given)


def test_every_setting_says_what_it_is() -> None:
    assert all(field.description for field in Settings.model_fields.values())


# Cues.


@pytest.mark.parametrize(
    ("text", "cues"),
    [
        ("tick", (CueSet.TICK,)),
        ("voice+glide", (CueSet.GLIDE, CueSet.VOICE)),
        (" Glide + TICK ", (CueSet.TICK, CueSet.GLIDE)),
        ("tick+glide+voice", tuple(CueSet)),
    ],
)
def test_cue_sets_are_joined_in_any_order(text: str, cues: tuple[CueSet, ...]) -> None:
    assert parse_cues(text) == cues
    assert parse_cues(cues_text(cues)) == cues


# Layers.


FILE = "the settings file s.toml"


def test_a_stronger_layer_goes_over_a_weaker_one() -> None:
    effective = settle(
        [
            Layer(FILE, {"setup_s": 5, "volume": 3, "count": "down"}),
            Layer("the environment", {"volume": "7", "cues": "glide"}, are_texts=True),
            Layer("the command line", {"cues": (CueSet.VOICE,)}),
        ]
    )
    assert effective.settings == Settings(setup_s=5, volume=7, count="down", cues=(CueSet.VOICE,))
    assert effective.sources == {
        "setup_s": FILE,
        "count": FILE,
        "volume": "the environment",
        "cues": "the command line",
    }
    assert effective.bad == ()


def test_a_bad_value_leaves_the_weaker_one_in_force() -> None:
    effective = settle(
        [
            Layer(FILE, {"volume": 3}),
            Layer("the environment", {"volume": "loud"}, are_texts=True),
        ]
    )
    assert effective.settings.volume == 3
    assert effective.sources == {"volume": FILE}


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("setup_s", 2, "has setup_s = '2': input should be greater than or equal to 3"),
        ("setup_s", 90, "has setup_s = '90': input should be less than or equal to 60"),
        ("setup_s", "ten", "has setup_s = 'ten': input should be a valid number"),
        ("setup_s", {"a": 1}, "has setup_s = '{'a': 1}': input should be a valid number"),
        ("offset_ms", 1.5, "has offset_ms = '1.5': input should be a valid integer"),
        ("lifter", 7, "has lifter = '7': input should be a valid string"),
        ("count", "both", "has count = 'both': input should be 'up' or 'down'"),
        ("cues", "bells", "has cues = 'bells': 'bells' is no choice of cues; write tick, glide"),
        ("loud", 1, "has the key 'loud', which is no setting; the settings are lifter, cues"),
        ("\x1b[2J", 1, r"has the key '\x1b[2J', which is no setting"),
    ],
)
def test_a_bad_key_is_named_with_what_is_allowed_and_the_rest_applies(
    key: str, value: Any, said: str
) -> None:
    effective = settle([Layer(FILE, {"fast_s": 0.7, key: value})])
    assert effective.settings == Settings(fast_s=0.7)
    (bad,) = effective.bad
    assert str(bad).startswith(f"{FILE} {said}")


def test_texts_are_read_as_what_the_setting_is() -> None:
    texts = {"setup_s": "5.5", "sound_check": "false", "volume": "4", "cues": "tick+voice"}
    assert settle([Layer("the environment", texts, are_texts=True)]).settings == Settings(
        setup_s=5.5, sound_check=False, volume=4, cues=(CueSet.TICK, CueSet.VOICE)
    )
