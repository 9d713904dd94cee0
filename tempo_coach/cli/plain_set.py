"""A set paced line by line, for screen readers, scripts and pipes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import click

from tempo_coach.cli.stop_signals import Stopped, StopSignals
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.coach import Coach
from tempo_coach.core.bar_words import set_words
from tempo_coach.core.cue_sets import REST_NOTICE_MS, ring_out_ms
from tempo_coach.core.facts import SetDone
from tempo_coach.core.prescription import Prescription, rest_text
from tempo_coach.core.reading import cue_words, spell_out
from tempo_coach.core.running_set import RunningSet
from tempo_coach.core.set_bar import set_bar
from tempo_coach.core.tempo import seconds_text
from tempo_coach.core.timeline import Cue, CueKind, Timeline
from tempo_coach.core.week_room import WeekRoom
from tempo_coach.core.weeks import allowed_times
from tempo_coach.errors import LogUnwritable


class PlainSets:
    """Paces all sets of a line on standard output.

    Parameters
    ----------
    coach
        Paces and logs.
    prescription
        What is to be done.
    lifter
        Whose log it is.
    wait_for_start
        Told which set is next, returns when the lifter is ready for it; None starts at once.
    heading
        What is said first, a sentence each.
    room
        What the limits leave of the week; None where nothing says.
    """

    def __init__(
        self,
        coach: Coach,
        prescription: Prescription,
        *,
        lifter: str,
        wait_for_start: Callable[[str], None] | None,
        heading: Sequence[str] = (),
        room: WeekRoom | None = None,
    ) -> None:
        self.done: list[SetDone] = []
        """The sets that were logged."""
        self._coach = coach
        self._prescription = prescription
        self._lifter = lifter
        self._wait_for_start = wait_for_start
        self._heading = heading
        self._room = room
        self._signals = StopSignals()
        self._said_silent = False

    def run(self) -> int:
        """Pace every set; returns 0, or 128 and the number of the signal that stopped it."""
        for sentence in self._heading:
            click.echo(sentence)
        with self._signals.held():
            try:
                for number in range(1, self._prescription.sets + 1):
                    self._set(number)
                    if number < self._prescription.sets:
                        self._warn()
                        self._rest()
            except Stopped:
                return self._signals.exit_code
            finally:
                self._coach.silence()
        return 0

    def _set(self, number: int) -> None:
        if self._wait_for_start is not None:
            with self._signals.waiting():
                self._wait_for_start(f"set {number} of {self._prescription.sets}")
        running, silent = self._coach.start_set(self._prescription, lifter=self._lifter)
        if silent is not None and not self._said_silent:
            click.echo(f"no sound: {silent}", err=True)
            self._said_silent = True
        try:
            for cue in running.timeline.cues():
                if said := _words(cue, running.timeline):
                    self._wait_until(running.zero_ms + cue.at_ms)
                    click.echo(said)
            self._wait_until(running.zero_ms + running.timeline.length_ms)
        finally:
            self._save(running)
        if self._prescription.rest_ms is None or number == self._prescription.sets:
            self._wait_until(running.zero_ms + running.timeline.length_ms + ring_out_ms())

    def _save(self, running: RunningSet) -> None:
        done, fault = self._coach.end_set(running)
        if done is None:
            click.echo("stopped before the first rep: nothing was lifted, nothing is logged")
            return
        self.done.append(done)
        click.echo(_result(done, fault))
        if fault is not None:
            click.echo(f"not saved yet: {fault}", err=True)

    def _warn(self) -> None:
        """Say what speaks against the next set after what was done."""
        if self._room is not None:
            print_notes(self._room.before_set(self._prescription, done=self.done))

    def _rest(self) -> None:
        rest_ms = self._prescription.rest_ms
        if rest_ms is None:
            return
        rest = self._coach.start_rest(rest_ms)
        click.echo(f"rest {rest_text(rest_ms)}")
        if rest_ms > REST_NOTICE_MS:
            self._wait_until(rest.zero_ms + rest_ms - REST_NOTICE_MS)
            click.echo("10 s left")
        self._wait_until(rest.zero_ms + rest_ms)
        click.echo("rest over")

    def _wait_until(self, moment_ms: int) -> None:
        with self._signals.waiting():
            self._coach.clock.sleep_until_ms(moment_ms)


def print_notes(notes: Iterable[str]) -> None:
    """Print what speaks against a set, beside what is paced."""
    for note in notes:
        click.echo(wrapped(f"note: {note}", indent="    "), err=True)


def meaning(coach: Coach, prescription: Prescription) -> tuple[str, ...]:
    """Return what a line means, a sentence each.

    Raises
    ------
    OutOfRange
        The set is too long.
    """
    return spell_out(prescription, coach.timeline(prescription))


def bar_sentence(coach: Coach, prescription: Prescription) -> tuple[str, ...]:
    """Return what goes on the bar; nothing where that can't be said, or is not to be."""
    settings = coach.settings
    if not settings.show_discs:
        return ()
    found = set_bar(settings.rack, exercise=prescription.exercise, load=prescription.load)
    return () if found is None else (wrapped(f"On the bar: {set_words(found)}."),)


def _words(cue: Cue, timeline: Timeline) -> str:
    """Return what is said at a cue: ready and phases; counted seconds would drown them."""
    if cue.kind is CueKind.READY:
        return cue_words(cue)
    if cue.kind is not CueKind.PHASE:
        return ""
    of = "" if timeline.open_ended else f" of {timeline.reps}"
    last = ", last rep" if cue.last_rep else ""
    return f"rep {cue.rep}{of}{last}: {cue_words(cue)}"


def _result(done: SetDone, fault: LogUnwritable | None) -> str:
    times, allowed = done.seconds.times(), allowed_times(done)
    of = "" if done.reps_prescribed is None else f" of {done.reps_prescribed}"
    return (
        f"{'saved' if fault is None else 'kept in memory'}: {done.reps_done}{of} reps, "
        f"lowering {_seconds(times.lower_ms, allowed.lower_ms)}, "
        f"tension {_seconds(times.tension_ms, allowed.tension_ms)}, id {done.id}"
    )


def _seconds(length_ms: int, allowed_ms: int) -> str:
    return f"{'about ' if allowed_ms else ''}{seconds_text(length_ms)} s"
