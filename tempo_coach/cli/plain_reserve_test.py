"""A reserve test paced line by line, attempt after attempt."""

from __future__ import annotations

import re
from decimal import Decimal

import click

from tempo_coach.cli.answers import ask, enter_within, say_unclear
from tempo_coach.cli.plain_set import PlainSets, meaning
from tempo_coach.cli.wrapping import wrapped
from tempo_coach.coach import Coach
from tempo_coach.core.bar_words import set_words
from tempo_coach.core.cue_sets import REST_NOTICE_MS
from tempo_coach.core.facts import SetDone
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.load_span import as_load
from tempo_coach.core.prescription import rest_text
from tempo_coach.core.reserve_result import attempt_words
from tempo_coach.core.reserve_test import ReserveTest, ahead_words, attempt_line, short_words
from tempo_coach.core.set_bar import BarBefore, bar_after, set_bar
from tempo_coach.errors import LogUnwritable, OutOfRange

_ANSWER = re.compile(
    r"(?P<said>h|held|l|lost)(?:\s+(?P<seconds>[0-9]{1,3}(?:[.,][0-9]{1,3})?)\s*s?)?", re.IGNORECASE
)
_ANSWER_FORMS = "h for held or l for lost, and the measured seconds if any, such as h 4.8"
_LONGEST_MEASURED_S = 120
_LATER = "what was done is logged, and --resume goes on with the test"


class PlainReserveTest:
    """Leads through a test on standard output.

    Parameters
    ----------
    coach
        Paces and logs.
    test
        As far as it went.
    rest_ms
        Between attempts.
    """

    def __init__(self, coach: Coach, test: ReserveTest, *, rest_ms: int) -> None:
        self.test = test
        self._coach = coach
        self._rest_ms = rest_ms
        self._rack = coach.settings.rack
        self._bar: BarBefore | None = None
        self._last: SetDone | None = None
        """What the last answer was about, for as long as it can be taken back."""

    def run(self, unanswered: SetDone | None) -> int:
        """Lead through what is left; returns 0, or 128 and the signal that stopped an attempt.

        Parameters
        ----------
        unanswered
            A set of this test that was logged, and left before the question.
        """
        if unanswered is not None and unanswered.load_kg is not None:
            click.echo(f"The attempt with {unanswered.load_kg:g} kg has no answer yet.")
            self._ask(unanswered)
        spells_out, is_tired = True, False
        while True:
            load_kg = self.test.next_kg(self._rack)
            if load_kg is None:
                if self._is_agreed():
                    return 0
                continue
            if is_tired:
                self._rest()
            is_tired = False
            chosen = self._ready(load_kg)
            if chosen is None:
                # Another answer may have changed what is next.
                continue
            if code := self._attempt(chosen, spells_out=spells_out):
                return code
            spells_out, is_tired = False, True

    def _attempt(self, chosen: Decimal, *, spells_out: bool) -> int:
        begun = self.test.begun
        line = attempt_line(begun.exercise, chosen, lower_s=begun.lower_s)
        heading = meaning(self._coach, line) if spells_out else ()
        sets = PlainSets(
            self._coach, line, lifter=begun.lifter, wait_for_start=None, heading=heading
        )
        code = sets.run()
        self._bar = bar_after(self._rack, exercise=begun.exercise, load=line.load, before=self._bar)
        if code == 0:
            self._ask(sets.done[-1])
        return code

    def _ready(self, load_kg: Decimal) -> Decimal | None:
        """Wait until the attempt is to start; None where an answer came in place of it."""
        while True:
            self._say_load(load_kg)
            back = "" if self._last is None else ", u takes the last answer back"
            answer = ask(
                f"Enter starts; or type another load, l where it could not be lifted out{back}:",
                without=_LATER,
            )
            match answer.lower():
                case "":
                    return load_kg
                case "l" if self._is_lost(load_kg):
                    self._last = None
                    self._take(*self._coach.reserve.lose(self.test, load_kg))
                    return None
                case "l":
                    continue
                case "u" if self._last is not None:
                    self._ask(self._last)
                    return None
            try:
                unit = LoadUnit(self._coach.settings.unit)
                load_kg = self.test.read_load(answer, unit=unit)
            except OutOfRange as fault:
                click.echo(f"{fault}", err=True)

    def _is_lost(self, load_kg: Decimal) -> bool:
        said = f"{as_load(load_kg)} could not be lifted out: that ends the test. Type l once more:"
        return ask(said, without=_LATER).lower() == "l"

    def _say_load(self, load_kg: Decimal) -> None:
        said = f"{ahead_words(self.test, load_kg)}{self._on_bar(as_load(load_kg))}"
        click.echo(wrapped(said, indent="  "))

    def _on_bar(self, load: Load) -> str:
        if not self._coach.settings.show_discs:
            return ""
        exercise = self.test.begun.exercise
        found = set_bar(self._rack, exercise=exercise, load=load, before=self._bar)
        return "" if found is None else f"; on a bar: {set_words(found)}"

    def _ask(self, done: SetDone) -> None:
        while True:
            answer = ask(f"Held under control, or lost? {_ANSWER_FORMS}:", without=_LATER)
            found = _ANSWER.fullmatch(answer)
            lowered_s = None
            if found is not None and found["seconds"]:
                lowered_s = float(found["seconds"].replace(",", "."))
            if found is not None and (lowered_s or 0) <= _LONGEST_MEASURED_S:
                break
            say_unclear(answer, allowed=_ANSWER_FORMS)
        said = found["said"][0].lower() == "h"
        test, fault = self._coach.reserve.answer(self.test, done, said=said, lowered_s=lowered_s)
        if said and lowered_s is not None and not test.attempts[-1].held:
            click.echo(short_words(lowered_s, test.begun.lower_s))
        self._last = done
        self._take(test, fault)

    def _take(self, test: ReserveTest, fault: LogUnwritable | None) -> None:
        self.test = test
        click.echo(attempt_words(test.attempts[-1]))
        _say_unsaved(fault)

    def _is_agreed(self) -> bool:
        """Let the answer that ends the test be taken back."""
        if self._last is None:
            return True
        answer = ask("Enter ends the test; u takes the last answer back:", without=_LATER)
        if answer.lower() == "u":
            self._ask(self._last)
            return False
        return True

    def _rest(self) -> None:
        rest = self._coach.start_rest(self._rest_ms)
        click.echo(f"rest {rest_text(self._rest_ms)}; Enter ends it")
        over_ms = rest.zero_ms + self._rest_ms
        try:
            for until_ms, said in ((over_ms - REST_NOTICE_MS, "10 s left"), (over_ms, "rest over")):
                left_ms = until_ms - self._coach.clock.now_ms()
                if left_ms <= 0:
                    continue
                if enter_within(left_ms / 1000):
                    return
                self._coach.clock.sleep_until_ms(until_ms)
                click.echo(said)
        finally:
            self._coach.silence()


def _say_unsaved(fault: LogUnwritable | None) -> None:
    if fault is not None:
        click.echo(f"not saved yet: {fault}", err=True)
