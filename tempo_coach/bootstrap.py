"""Picks the adapters and puts the program together; nothing else knows them all."""

from __future__ import annotations

import secrets
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from tempo_coach.clock import SystemClock
from tempo_coach.coach import Coach
from tempo_coach.core.facts import line_of
from tempo_coach.core.ports import Clock, Log, Player
from tempo_coach.core.settings import Settings
from tempo_coach.storage import places
from tempo_coach.storage.log_file import LogFile
from tempo_coach.storage.plan_file import PlanFile
from tempo_coach.storage.plan_table import TableFile
from tempo_coach.storage.remembered import Memory, Remembered
from tempo_coach.storage.settings_file import SettingsFile

if TYPE_CHECKING:
    from tempo_coach.ui.app import TempoCoachApp


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the command line asks for; None leaves it to the settings."""

    log_path: Path | None = None
    lifter: str | None = None
    setup_s: float | None = None
    is_silent: bool = False


@dataclass(frozen=True, slots=True)
class Program:
    """The program, put together."""

    coach: Coach
    lifter: str | None
    """None where it must be asked for."""
    notices: tuple[str, ...]
    """What to say at the start."""
    keep_lifter: Callable[[str], None]
    """Keeps the lifter's name; raises `SettingsProblem` where the settings can't be changed."""
    memory: Memory


def log_file(path: Path | None, *, must_exist: bool = False) -> Log:
    """Return a log; None is the user's own."""
    return LogFile(path or places.log_path(), must_exist=must_exist)


def plan_file(path: Path) -> PlanFile:
    """Return a plan's file."""
    return PlanFile(path)


def table_file(path: Path) -> TableFile:
    """Return the file of a coach's table."""
    return TableFile(path)


def program(wishes: Wishes) -> Program:
    """Put the program together as the command line and the settings ask."""
    file = SettingsFile(places.settings_path())
    settings, problems = file.read()
    if wishes.setup_s is not None:
        settings = settings.model_copy(update={"setup_s": wishes.setup_s})
    return Program(
        coach=_coach(wishes.log_path, player(is_silent=wishes.is_silent), settings),
        lifter=wishes.lifter or settings.lifter,
        notices=tuple(str(problem) for problem in problems),
        keep_lifter=partial(file.keep, "lifter"),
        memory=Memory(places.memory_path()),
    )


@contextmanager
def demo_program(*, is_silent: bool) -> Iterator[Program]:
    """Yield the program on an invented log in a temporary folder."""
    from tempo_coach.core import demo

    settings, _ = SettingsFile(places.settings_path()).read()
    with tempfile.TemporaryDirectory(prefix="tempo-coach-demo-") as folder:
        path = Path(folder) / "log.jsonl"
        path.write_bytes(b"".join(map(line_of, demo.demo_facts(SystemClock().wall()))))
        yield Program(
            coach=_coach(path, player(is_silent=is_silent), settings),
            lifter=demo.LIFTER,
            notices=("This is the demo: invented people, and a log that is gone afterwards.",),
            keep_lifter=lambda _: None,
            memory=Memory(Path(folder) / "remembered.json"),
        )


def app(made: Program, *, line: str = "") -> TempoCoachApp:
    """Return the app, with a line on the board."""
    from tempo_coach.ui.app import TempoCoachApp
    from tempo_coach.ui.desk import Desk

    return TempoCoachApp(
        Desk(
            coach=made.coach,
            lifter=made.lifter,
            line=line,
            notices=made.notices,
            show_cautions=not made.memory.recall().cautions_shown,
            keep_lifter=made.keep_lifter,
            keep_cautions_shown=partial(made.memory.keep, Remembered(cautions_shown=True)),
        )
    )


def player(*, is_silent: bool) -> Player:
    """Return the player that is heard, or the silent one."""
    if is_silent:
        from tempo_coach.audio.silent import SilentPlayer

        return SilentPlayer()
    from tempo_coach.audio.device import DevicePlayer

    return DevicePlayer()


def clock() -> Clock:
    """Return the machine's clock."""
    return SystemClock()


def wav_player(path: Path) -> Player:
    """Return the player that writes a WAV file."""
    from tempo_coach.audio.wav_file import WavFilePlayer

    return WavFilePlayer(path)


def _coach(log_path: Path | None, sound: Player, settings: Settings) -> Coach:
    return Coach(
        log=log_file(log_path),
        rescue=LogFile(Path(tempfile.gettempdir()) / f"tempo-coach-unsaved-{_new_id()}.jsonl"),
        player=sound,
        clock=SystemClock(),
        new_id=_new_id,
        settings=settings,
    )


def _new_id() -> str:
    # 64 bits: among the 2.5 million sets of a hundred lifters over five years, two alike have a
    # chance of about one in six million.
    return secrets.token_hex(8)
