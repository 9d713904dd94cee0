"""A prescription spelt out in words."""

from __future__ import annotations

from tempo_coach.core.legible import legible
from tempo_coach.core.prescription import Prescription, rest_text
from tempo_coach.core.tempo import Phase, Speed, seconds_text
from tempo_coach.core.timeline import Cue, Span, Timeline

_VERBS = {
    Phase.LOWER: "lower",
    Phase.PAUSE: "pause at the bottom",
    Phase.RAISE: "raise",
    Phase.TOP: "stay at the top",
}
_SPEEDS = {
    Speed.FAST: "as fast as possible",
    Speed.OWN: "at your own speed",
    Speed.ASSISTED: "with the spotters' help",
}


def spell_out(prescription: Prescription, timeline: Timeline) -> tuple[str, ...]:
    """Return what a line means, a sentence each: the rep, the work, the length, the rest.

    Numbers that rest on an allowance for X, V or A say so.
    """
    times = timeline.done_by(timeline.length_ms).times
    about = "about " if any(span.speed for span in timeline.spans) else ""
    lower_about = "about " if prescription.tempo.lower in set(Speed) else ""
    rep = f"A rep: {', '.join(_span_words(span) for span in timeline.spans)}."
    if timeline.open_ended:
        length = (
            f"Each rep {about}{seconds_text(timeline.rep_ms)} s, until you stop, "
            f"at most {timeline.reps} reps."
        )
    else:
        length = (
            f"A set: {about}{_length_text(timeline.lifting_ms)} of lifting, "
            f"{about}{seconds_text(timeline.rep_ms)} s a rep; "
            f"lowering {lower_about}{seconds_text(times.lower_ms)} s, "
            f"tension {about}{seconds_text(times.tension_ms)} s."
        )
    sentences = [_work_words(prescription), rep, length]
    if prescription.rest_ms is not None and prescription.sets > 1:
        sentences.append(f"Rest {rest_text(prescription.rest_ms)} between sets.")
    if about:
        sentences.append(f"'About': {_allowance_words(timeline)}, counted by allowance.")
    return tuple(sentences)


def headline(prescription: Prescription) -> str:
    """Return exercise, load and tempo, as they stand above a set."""
    load = "" if prescription.load is None else f"{prescription.load} · "
    return f"{legible(prescription.exercise)} · {load}{prescription.tempo}"


def cue_words(cue: Cue) -> str:
    """Return what a cue tells, such as ``ready 3``, ``lower 4 s`` or ``lower, second 2``."""
    if cue.span is None:
        return "end: rack it" if cue.second is None else f"ready {cue.second}"
    if cue.second is not None:
        return f"{cue.span.phase}, second {cue.second}"
    speed = f"{cue.span.speed} " if cue.span.speed else ""
    return f"{cue.span.phase} {speed}{seconds_text(cue.span.lasts_ms)} s"


def _work_words(prescription: Prescription) -> str:
    sets = f"{prescription.sets} set{'s' if prescription.sets > 1 else ''}"
    if prescription.reps is None:
        reps = "as many reps as you choose"
    else:
        reps = f"{prescription.reps} rep{'s' if prescription.reps > 1 else ''}"
    load = "" if prescription.load is None else f" with {prescription.load}"
    return f"{legible(prescription.exercise)}: {sets} of {reps}{load}, {prescription.lead} first."


def _span_words(span: Span) -> str:
    if span.speed is not None:
        return f"{_VERBS[span.phase]} {_SPEEDS[span.speed]}"
    return f"{_VERBS[span.phase]} {seconds_text(span.lasts_ms)} s"


def _length_text(length_ms: int) -> str:
    if length_ms < 60_000:
        return f"{seconds_text(length_ms)} s"
    minutes, rest_ms = divmod(length_ms, 60_000)
    return f"{minutes} min {seconds_text(rest_ms)} s" if rest_ms else f"{minutes} min"


def _allowance_words(timeline: Timeline) -> str:
    allowed = {
        span.speed: f"{span.speed} as {seconds_text(span.lasts_ms)} s"
        for span in timeline.spans
        if span.speed is not None
    }
    return " and ".join(allowed.values())
