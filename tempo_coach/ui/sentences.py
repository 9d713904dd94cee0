"""What the set screen says about sets that were done, in sentences."""

from __future__ import annotations

from tempo_coach.core.facts import SetDone
from tempo_coach.core.legible import legible
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.reading import spell_out
from tempo_coach.core.rep_shape import RepShape
from tempo_coach.core.tempo import Speed, Tempo, seconds_text
from tempo_coach.core.timeline import Timeline
from tempo_coach.core.work import PhaseTimes, added
from tempo_coach.errors import SoundUnavailable, TempoCoachError
from tempo_coach.ui.course import Course
from tempo_coach.ui.underway import Measured

LOST_SOUND = "The sound has stopped: the device no longer plays. The set goes on by the screen."


def fault_sentences(fault: TempoCoachError) -> tuple[str, ...]:
    """Say what was wrong, and in a second sentence what is allowed."""
    said = (fault.message, fault.hint) if fault.hint else (fault.message,)
    return tuple(f"{_capital(legible(words))}." for words in said)


def fault_sentence(fault: TempoCoachError) -> str:
    """Say both on one line."""
    return " ".join(fault_sentences(fault))


def opening_sentences(first: NextSet, timeline: Timeline, taps: str) -> tuple[str, ...]:
    """Say where the work leaves its range, and what is to be done; the heading names it."""
    outside = "; ".join(dict.fromkeys(flag.what for flag in first.flags))
    remarks = (f"To be thought over: {outside}.",) if outside else ()
    spelt_out = spell_out(first.prescription, timeline)[1:]
    return (*remarks, *spelt_out, *tap_sentences(taps))


def saved_sentence(done: SetDone | None, fault: TempoCoachError | None) -> str:
    """Say what became of a set that has ended."""
    if done is None:
        return "Nothing was lifted, nothing is logged."
    if fault is None:
        return f"Saved: {_done_words(done)}."
    return f"{_capital(_done_words(done))}. {kept_sentence(fault)}"


def measured_sentences(measured: Measured) -> tuple[str, ...]:
    """Say what a set is by its taps."""
    done, fault = measured.done, measured.fault
    said = f"{_capital(_done_words(done))}. {kept_sentence(fault)}" if fault else ""
    if not said:
        said = f"{'Saved' if done.timing == 'paced' else 'Measured'}: {_done_words(done)}."
    return said, *measured.said


def tap_sentences(taps: str) -> tuple[str, ...]:
    """Say when a partner taps; nothing where nobody does."""
    if taps == "off":
        return ()
    when = "as each phase begins and as the last one ends"
    if taps == "turns":
        when = "as the first phase begins, and as the bar comes to the bottom and to the top"
    return (f"The partner taps Enter or Page Up {when}: what is seen, not what is heard.",)


def corrected_sentence(done: SetDone, fault: TempoCoachError | None) -> str:
    """Say what a set is after a correction."""
    if fault is None:
        return f"Corrected: {_done_words(done)}."
    return f"{_capital(_done_words(done))}. {kept_sentence(fault)}"


def struck_sentence(fault: TempoCoachError | None) -> str:
    """Say that a set no longer counts."""
    if fault is None:
        return "Struck: the set no longer counts."
    return f"The set no longer counts. {kept_sentence(fault)}"


def kept_sentence(fault: TempoCoachError) -> str:
    """Say that something is safe, but not on the disk yet."""
    return f"Kept in memory, not yet on the disk. {fault_sentence(fault)}"


def total_sentence(course: Course) -> str:
    """Say what all sets come to, those done since the screen was opened."""
    sets = course.prescription.sets
    reps = sum(done.reps_done for done in course.done)
    times = added(done.seconds.times() for done in course.done)
    all_sets = f"All {sets} sets done" if sets > 1 else "The set is done"
    if (count := len(course.done)) < sets:
        all_sets += f", {count} of them now"
    shown = _times_words(times, course.prescription.tempo, course.prescription.shape)
    return f"{all_sets}: {_reps_words(reps)}, {shown}."


def next_words(ahead: NextSet, *, rest_is_over: bool) -> str:
    """Name the set that comes next, behind where the rest stands."""
    prescription = ahead.prescription
    load = "" if prescription.load is None else f" {prescription.load}"
    return (
        f"{'Rest is over' if rest_is_over else 'Rest'} · next: "
        f"set {ahead.number} of {prescription.sets}, "
        f"{legible(prescription.exercise)}{load} {prescription.tempo}"
    )


def count_words(course: Course) -> str:
    """Say which set is at hand."""
    return f"set {course.number} of {course.prescription.sets}"


def start_words(number: int, setup_ms: int) -> str:
    """Say what starts a set."""
    return (
        f"Space or Page Down starts set {number}; "
        f"the first rep begins {seconds_text(setup_ms)} s later."
    )


def no_sound_sentence(fault: SoundUnavailable) -> str:
    """Say that nothing is heard, and why."""
    return f"No sound. {fault_sentence(fault)}"


def without_sound_sentence(fault: SoundUnavailable) -> str:
    """Say that a set goes on by the screen alone."""
    return f"{no_sound_sentence(fault)} The set goes on by the screen."


def _done_words(done: SetDone) -> str:
    reps = _reps_words(done.reps_done)
    if done.reps_prescribed is not None:
        reps = f"{done.reps_done} of {_reps_words(done.reps_prescribed)}"
    times = done.seconds.times()
    if done.timing != "paced":
        return f"{reps}, {_exact_words(times)}"
    return f"{reps}, {_times_words(times, done.tempo, done.shape)}"


def _reps_words(count: int) -> str:
    return f"{count} rep{'' if count == 1 else 's'}"


def _times_words(times: PhaseTimes, tempo: Tempo, shape: RepShape) -> str:
    """Name lowering and tension; what rests on an allowance says so."""
    about_lower = "about " if isinstance(tempo.lower, Speed) else ""
    allowed = [phase for phase, slot in tempo.slots().items() if isinstance(slot, Speed)]
    about = "about " if any(map(shape.counts, allowed)) else ""
    return (
        f"lowering {about_lower}{_tenths(times.lower_ms)} s, "
        f"tension {about}{_tenths(times.tension_ms)} s"
    )


def _exact_words(times: PhaseTimes) -> str:
    return f"lowering {_tenths(times.lower_ms)} s, tension {_tenths(times.tension_ms)} s"


def _tenths(length_ms: int) -> str:
    return f"{length_ms / 1000:.1f}".removesuffix(".0")


def _capital(sentence: str) -> str:
    return sentence[:1].upper() + sentence[1:]
