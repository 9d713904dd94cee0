"""What is spoken during a set, and at which moment."""

from __future__ import annotations

from collections.abc import Iterator

from sounds_gen.voice.words import HIGHEST_IN_ONE_CLIP, Spoken, number, word
from tempo_coach.core.settings import CountDirection
from tempo_coach.core.tempo import Phase
from tempo_coach.core.timeline import Cue, CueKind, Timeline

_NUMBER_MS = 450
_LONG_NUMBER_MS = 600
"""Room for a spoken number up to 30, and above, and for the ear to part it from the next word."""
_ROOMY_MS = 1_000
"""Of a raise: long enough for its name and for the rep's number."""


def spoken_cues(timeline: Timeline, *, count: CountDirection) -> Iterator[tuple[int, Spoken]]:
    """Yield all that the voice says in a set, in the order of time.

    Each phase's name at its start, or the side whose turn it is, then its seconds; the rep's number
    as the bar comes to the top, which takes the place of a second that would fall together with
    it; "last rep" in place of the name of that rep's first phase.
    """
    numbers = dict(rep_numbers(timeline))
    said = dict(numbers)
    for cue in timeline.cues():
        nearest_ms = min(abs(cue.at_ms - at_ms) for at_ms in _around(cue, timeline))
        is_crowded = nearest_ms == 0 or (cue.kind is CueKind.COUNT and nearest_ms < _NUMBER_MS)
        if cue.last_rep or not is_crowded:
            said[cue.at_ms] = _words(cue, count=count)
    yield from sorted(said.items(), key=lambda one: one[0])


def rep_numbers(timeline: Timeline) -> Iterator[tuple[int, Spoken]]:
    """Yield the number of each rep as the bar comes to the top, in the order of time."""
    for rep in range(1, timeline.reps + 1):
        yield _number_ms(timeline, rep), number(rep)


def _around(cue: Cue, timeline: Timeline) -> tuple[int, ...]:
    """Return the moments of the numbers in the rep of a cue and in those beside it."""
    rep = cue.rep or (1 if cue.kind is CueKind.READY else timeline.reps)
    return tuple(
        _number_ms(timeline, one) for one in (rep - 1, rep, rep + 1) if 1 <= one <= timeline.reps
    )


def _number_ms(timeline: Timeline, rep: int) -> int:
    """Return the moment at which a rep's number is said."""
    begins_ms = timeline.setup_ms + (rep - 1) * timeline.rep_ms
    by_phase = {span.phase: span for span in timeline.spans}
    if (top := by_phase.get(Phase.TOP)) is not None:
        # A long top keeps its name, and the number comes a second later.
        return begins_ms + top.starts_ms + (1000 if top.lasts_ms >= 2000 else 0)
    if (raised := by_phase.get(Phase.RAISE)) is None:
        return begins_ms
    if raised.lasts_ms < _ROOMY_MS:
        return begins_ms + raised.starts_ms
    room_ms = _NUMBER_MS if rep <= HIGHEST_IN_ONE_CLIP else _LONG_NUMBER_MS
    return begins_ms + raised.starts_ms + raised.lasts_ms - room_ms


def _words(cue: Cue, *, count: CountDirection) -> Spoken:
    if cue.kind is CueKind.END:
        return word("rack it")
    if cue.span is None:
        return number(cue.second or 1)
    if cue.second is None:
        return word("last rep" if cue.last_rep else (cue.side or cue.span.phase).value)
    if count == "up":
        return number(cue.second)
    left_ms = cue.span.lasts_ms - (cue.second - 1) * 1000
    return number(-(-left_ms // 1000))
