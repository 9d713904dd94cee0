"""What is said and asked before the sets of a line are paced."""

from __future__ import annotations

from contextlib import suppress

from tempo_coach import bootstrap
from tempo_coach.bootstrap import Program
from tempo_coach.cli.overload_prompt import ask_overload
from tempo_coach.cli.plain_set import print_notes
from tempo_coach.cli.soreness_command import ask_soreness
from tempo_coach.core.history import History, fold
from tempo_coach.core.next_sets import NextSet
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.session_notes import SessionNotes
from tempo_coach.core.strength import LifterRecord
from tempo_coach.core.week_room import WeekRoom
from tempo_coach.errors import LogUnreadable


def prepare(
    made: Program, prescription: Prescription, typed: str | None, *, lifter: str, asks: bool
) -> WeekRoom | None:
    """Ask how sore the lifter is, say what speaks against the line, and have its load typed.

    Parameters
    ----------
    made
        Whose settings, log and last plan count.
    prescription, typed, asks
        As for `ask_overload`.
    lifter
        Who lifts.

    Returns
    -------
    WeekRoom or None
        What the limits leave of the week before the line; None where nothing says.

    Raises
    ------
    OutOfRange
        What the command line gives is not the load.
    click.UsageError
        The load has to be typed, and nobody is there to type it.
    """
    coach = made.coach
    if asks:
        ask_soreness(coach, _history(made), lifter=lifter)
    history, allowances = _history(made), coach.settings.allowances
    notes = SessionNotes(
        bootstrap.last_plan(made),
        lifter,
        history=history,
        at=coach.clock.wall(),
        allowances=allowances,
    )
    record = LifterRecord(lifter, recorded=history.maxes)
    strength = record.strength_for(prescription, allowances)
    ahead = NextSet(prescription, notes=notes.of(prescription, strength), room=notes.room)
    print_notes(ahead.warnings)
    ask_overload(prescription, strength, typed, allowances=allowances, asks=asks)
    return notes.room


def _history(made: Program) -> History:
    # A log that can't be read is told of when the set is saved, and stops no set before.
    with suppress(LogUnreadable):
        return made.coach.history()
    return fold(())
