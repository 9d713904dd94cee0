"""What the app is given to work with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from tempo_coach.coach import Coach
from tempo_coach.core.plan import Plan
from tempo_coach.core.ports import PlanSource


@dataclass(frozen=True, slots=True)
class OpenPlan:
    """A plan to work by."""

    source: PlanSource
    """Where it is read again when it may have changed."""
    plan: Plan
    is_first: bool
    """Its day is shown first, before the board."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """The coach, and what was remembered from last time."""

    coach: Coach
    lifter: str | None
    """None where nobody has said yet who lifts; the app then asks."""
    line: str
    """The prescription to begin with, or empty."""
    plan: OpenPlan | None
    """None where nobody has opened one."""
    notices: tuple[str, ...]
    """Problems to show at the start, a sentence each."""
    show_cautions: bool
    """The cautions have not been shown yet."""
    is_silent: bool
    """Nothing is to be heard."""
    sources: Mapping[str, str]
    """Where each setting comes from; a key that is missing is as by default."""
    given_outside: frozenset[str]
    """Settings that the command line or the environment gives, over what is kept."""
    sound_checked_on: date | None
    """The day on which the sound was last heard to be there."""
    keep_setting: Callable[[str, str | float | bool], None]
    """Keeps a setting for the next start; may block, and may raise `TempoCoachError`."""
    keep_sound_checked: Callable[[date], None]
    """Remembers on which day the sound was heard; may block, and may raise `TempoCoachError`."""
    keep_cautions_shown: Callable[[], None]
    """Remembers that the cautions were shown; may block, and may raise `TempoCoachError`."""
