"""Picks the adapters and puts the program together; nothing else knows them all."""

from __future__ import annotations

import os
import secrets
import tempfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

from tempo_coach.clock import SystemClock
from tempo_coach.coach import Coach
from tempo_coach.core.facts import line_of
from tempo_coach.core.plan import Plan
from tempo_coach.core.ports import Clock, Log, LogLines, Player
from tempo_coach.core.settings import Effective, Layer, Settings, settle
from tempo_coach.errors import SettingsProblem, TempoCoachError
from tempo_coach.storage import places
from tempo_coach.storage.log_file import LogFile
from tempo_coach.storage.log_folder import log_paths
from tempo_coach.storage.plan_file import PlanFile
from tempo_coach.storage.plan_table import TableFile
from tempo_coach.storage.pseudonym_key import PseudonymKey
from tempo_coach.storage.remembered import Memory
from tempo_coach.storage.settings_file import SettingsFile
from tempo_coach.storage.trace_file import TraceFile

if TYPE_CHECKING:
    from tempo_coach.ui.app import TempoCoachApp


_VARIABLES = "TEMPO_COACH_"
"""What the environment variable of a setting begins with."""
_ENVIRONMENT = "the environment"
_COMMAND_LINE = "the command line"


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the command line asks for."""

    log_path: Path | None = None
    """None is the user's own log."""
    is_silent: bool = False
    settings: Mapping[str, Any] = field(default_factory=dict)
    """Settings that the command line gives, over all others."""


@dataclass(frozen=True, slots=True)
class Program:
    """The program, put together."""

    coach: Coach
    lifter: str | None
    """None where it must be asked for."""
    effective: Effective
    notices: tuple[str, ...]
    """What to say at the start."""
    keep_setting: Callable[[str, str | float | bool], None]
    """Keeps one setting; raises `SettingsProblem` where the file can't be changed."""
    memory: Memory
    is_silent: bool
    """Nothing is to be heard."""
    line: str = ""
    """What stands on the board where nothing else is given."""


def log_file(path: Path | None, *, must_exist: bool = False) -> Log:
    """Return a log; None is the user's own."""
    return LogFile(path or places.log_path(), must_exist=must_exist)


def log_lines(given: Iterable[Path]) -> tuple[LogLines, ...]:
    """Return the logs that files and folders stand for, each once.

    Raises
    ------
    LogUnreadable
        A folder can't be read, or has no log.
    """
    return tuple(LogFile(path, must_exist=True) for path in log_paths(given))


def own_log_lines(path: Path | None) -> LogLines:
    """Return one log, which may not be there yet; None is the user's own."""
    return LogFile(path or places.log_path())


def pseudonym_key() -> PseudonymKey:
    """Return the user's key for pseudonyms."""
    return PseudonymKey(places.key_path())


def plan_file(path: Path) -> PlanFile:
    """Return a plan's file."""
    return PlanFile(path)


def table_file(path: Path) -> TableFile:
    """Return the file of a coach's table."""
    return TableFile(path)


def trace_file(path: Path) -> TraceFile:
    """Return a recording of the bar."""
    return TraceFile(path)


def program(wishes: Wishes) -> Program:
    """Put the program together as the command line and the settings ask."""
    file = SettingsFile(places.settings_path())
    effective, problem = _effective(file, wishes.settings)
    return Program(
        coach=_coach(wishes.log_path, player(is_silent=wishes.is_silent), effective.settings),
        lifter=effective.settings.lifter,
        effective=effective,
        notices=(*map(str, filter(None, [problem])), *map(str, effective.bad)),
        keep_setting=file.keep,
        memory=Memory(places.memory_path()),
        is_silent=wishes.is_silent,
    )


