"""What the big display says: from a moment of the set to words and figures."""

from __future__ import annotations

from dataclasses import dataclass

from tempo_coach.core.running_set import RunningRest, RunningSet
from tempo_coach.core.tempo import Phase, Speed
from tempo_coach.core.timeline import Moment, Timeline
from tempo_coach.ui.canvas import Ink

_WORDS = {phase: phase.value.upper() for phase in Phase}
_SPEED_WORDS = {Speed.FAST: "FAST", Speed.OWN: "OWN SPEED", Speed.ASSISTED: "WITH HELP"}
_BY_OTHERS = "BY OTHERS"
_INKS = {
    Phase.LOWER: Ink.LOWER,
    Phase.PAUSE: Ink.PAUSE,
    Phase.RAISE: Ink.RAISE,
    Phase.TOP: Ink.TOP,
}
WIDEST_WORD = max(("READY", *_WORDS.values()), key=len)


@dataclass(frozen=True, slots=True)
class Sign:
    """One state of the display."""

    word: str = ""
    """The phase."""
    figure: str = ""
    """What is counted, or at what speed."""
    figure_room: str = ""
    """The widest figure that may follow at the same place, so that nothing changes its size."""
    aside: tuple[str, ...] = ()
    """Which rep it is, a line each, set to stand at the bottom."""
    aside_room: tuple[str, ...] = ()
    """The most that may follow there."""
    height: float | None = None
    """Where the bar should be, 0 at the bottom to 1 at the top; None where there is no bar."""
    ink: Ink = Ink.PLAIN


DONE_SIGN = Sign(word="DONE")


def ready_sign(timeline: Timeline) -> Sign:
    """Say that the set waits for its start, with the bar where a rep begins."""
    return Sign(word="READY", height=timeline.spans[0].height_at(0))


def pacing_sign(running: RunningSet, now_ms: int, *, number: int) -> Sign | None:
    """Say what is to be done now; None once the set is over.

    Parameters
    ----------
    running
        The set.
    now_ms
        The monotonic moment.
    number
        Which set of the prescription it is, shown until the first rep begins.
    """
    if running.is_over(now_ms):
        return None
    moment = running.moment(now_ms)
    if moment is None:
        return _countdown(running, now_ms, number)
    return _phase_sign(moment, running.timeline)


def rest_sign(rest: RunningRest, now_ms: int) -> Sign:
    """Say what is left of a rest, in whole seconds that have begun."""
    return Sign(
        figure=clock_text(-(-rest.left_ms(now_ms) // 1000)),
        figure_room=clock_text(rest.rest_ms // 1000),
    )


def since_sign(begun_ms: int, now_ms: int) -> Sign:
    """Say how long a rest without a prescribed end has lasted."""
    return Sign(figure=clock_text(max(now_ms - begun_ms, 0) // 1000), figure_room="00:00")


def clock_text(seconds: int) -> str:
    """Return whole seconds as ``2:05``."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def _countdown(running: RunningSet, now_ms: int, number: int) -> Sign:
    timeline = running.timeline
    left_ms = timeline.setup_ms - max(running.position_ms(now_ms), 0)
    return Sign(
        word="READY",
        figure=str(-(-left_ms // 1000)),
        figure_room=_digits(timeline.setup_ms),
        aside=("SET", f"{number}/{running.prescription.sets}"),
        aside_room=_aside_room(timeline),
        height=timeline.spans[0].height_at(0),
    )


def _phase_sign(moment: Moment, timeline: Timeline) -> Sign:
    span = moment.span
    is_last = moment.rep == timeline.reps and not timeline.open_ended
    count = str(moment.rep) if timeline.open_ended else f"{moment.rep}/{timeline.reps}"
    counted = max((s.lasts_ms for s in timeline.spans if s.speed is None), default=0)
    words = _BY_OTHERS if not span.counts else span.speed and _SPEED_WORDS[span.speed]
    return Sign(
        word="STOP" if span.is_stop else _WORDS[span.phase],
        figure=words or str(moment.second),
        figure_room="" if words else _digits(counted),
        aside=(*_aside_first(moment, is_last=is_last), "REP", count),
        aside_room=_aside_room(timeline),
        height=moment.height,
        ink=_INKS[span.phase],
    )


def _aside_first(moment: Moment, *, is_last: bool) -> tuple[str, ...]:
    if moment.side is not None:
        return (moment.side.value.upper(),)
    return ("LAST",) if is_last else ()


def _digits(length_ms: int) -> str:
    return "0" * len(str(-(-length_ms // 1000)))


def _aside_room(timeline: Timeline) -> tuple[str, ...]:
    count = str(timeline.reps) if timeline.open_ended else f"{timeline.reps}/{timeline.reps}"
    return ("LAST" if timeline.sides is None else "RIGHT", "REP", count)
