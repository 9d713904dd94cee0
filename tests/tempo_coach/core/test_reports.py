from __future__ import annotations

import json

from tempo_coach.core.log_lines import Skipped
from tempo_coach.core.prescription import parse_prescription
from tempo_coach.core.reports import timeline_data, weeks_data
from tempo_coach.core.timeline import Timeline
from tempo_coach.core.weeks import weekly
from tests.tempo_coach.core.done_sets import done_set


def test_a_timeline_is_given_with_its_cues_and_only_the_keys_that_apply() -> None:
    data = timeline_data(Timeline.of(parse_prescription("squat 1x1 2-0-X-0"), setup_ms=3000))
    assert data == {
        "length_ms": 6000,
        "setup_ms": 3000,
        "lifting_ms": 3000,
        "open_ended": False,
        "cues": [
            {"at_ms": 0, "kind": "ready", "second": 3},
            {"at_ms": 1000, "kind": "ready", "second": 2},
            {"at_ms": 2000, "kind": "ready", "second": 1},
            {
                "at_ms": 3000,
                "kind": "phase",
                "phase": "lower",
                "rep": 1,
                "lasts_ms": 2000,
                "last_rep": True,
            },
            {"at_ms": 4000, "kind": "count", "phase": "lower", "rep": 1, "second": 2},
            {
                "at_ms": 5000,
                "kind": "phase",
                "phase": "raise",
                "rep": 1,
                "lasts_ms": 1000,
                "by_allowance": True,
            },
            {"at_ms": 6000, "kind": "end"},
        ],
    }


def test_weeks_are_given_with_their_units_and_with_what_was_skipped() -> None:
    data = weeks_data(weekly([done_set()]), [Skipped("log.jsonl", 7, "not JSON")])
    totals = {
        "sets": 1,
        "reps": 5,
        "lower_s": 20.0,
        "pause_s": 5.0,
        "raise_s": 5.0,
        "top_s": 5.0,
        "tension_s": 35.0,
        "moving_s": 25.0,
        "by_allowance": {
            "lower_s": 0.0,
            "pause_s": 0.0,
            "raise_s": 5.0,
            "top_s": 0.0,
            "tension_s": 5.0,
        },
        "lowering_share": 0.5714,
        "lowering_kg_s": 1600.0,
        "tonnage_kg": 400.0,
        "lower_measured_s": 0.0,
        "measured_share": 0.0,
        "sets_without_load": 0,
    }
    assert data == {
        "weeks": [
            {
                "week": "2026-W10",
                "from": "2026-03-02",
                "exercises": [{"exercise": "front squat"} | totals],
                "methods": [],
                "total": totals,
                "lower_change_s": None,
            }
        ],
        "skipped": [{"file": "log.jsonl", "line": 7, "why": "not JSON"}],
    }
    assert json.loads(json.dumps(data)) == data
