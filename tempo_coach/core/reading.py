"""A prescription spelt out in words."""

from __future__ import annotations

from collections.abc import Iterator

from tempo_coach.core.legible import legible
from tempo_coach.core.prescription import Prescription, rest_text
from tempo_coach.core.rep_shape import RepShape, Sides
from tempo_coach.core.tempo import Phase, Speed, seconds_text
from tempo_coach.core.timeline import Cue, Span, Timeline

_VERBS = {
    Phase.LOWER: "lower",
    Phase.PAUSE: "pause at the bottom",
    Phase.RAISE: "raise",
    Phase.TOP: "stay at the top",
}
_BY_OTHERS = {Phase.LOWER: "down without you", Phase.RAISE: "the spotters raise it"}
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
    tension_about = "about " if any(s.speed and s.counts for s in timeline.spans) else ""
    lower_about = "about " if prescription.tempo.lower in set(Speed) else ""
    rep = f"A rep: {', '.join(_span_words(span) for span in timeline.spans)}."
    rep = " ".join([rep, *_shape_sentences(prescription.shape)])
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
            f"tension {tension_about}{seconds_text(times.tension_ms)} s."
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
    shape = f" · {prescription.shape}" if prescription.shape else ""
    return f"{legible(prescription.exercise)} · {load}{prescription.tempo}{shape}"


def cue_words(cue: Cue) -> str:
    """Return what a cue tells, such as ``ready 3``, ``lower 4 s`` or ``lower, second 2``."""
    if cue.span is None:
        return "end: rack it" if cue.second is None else f"ready {cue.second}"
    phase = "stop" if cue.span.is_stop else cue.span.phase.value
    if cue.second is not None:
        return f"{phase}, second {cue.second}"
    side = f"{cue.side}, " if cue.side else ""
    others = "" if cue.span.counts else "by others "
    speed = f"{cue.span.speed} " if cue.span.speed else ""
    return f"{side}{phase} {others}{speed}{seconds_text(cue.span.lasts_ms)} s"


def _work_words(prescription: Prescription) -> str:
    sets = f"{prescription.sets} set{'s' if prescription.sets > 1 else ''}"
    if prescription.reps is None:
        reps = "as many reps as you choose"
    else:
        reps = f"{prescription.reps} rep{'s' if prescription.reps > 1 else ''}"
    load = "" if prescription.load is None else f" with {prescription.load}"
    return f"{legible(prescription.exercise)}: {sets} of {reps}{load}, {prescription.lead} first."


def _shape_sentences(shape: RepShape) -> Iterator[str]:
    """Yield what the rep is beyond its phases, a sentence each."""
    if shape.only is not None:
        back = "raise" if shape.only is Phase.LOWER else "lower"
        yield f"The {back} is not your work, and its time is not counted."
    if shape.sides is Sides.ALTERNATING:
        yield "The sides take turns, left first."
    elif shape.sides is Sides.ONE_DOWN:
        yield "Raise with both sides, lower with one, left first."
    if (lowered := shape.lower_load) is not None:
        when = "In the first rep lower" if lowered.first_rep_only else "Lower"
        yield f"{when} with {lowered.load}; what is more than the load comes off at the bottom."


def _span_words(span: Span) -> str:
    verb = "stop" if span.is_stop else _VERBS[span.phase]
    if not span.counts:
        verb = _BY_OTHERS[span.phase]
        return verb if span.speed is Speed.ASSISTED else f"{verb} {_length(span)}"
    return f"{verb} {_length(span)}"


def _length(span: Span) -> str:
    return f"{seconds_text(span.lasts_ms)} s" if span.speed is None else _SPEEDS[span.speed]


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
