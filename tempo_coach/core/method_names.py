"""The names under which a line and the log say how the lowering is trained."""

from __future__ import annotations

from enum import StrEnum


class MethodName(StrEnum):
    """A way to train, in the trade's words, joined so that it is one word on a line."""

    SLOW_LOWERING = "slow-lowering"
    STOPPED_LOWERING = "stopped-lowering"
    OVERLOADED_LOWERING = "overloaded-lowering"
    ACCENTUATED_LOWERING = "accentuated-lowering"
    TWO_UP_ONE_DOWN = "two-up-one-down"
    FIRST_REP_ACCENTUATED = "first-rep-accentuated"
    HOLD = "hold"
    RAISE_ONLY = "raise-only"
    LEARNING = "learning"
    RESERVE_TEST = "reserve-test"
