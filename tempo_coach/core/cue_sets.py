"""Which sound says what: from a timeline to its track."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sounds_gen import named
from sounds_gen.mixing import lay_out
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples
from tempo_coach.core.tempo import Phase, Speed
from tempo_coach.core.timeline import Cue, CueKind, Span, Timeline

REST_NOTICE_MS = 10_000
"""How long before the end of a rest its notice sounds."""


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


def sounds() -> tuple[Sound, ...]:
    """Return every sound, in the order in which a set brings them."""
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
    )


def set_track(timeline: Timeline) -> Samples:
    """Return the sound of one whole set; behind the last phase the end sound rings out.

    Returns
    -------
    Samples
        float32, shape ``(n,)``, range [-1, 1]; sample 0 is the timeline's 0.
    """
    return lay_out(
        ((cue.at_ms, _tick(cue)) for cue in timeline.cues()),
        length_ms=timeline.length_ms + ring_out_ms(),
    )


def ring_out_ms() -> int:
    """Return how long the end sound is heard after the last phase has ended."""
    return _length_ms(named.close())


def rest_track(rest_ms: int) -> Samples:
    """Return the sound of a rest: a notice 10 s before its end, where it is longer, and its end.

    Returns
    -------
    Samples
        float32, shape ``(n,)``, range [-1, 1].
    """
    return lay_out(_rest_sounds(rest_ms), length_ms=rest_ms + _length_ms(named.call()))


def _rest_sounds(rest_ms: int) -> Iterator[tuple[int, Samples]]:
    if rest_ms > REST_NOTICE_MS:
        yield rest_ms - REST_NOTICE_MS, named.notice()
    yield rest_ms, named.call()


def _tick(cue: Cue) -> Samples:
    if cue.span is None:
        return named.close() if cue.kind is CueKind.END else named.call()
    if cue.kind is CueKind.PHASE:
        return _phase_sound(cue.span, twice=cue.last_rep)
    elapsed_ms = ((cue.second or 1) - 1) * 1000
    return named.step(cue.span.height_at(elapsed_ms))


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
