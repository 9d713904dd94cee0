"""Sums as a page writes them, with the marks of what they rest on."""

from __future__ import annotations

from tempo_coach.core.marks import marked_seconds
from tempo_coach.core.weeks import Totals

NONE = "–"
"""Stands where there is no number."""


def lowering(totals: Totals) -> str:
    """Return seconds of lowering with the mark of what they rest on."""
    return marked_seconds(totals.times.lower_ms, allowed_ms=totals.by_allowance.lower_ms)


def load(totals: Totals) -> str:
    """Return the lowering load in kg·s with the marks of what it rests on and what it leaves out.

    The allowance is that of all sets, also where those that rest on one have no known load.
    """
    about = "≈" if totals.by_allowance.lower_ms and totals.lowering_kg_s else ""
    return f"{about}{totals.lowering_kg_s:,.0f}{'+' if totals.sets_without_load else ''}"


def measured(totals: Totals) -> str:
    """Say which share of the lowering was measured: what was not counts as it was paced."""
    share = totals.measured_share
    if not share:
        return "None of the lowering was measured: it counts as it was paced."
    if totals.lower_measured_ms >= totals.times.lower_ms:
        return "All of the lowering was measured."
    # Neither end of the scale is claimed by rounding.
    percent_measured = min(max(round(share * 100), 1), 99)
    return f"{percent_measured}% of the lowering was measured; the rest counts as it was paced."


def signed(value: float, digits: int = 0) -> str:
    """Return a number with its sign, and without one where it is nothing."""
    text = f"{abs(value):,.{digits}f}".removesuffix(".0")
    if text == "0":
        return text
    return f"{'−' if value < 0 else '+'}{text}"


def percent(now: float, before: float) -> str:
    """Return a change in percent, without the sign for it; from nothing there is none."""
    return signed((now - before) / before * 100) if before else NONE
