"""Plain data for machines: what the JSON outputs hold."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.timeline import Cue, Timeline
from tempo_coach.core.weeks import Totals, Week
from tempo_coach.core.work import seconds_by_phase


def timeline_data(timeline: Timeline) -> dict[str, Any]:
    """Return a timeline with its cues; keys that don't apply to a cue are left out."""
    return {
        "length_ms": timeline.length_ms,
        "setup_ms": timeline.setup_ms,
        "lifting_ms": timeline.lifting_ms,
        "open_ended": timeline.open_ended,
        "cues": [cue_data(cue) for cue in timeline.cues()],
    }


def cue_data(cue: Cue) -> dict[str, Any]:
    """Return one cue; a phase whose length is an allowance has ``by_allowance``, and so on."""
    data: dict[str, Any] = {"at_ms": cue.at_ms, "kind": cue.kind.value}
    if cue.span is not None:
        data["phase"] = cue.span.phase.value
        data["rep"] = cue.rep
        if cue.second is None:
            data["lasts_ms"] = cue.span.lasts_ms
            if cue.span.speed is not None:
                data["by_allowance"] = True
            if cue.span.is_stop:
                data["stop"] = True
            if not cue.span.counts:
                data["by_others"] = True
    if cue.second is not None:
        data["second"] = cue.second
    if cue.last_rep:
        data["last_rep"] = True
    if cue.side is not None:
        data["side"] = cue.side.value
    return data


def weeks_data(weeks: Iterable[Week], skipped: Iterable[Skipped]) -> dict[str, Any]:
    """Return weekly totals, and the lines that were passed over."""
    return {
        "weeks": [_week_data(week) for week in weeks],
        "skipped": skipped_data(skipped),
    }


def skipped_data(skipped: Iterable[Skipped]) -> list[dict[str, Any]]:
    """Return the lines that were passed over."""
    return [{"file": one.file, "line": one.line, "why": one.why} for one in skipped]


def _week_data(week: Week) -> dict[str, Any]:
    return {
        "week": str(week.week),
        "from": week.week.monday().isoformat(),
        "exercises": [
            {"exercise": one.exercise} | totals_data(one.totals) for one in week.exercises
        ],
        "methods": [{"method": one.method} | totals_data(one.totals) for one in week.methods],
        "total": totals_data(week.total),
        "lower_change_s": None if week.lower_change_ms is None else week.lower_change_ms / 1000,
    }


def totals_data(totals: Totals) -> dict[str, Any]:
    """Return totals with their units in the keys."""
    return {
        "sets": totals.sets,
        "reps": totals.reps,
        **seconds_by_phase(totals.times),
        "moving_s": totals.times.moving_ms / 1000,
        "by_allowance": seconds_by_phase(totals.by_allowance),
        "lowering_share": round(totals.lowering_share, 4),
        "lowering_kg_s": totals.lowering_kg_s,
        "tonnage_kg": totals.tonnage_kg,
        "lower_measured_s": totals.lower_measured_ms / 1000,
        "measured_share": round(totals.measured_share, 4),
        "sets_without_load": totals.sets_without_load,
    }
