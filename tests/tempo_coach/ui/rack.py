"""The app with a hand-set clock, a recording player and a log in memory."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager
from datetime import date, datetime
from itertools import count
from typing import TypeVar

from textual import events
from textual.message import Message
from textual.pilot import Pilot
from textual.screen import Screen
from textual.widget import Widget

from tempo_coach.coach import Coach
from tempo_coach.core.facts import SetDone
from tempo_coach.core.settings import Settings
from tempo_coach.errors import SoundUnavailable, TempoCoachError
from tempo_coach.ui.app import TempoCoachApp
from tempo_coach.ui.big_display import BigDisplay
from tempo_coach.ui.desk import Desk, OpenPlan
from tempo_coach.ui.set_screen import SetScreen
from tests.tempo_coach.fakes import NOON, HandClock, MemoryLog, RecordingPlayer

LINE = "front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00"
TODAY = NOON.date()
SETUP_MS = 10_000
REP_MS = 7_000
SET_MS = SETUP_MS + 5 * REP_MS
A_MOMENT_MS = 1_500
"""Long enough for a press to be one of its own."""

_QUIET_ROUNDS = 5
"""Turns of the event loop without a message, more than one takes from its sender to its handler."""

WidgetType = TypeVar("WidgetType", bound=Widget)


class Rack:
    """An app and what it was given."""

    def __init__(
        self,
        line: str = LINE,
        *,
        lifter: str | None = "Ana",
        notices: tuple[str, ...] = (),
        show_cautions: bool = False,
        sound_fault: SoundUnavailable | None = None,
        keep_fault: TempoCoachError | None = None,
        settings: Settings | None = None,
        plan: OpenPlan | None = None,
        is_silent: bool = False,
        sources: Mapping[str, str] | None = None,
        given_outside: frozenset[str] = frozenset(),
        sound_checked_on: date | None = TODAY,
        asks_soreness: bool = False,
        begins: datetime = NOON,
    ) -> None:
        self.clock = HandClock(begins=begins)
        self.player = RecordingPlayer(fault=sound_fault)
        self.log = MemoryLog()
        self.kept: list[str] = []
        self._keep_fault = keep_fault
        numbers = count(1)
        self.coach = Coach(
            log=self.log,
            rescue=MemoryLog("rescue"),
            player=self.player,
            clock=self.clock,
            new_id=lambda: f"set-{next(numbers)}",
            settings=(settings or Settings()).model_copy(update={"soreness_check": asks_soreness}),
        )
        self.app = TempoCoachApp(
            Desk(
                coach=self.coach,
                lifter=lifter,
                line=line,
                plan=plan,
                notices=notices,
                show_cautions=show_cautions,
                is_silent=is_silent,
                sources=sources or {},
                given_outside=given_outside,
                sound_checked_on=sound_checked_on,
                keep_setting=lambda key, value: self._keep(f"{key} = {value}"),
                keep_sound_checked=lambda day: self._keep(f"sound checked on {day}"),
                keep_cautions_shown=lambda: self._keep("cautions shown"),
            )
        )
        self.pilot: Pilot[int]
        self._messages = 0

    @asynccontextmanager
    async def running(self, *, columns: int = 80, rows: int = 24) -> AsyncIterator[Rack]:
        size = (columns, rows)
        async with self.app.run_test(size=size, message_hook=self._count) as self.pilot:
            await self.settle()
            yield self

    @asynccontextmanager
    async def at_the_rack(self, *, columns: int = 80, rows: int = 24) -> AsyncIterator[Rack]:
        async with self.running(columns=columns, rows=rows):
            await self.press("enter")
            self.clock.advance(A_MOMENT_MS)
            yield self

    async def settle(self) -> None:
        """Wait until no message follows from another and every thread has answered."""
        await self.handle_messages()
        while list(self.app.workers):
            await self.app.workers.wait_for_complete()
            await self.handle_messages()

    async def handle_messages(self) -> None:
        """Wait until no message follows from another, whatever threads are still at work.

        The pilot's pause sees handlers that are not done, but sends a message to every widget and
        takes most of a test's time where it is asked for each of a chain; its own way to the end of
        a chain is to wait until the processor seems idle, 20 ms of real time a look.
        """
        before = -1
        while before != self._messages:
            await self._pass_messages()
            before = self._messages
            await self.pilot.pause(0)
            await self._pass_messages()

    async def send(self, *keys: str) -> None:
        """Press keys one after another, whatever threads are still at work."""
        for key in keys:
            self._post(key)
            await self.handle_messages()

    async def press(self, *keys: str) -> None:
        for key in keys:
            self._post(key)
            await self.settle()

    async def press_at_once(self, *keys: str) -> None:
        """Press keys so fast that none is through before the last."""
        for key in keys:
            self._post(key)
        await self.settle()

    async def write(self, text: str) -> None:
        for character in text:
            self._post("space" if character == " " else character)
        await self.settle()

    async def wait(self, ms: int) -> None:
        self.clock.advance(ms)
        if isinstance(self.app.screen, SetScreen):
            self.app.screen.follow_clock()
        await self.settle()

    async def do_set(self) -> None:
        await self.wait(A_MOMENT_MS)
        await self.press("space")
        await self.wait(SET_MS)

    @property
    def screen(self) -> Screen[object]:
        return self.app.screen

    @property
    def set_screen(self) -> SetScreen:
        assert isinstance(self.app.screen, SetScreen)
        return self.app.screen

    @property
    def display(self) -> BigDisplay:
        return self.get(BigDisplay)

    def get(self, kind: type[WidgetType], selector: str | None = None) -> WidgetType:
        if selector is None:
            return self.app.screen.query_one(kind)
        return self.app.screen.query_one(selector, kind)

    def lines(self) -> list[str]:
        """What stands in the window, a text a row."""
        strips = self.app.screen._compositor.render_strips()
        return [strip.text.rstrip() for strip in strips]

    def text(self) -> str:
        """What stands in the window, in one run of words."""
        return " ".join(" ".join(self.lines()).split())

    def sets(self) -> list[SetDone]:
        return [fact for fact in self.log.facts if isinstance(fact, SetDone)]

    async def _pass_messages(self) -> None:
        quiet_rounds = 0
        while quiet_rounds < _QUIET_ROUNDS:
            before = self._messages
            await asyncio.sleep(0)
            quiet_rounds = quiet_rounds + 1 if self._messages == before else 0

    def _post(self, key: str) -> None:
        self.app.post_message(events.Key(key, " " if key == "space" else None))

    def _count(self, message: Message) -> None:
        # Callbacks are what a pause itself sends, and timers go by real time.
        if not isinstance(message, events.Callback | events.Timer):
            self._messages += 1

    def _keep(self, what: str) -> None:
        if self._keep_fault is not None:
            raise self._keep_fault
        self.kept.append(what)
