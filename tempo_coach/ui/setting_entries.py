"""The settings as they are asked for: what each is called, shows and takes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from tempo_coach.core.legible import quoted
from tempo_coach.core.settings import CueSet, Layer, Settings, settle
from tempo_coach.errors import OutOfRange

ON, OFF = "on", "off"
_SCHEMA = Settings.model_json_schema()["properties"]


@dataclass(frozen=True, slots=True)
class Entry:
    """One setting, or one choice of a setting that takes several."""

    key: str
    label: str
    options: tuple[str, ...] = ()
    """What can be chosen; empty where a number or a text is typed."""
    unit: str = ""
    """What the number counts."""
    cue_set: CueSet | None = None
    """Which of the cue sets is turned on and off."""
    words: str = ""
    """What it does; empty where the setting itself says it."""

    def meaning(self) -> str:
        """Say in a sentence what it does."""
        return self.words or str(Settings.model_fields[self.key].description)

    @property
    def is_long(self) -> bool:
        """What is typed may need more room than a number."""
        return self.key == "discs"

    def range_words(self) -> str:
        """Return what the number counts, and from where to where it goes."""
        return ", ".join(filter(None, (self.unit, _limits_words(self.key))))

    def text(self, settings: Settings) -> str:
        """Return what holds, as it is chosen or typed."""
        value = getattr(settings, self.key)
        if self.cue_set is not None:
            return ON if self.cue_set in value else OFF
        if isinstance(value, bool):
            return ON if value else OFF
        return f"{value:g}" if isinstance(value, int | float) else str(value)

    def read(self, text: str, settings: Settings) -> Any:
        """Return the value of the setting that a choice or a number makes.

        Raises
        ------
        OutOfRange
            The text is no value for it.
        """
        if self.cue_set is not None:
            return self._cues(text, settings)
        read = settle((Layer("", {self.key: text.strip()}, are_texts=True),))
        if read.bad:
            allowed = _allowed_words(self.key)
            if not allowed:
                raise OutOfRange(read.bad[0].why)
            raise OutOfRange(f"{quoted(text)} can't be taken", hint=allowed)
        return getattr(read.settings, self.key)

    def _cues(self, text: str, settings: Settings) -> tuple[CueSet, ...]:
        chosen = tuple(
            one for one in CueSet if (text == ON if one is self.cue_set else one in settings.cues)
        )
        if not chosen:
            raise OutOfRange("no cue would be left", hint="turn another on first")
        return chosen


_SWITCH = (ON, OFF)
ENTRIES = (
    Entry(
        "cues",
        "Tick",
        _SWITCH,
        cue_set=CueSet.TICK,
        words="A sound for each phase, and a soft tick for each further second.",
    ),
    Entry(
        "cues",
        "Glide",
        _SWITCH,
        cue_set=CueSet.GLIDE,
        words="A tone whose pitch stands where the bar should stand, and a sound for each phase.",
    ),
    Entry(
        "cues",
        "Voice",
        _SWITCH,
        cue_set=CueSet.VOICE,
        words="Phases, seconds and reps spoken; in place of the ticks, where both are on.",
    ),
    Entry("count", "Voice counts", ("up", "down")),
    Entry("volume", "Volume", unit="steps of 3 dB"),
    Entry("setup_s", "Before rep 1", unit="s"),
    Entry("offset_ms", "Sound is late by", unit="ms"),
    Entry("unit", "Bare loads are in", ("kg", "lb")),
    Entry("bar", "Bar", unit="kg or lb"),
    Entry("collars", "Both collars", unit="kg or lb"),
    Entry("discs", "Discs"),
    Entry("releaser", "One releaser", unit="kg or lb"),
    Entry("show_discs", "Show discs", _SWITCH),
    Entry("taps", "Partner taps", ("off", "phases", "turns")),
    Entry("sound_check", "Sound check", _SWITCH),
    Entry("soreness_check", "Ask for soreness", _SWITCH),
    Entry("fast_s", "X counts as", unit="s"),
    Entry("own_s", "V counts as", unit="s"),
    Entry("assisted_s", "A counts as", unit="s"),
)


def _allowed_words(key: str) -> str:
    """Return what numbers are allowed; nothing for a text."""
    limits = _limits_words(key)
    kind = "a whole number" if _SCHEMA[key]["type"] == "integer" else "a number"
    return f"{kind} from {limits}" if limits else ""


def _limits_words(key: str) -> str:
    schema = _SCHEMA[key]
    return f"{schema['minimum']} to {schema['maximum']}" if "minimum" in schema else ""
