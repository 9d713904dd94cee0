"""What a lifter sets once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    PlainSerializer,
    PlainValidator,
    ValidationError,
    WithJsonSchema,
)

from tempo_coach.core.discs import POWERLIFTING
from tempo_coach.core.fact_values import Name
from tempo_coach.core.legible import quoted
from tempo_coach.core.load import LoadUnit
from tempo_coach.core.loading import Rack
from tempo_coach.core.mass import Mass
from tempo_coach.core.rack_values import BarMass, CollarsMass, Discs, ReleaserMass
from tempo_coach.core.tempo import Allowances


class CueSet(StrEnum):
    """A way to say where the bar should be."""

    TICK = "tick"
    """A sound for each phase, and a soft tick for each further second."""
    GLIDE = "glide"
    """A tone whose pitch stands where the bar should stand, and a sound for each phase."""
    VOICE = "voice"
    """Phases, seconds and reps spoken."""


CUE_FORMS = "tick, glide, voice, or several joined by +, such as glide+voice"


def parse_cues(text: str) -> tuple[CueSet, ...]:
    """Read one cue set or several, such as ``glide+voice``.

    Raises
    ------
    ValueError
        A name is no cue set, or stands there twice.
    """
    names = [name.strip().lower() for name in text.split("+")]
    if len(set(names)) < len(names) or not set(names) <= set(CueSet):
        raise ValueError(f"{quoted(text)} is no choice of cues; write {CUE_FORMS}")
    return tuple(cue_set for cue_set in CueSet if cue_set in names)


def cues_text(cues: Iterable[CueSet]) -> str:
    """Return cue sets as they are written: joined by +."""
    return "+".join(cues)


def _read_cues(value: object) -> tuple[CueSet, ...]:
    if isinstance(value, tuple):
        return value
    if not isinstance(value, str):
        raise ValueError(f"write {CUE_FORMS}")
    return parse_cues(value)


Cues: TypeAlias = Annotated[
    tuple[CueSet, ...],
    PlainValidator(_read_cues),
    PlainSerializer(cues_text, return_type=str),
    WithJsonSchema({"type": "string", "examples": ["tick", "glide+voice"]}),
]
CountDirection: TypeAlias = Literal["up", "down"]


_NO_MASS = Mass(Decimal(0), LoadUnit.KG)


class Settings(BaseModel):
    """The settings, each with what holds when nothing is set."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )

    lifter: Name | None = None
    """Who lifts; asked for once where nothing says so."""
    cues: Cues = (CueSet.TICK,)
    """What is heard: tick, glide, voice, or several joined by +."""
    count: CountDirection = "up"
    """Which way the voice counts the seconds of a phase."""
    volume: Annotated[int, Field(ge=1, le=10)] = 10
    """Loudness of the track, 1 to 10, in steps of 3 dB; the system's volume is the system's."""
    setup_s: Annotated[float, Field(ge=3, le=60)] = 10.0
    """Seconds from the start until rep 1 begins."""
    offset_ms: Annotated[int, Field(ge=-500, le=1000)] = 0
    """How much later than usual the sound is heard, as over Bluetooth; the picture waits for it."""
    unit: Literal["kg", "lb"] = "kg"
    """What a bare number means where a load or a mass is typed."""
    bar: BarMass = Mass(Decimal(20), LoadUnit.KG)
    """What the empty bar weighs, without collars."""
    collars: CollarsMass = _NO_MASS
    """What both collars weigh together."""
    discs: Discs = POWERLIFTING
    """The discs of the rack: iwf, powerlifting, pounds, or how many of each, as 20x4 10x4 2.5x2."""
    releaser: ReleaserMass = _NO_MASS
    """What one of two releasers weighs, without discs."""
    show_discs: bool = True
    """What goes on the bar is said beside each set whose load is at least the empty bar's."""
    taps: Literal["off", "phases", "turns"] = "off"
    """A partner taps as each phase begins and the last one ends, or at bottom and top alone."""
    sound_check: bool = True
    """Three tones are played and asked for before the first set of a day."""
    soreness_check: bool = True
    """How sore the muscles are is asked before the first set of a day."""
    fast_s: Annotated[float, Field(ge=0.2, le=10)] = 1.0
    """What planning counts for X."""
    own_s: Annotated[float, Field(ge=0.2, le=10)] = 2.0
    """What planning counts for V."""
    assisted_s: Annotated[float, Field(ge=0.2, le=10)] = 3.0
    """What planning counts for A."""

    @property
    def setup_ms(self) -> int:
        """`setup_s` in whole milliseconds."""
        return round(self.setup_s * 1000)

    @property
    def rack(self) -> Rack:
        """What there is to load."""
        return Rack(self.bar, self.collars, self.discs)

    @property
    def allowances(self) -> Allowances:
        """What stands in for X, V and A."""
        return Allowances(
            round(self.fast_s * 1000), round(self.own_s * 1000), round(self.assisted_s * 1000)
        )


@dataclass(frozen=True, slots=True)
class Layer:
    """Some settings, and where they come from."""

    source: str
    """Such as ``the environment``."""
    values: Mapping[str, Any]
    are_texts: bool = False
    """The values are text, as environment variables are, and not typed as in TOML."""


@dataclass(frozen=True, slots=True)
class BadSetting:
    """A value that can't be used; what a weaker layer or the default says applies instead."""

    source: str
    key: str
    value: Any
    why: str
    """What is allowed."""

    def __str__(self) -> str:
        if self.key not in Settings.model_fields:
            return f"{self.source} has the key {quoted(self.key)}, which is no setting; {self.why}"
        return f"{self.source} has {self.key} = {quoted(str(self.value))}: {self.why}"


@dataclass(frozen=True, slots=True)
class Effective:
    """The settings that hold, and where each comes from."""

    settings: Settings
    sources: Mapping[str, str]
    """The source of each key; a key that is missing is as by default."""
    bad: tuple[BadSetting, ...]


def settle(layers: Iterable[Layer]) -> Effective:
    """Lay settings over one another, the weakest first; a bad value leaves the rest in force."""
    usable: dict[str, Any] = {}
    sources: dict[str, str] = {}
    bad: list[BadSetting] = []
    for layer in layers:
        for key, value in layer.values.items():
            try:
                read = _read(key, value, is_text=layer.are_texts)
            except ValidationError as fault:
                bad.append(BadSetting(layer.source, key, value, _why(key, fault)))
            else:
                usable[key] = read
                sources[key] = layer.source
    return Effective(Settings(**usable), sources, tuple(bad))


def _read(key: str, value: Any, *, is_text: bool) -> Any:
    validate = Settings.model_validate_strings if is_text else Settings.model_validate
    return getattr(validate({key: value}), key)


def _why(key: str, fault: ValidationError) -> str:
    if key not in Settings.model_fields:
        return f"the settings are {', '.join(Settings.model_fields)}"
    said = fault.errors()[0]["msg"].removeprefix("Value error, ")
    return said[0].lower() + said[1:]
