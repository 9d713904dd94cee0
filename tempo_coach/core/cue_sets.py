"""Which sound says what: from a timeline to its track."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from sounds_gen import named
from sounds_gen.glide import glide
from sounds_gen.mixing import mix
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples
from sounds_gen.voice.words import Spoken, word
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.settings import CountDirection, CueSet
from tempo_coach.core.spoken_cues import rep_numbers, spoken_cues
from tempo_coach.core.tempo import Phase, Speed
from tempo_coach.core.timeline import Cue, CueKind, Span, Timeline

REST_NOTICE_MS = 10_000
"""How long before the end of a rest its notice sounds."""
LOUDEST = 10
_STEP_DB = 3.0
_REST_RING_MS = 700
"""Room for the word or sound that ends a rest."""


@dataclass(frozen=True, slots=True)
class Sound:
    """One sound a lifter learns."""

    name: str
    words: str
    """What it tells and how it goes."""
    clip: Samples

    @property
    def lasts_ms(self) -> int:
        """Its length, rounded up."""
        return _length_ms(self.clip)


SLOW_REP = "front squat 1x1 4-1-2-1"
"""One slow rep, to learn the cues by."""


def sounds() -> tuple[Sound, ...]:
    """Return every sound: those of a set in the order in which it brings them, then the rest."""
    slow = Timeline.of(parse_prescription(SLOW_REP))
    return (
        Sound("ready", "one blip 3, 2 and 1 s before the first rep", named.call()),
        Sound("lower", "sinks: the lower begins", named.fall()),
        Sound("lowering second", "a soft tick, each lower than the last", named.step(0.5)),
        Sound("pause", "steady and low: hold at the bottom", named.level(0.0)),
        Sound("raise", "climbs: the raise begins", named.rise()),
        Sound("raise X", "a short sharp climb: as fast as possible", named.snap()),
        Sound("top", "steady and high: stay at the top", named.level(1.0)),
        Sound("last rep", "the first sound of the rep, twice and quick", named.fall(twice=True)),
        Sound("end", "three notes down: rack it", named.close()),
        Sound("rest", "two soft notes: ten seconds of rest are left", named.notice()),
        Sound("glide", "its pitch is where the bar should be", glide(_course(slow), repeats=1)),
        Sound("voice", "phases, seconds and reps spoken", word("lower").clip),
    )


def check_track(*, volume: int = LOUDEST) -> Samples:
    """Return three tones, a second apart, to hear whether the sound is on.

    Returns
    -------
    Samples
        float32, shape ``(n,)``, range [-1, 1].
    """
    tones = (named.level(0.0), named.level(0.5), named.level(1.0))
    placed = [(1000 * index, tone) for index, tone in enumerate(tones)]
    return mix(placed, length_ms=3000, volume=_amplitude(volume))


def sound_track(sound: Sound, *, volume: int = LOUDEST) -> Samples:
    """Return one sound by itself, as loud as it would be in a track; float32, [-1, 1]."""
    return (sound.clip * np.float32(_amplitude(volume))).astype(np.float32)


def set_track(
    timeline: Timeline,
    *,
    cues: Iterable[CueSet] = (CueSet.TICK,),
    count: CountDirection = "up",
    volume: int = LOUDEST,
) -> Samples:
    """Return the sound of one whole set; behind the last phase the end sound rings out.

    Parameters
    ----------
    timeline
        The set.
    cues
        One cue set or several. Spoken seconds take the place of soft ticks. A set that runs until
        it is stopped has its reps counted aloud in any case.
    count
        Which way the voice counts the seconds of a phase.
    volume
        1 to 10, in steps of 3 dB.

    Returns
    -------
    Samples
        float32, shape ``(n,)``, range [-1, 1]; sample 0 is the timeline's 0.

    Raises
    ------
    ValueError
        There is no cue set.
    """
    chosen = set(cues)
    if not chosen:
        raise ValueError("a set needs at least one cue set")
    glides: list[tuple[int, Samples]] = []
    speech: Iterable[tuple[int, Spoken]] = ()
    if CueSet.GLIDE in chosen:
        glides.append((timeline.setup_ms, glide(_course(timeline), repeats=timeline.reps)))
    if CueSet.VOICE in chosen:
        speech = spoken_cues(timeline, count=count)
    elif timeline.open_ended:
        speech = rep_numbers(timeline)
    return mix(
        _marks(timeline, chosen),
        glides=glides,
        speech=speech,
        length_ms=timeline.length_ms + ring_out_ms(),
        volume=_amplitude(volume),
    )


def ring_out_ms() -> int:
    """Return how long the end sound is heard after the last phase has ended."""
    return _length_ms(named.close())


def rest_track(
    rest_ms: int, *, cues: Iterable[CueSet] = (CueSet.TICK,), volume: int = LOUDEST
) -> Samples:
    """Return the sound of a rest: a notice 10 s before its end, where it is longer, and its end.

    Parameters
    ----------
    rest_ms
        Its length.
    cues
        As for a set; what the voice can say it says.
    volume
        1 to 10, in steps of 3 dB.

    Returns
    -------
    Samples
        float32, shape ``(n,)``, range [-1, 1].
    """
    is_spoken = CueSet.VOICE in set(cues)
    moments_ms = [rest_ms - REST_NOTICE_MS, rest_ms] if rest_ms > REST_NOTICE_MS else [rest_ms]
    words = [word("ten seconds"), word("next set")][-len(moments_ms) :]
    sounds = [named.notice(), named.call()][-len(moments_ms) :]
    return mix(
        () if is_spoken else zip(moments_ms, sounds, strict=True),
        speech=zip(moments_ms, words, strict=True) if is_spoken else (),
        length_ms=rest_ms + _REST_RING_MS,
        volume=_amplitude(volume),
    )


def _amplitude(volume: int) -> float:
    return float(10 ** (_STEP_DB * (volume - LOUDEST) / 20))


def _course(timeline: Timeline) -> tuple[tuple[float, float, int], ...]:
    return tuple(
        (span.height_at(0), span.height_at(span.lasts_ms), span.lasts_ms) for span in timeline.spans
    )


def _marks(timeline: Timeline, chosen: set[CueSet]) -> Iterator[tuple[int, Samples]]:
    if chosen == {CueSet.VOICE}:
        return
    ticks = CueSet.TICK in chosen and CueSet.VOICE not in chosen
    for cue in timeline.cues():
        if cue.kind is not CueKind.COUNT or ticks:
            yield cue.at_ms, _mark(cue)


def _mark(cue: Cue) -> Samples:
    if cue.span is None:
        return named.close() if cue.kind is CueKind.END else named.call()
    if cue.second is None:
        return _phase_sound(cue.span, twice=cue.last_rep)
    return named.step(cue.span.height_at((cue.second - 1) * 1000))


def _phase_sound(span: Span, *, twice: bool) -> Samples:
    if span.speed is Speed.FAST and span.phase is Phase.RAISE:
        return named.snap(twice=twice)
    if span.phase is Phase.LOWER:
        return named.fall(twice=twice)
    if span.phase is Phase.RAISE:
        return named.rise(twice=twice)
    return named.level(span.height_at(0), twice=twice)


def _length_ms(clip: Samples) -> int:
    return -(-len(clip) * 1000 // SAMPLE_RATE_HZ)
