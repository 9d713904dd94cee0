from __future__ import annotations

from tempo_coach.core.settings import CueSet, Settings
from tempo_coach.ui.preferences import Preferences, TomlValue
from tests.tempo_coach.ui.rack import Rack

FILE = "the settings file /home/ana/.config/tempo-coach/settings.toml"


class Kept:
    """Preferences, and what they had kept."""

    def __init__(self, *, given_outside: frozenset[str] = frozenset()) -> None:
        self.rack = Rack(settings=Settings(volume=4))
        self.values: list[tuple[str, TomlValue]] = []
        sources = {"volume": FILE, "cues": "the command line", "unit": "the environment"}
        self.preferences = Preferences(
            self.rack.coach, sources, given_outside, lambda *kept: self.values.append(kept)
        )


def test_a_change_holds_at_once_and_is_kept() -> None:
    kept = Kept()

    kept.preferences.change("volume", 7)

    assert kept.rack.coach.settings.volume == 7
    assert kept.values == [("volume", 7)]


def test_cues_are_kept_as_they_are_written() -> None:
    kept = Kept()

    kept.preferences.change("cues", (CueSet.GLIDE, CueSet.VOICE))

    assert kept.values == [("cues", "glide+voice")]


def test_each_setting_says_where_it_comes_from() -> None:
    preferences = Kept().preferences

    assert preferences.source_tag("volume") == "settings file"
    assert preferences.source_sentence("volume") == f"From {FILE}."
    assert preferences.source_tag("count") == "default"
    assert preferences.source_sentence("count") == "As by default."


def test_a_changed_setting_says_so() -> None:
    preferences = Kept().preferences
    preferences.change("volume", 7)

    assert preferences.source_tag("volume") == "changed here"
    assert preferences.source_sentence("volume") == "Changed here."


def test_what_goes_over_a_change_at_the_next_start_is_named_before_and_after_it() -> None:
    preferences = Kept(given_outside=frozenset({"cues", "unit"})).preferences
    said = (
        "Given by the command line, which at the next start goes over a change made here.",
        "Given by the environment, which at the next start goes over a change made here.",
    )
    before = preferences.source_sentence("cues"), preferences.source_sentence("unit")
    preferences.change("unit", "lb")

    assert before == said
    assert preferences.source_sentence("unit") == said[1]
    assert preferences.source_tag("unit") == "environment"