def _effective(
    file: SettingsFile, given: Mapping[str, Any]
) -> tuple[Effective, SettingsProblem | None]:
    """Settle the settings: the command line over the environment over the file."""
    written, problem = file.read()
    variables = {
        key: value
        for key in Settings.model_fields
        if (value := os.environ.get(f"{_VARIABLES}{key.upper()}"))
    }
    layers = (
        Layer(file.name, written),
        Layer(_ENVIRONMENT, variables, are_texts=True),
        Layer(_COMMAND_LINE, given),
    )
    return settle(layers), problem


@contextmanager
def demo_program(*, is_silent: bool) -> Iterator[Program]:
    """Yield the program on an invented log in a temporary folder."""
    from tempo_coach.core import demo
    from tempo_coach.core.demo_plan import demo_plan

    effective, _ = _effective(SettingsFile(places.settings_path()), {})
    with tempfile.TemporaryDirectory(prefix="tempo-coach-demo-") as folder:
        now = SystemClock().wall()
        path = Path(folder) / "log.jsonl"
        path.write_bytes(b"".join(map(line_of, demo.demo_facts(now))))
        plan = Path(folder) / "plan.toml"
        plan.write_text(demo_plan(now.date()), encoding="utf-8")
        memory = Memory(Path(folder) / "remembered.json")
        memory.keep(plan=str(plan))
        yield Program(
            coach=_coach(path, player(is_silent=is_silent), effective.settings),
            lifter=demo.LIFTER,
            effective=effective,
            notices=("This is the demo: invented people, and a log that is gone afterwards.",),
            keep_setting=lambda *_: None,
            memory=memory,
            is_silent=is_silent,
            line=demo.LINE,
        )


def app(made: Program, *, line: str = "", plan_path: Path | None = None) -> TempoCoachApp:
    """Return the app.

    Parameters
    ----------
    made
        The program.
    line
        What stands on the board, which is then shown first.
    plan_path
        The plan to open; None is the one that was opened last, if any was.

    Raises
    ------
    FileUnreadable
        The plan at `plan_path` can't be read.
    PlanRefused
        It has faults that leave open what is meant.
    OutOfRange
        It has no lifter of the name that the command line gives.
    """
    from tempo_coach.ui.app import TempoCoachApp
    from tempo_coach.ui.desk import Desk, OpenPlan

    opened, problems = _opened(made, plan_path)
    remembered, sources = made.memory.recall(), made.effective.sources
    return TempoCoachApp(
        Desk(
            coach=made.coach,
            lifter=made.lifter,
            line=line or made.line,
            plan=None if opened is None else OpenPlan(*opened, is_first=not line),
            notices=(*made.notices, *problems),
            show_cautions=not remembered.cautions_shown,
            is_silent=made.is_silent,
            sources=sources,
            given_outside=frozenset(
                key for key, source in sources.items() if source in (_ENVIRONMENT, _COMMAND_LINE)
            ),
            sound_checked_on=remembered.sound_checked_on,
            keep_setting=made.keep_setting,
            keep_sound_checked=lambda day: made.memory.keep(sound_checked_on=day),
            keep_cautions_shown=partial(made.memory.keep, cautions_shown=True),
        )
    )


def _opened(
    made: Program, path: Path | None
) -> tuple[tuple[PlanFile, Plan] | None, tuple[str, ...]]:
    """Open a plan, and without a path the last one, whose faults are only to be told."""
    today = made.coach.clock.wall().date()
    if path is not None:
        file = PlanFile(path)
        plan = file.read(today=today).usable(file.name)
        if made.lifter and made.effective.sources.get("lifter") == _COMMAND_LINE:
            plan.lifter(made.lifter)
        made.memory.keep(plan=str(path.absolute()))
        return (file, plan), ()
    last = made.memory.recall().plan
    if last is None:
        return None, ()
    file = PlanFile(Path(last))
    try:
        return (file, file.read(today=today).usable(file.name)), ()
    except TempoCoachError as fault:
        return None, (f"The plan of last time can't be opened: {fault}.",)


def last_plan(made: Program) -> Plan | None:
    """Return the plan that was opened last; None where none was, or it can't be used any more."""
    opened, _ = _opened(made, None)
    return None if opened is None else opened[1]


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
