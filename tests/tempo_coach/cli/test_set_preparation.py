from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path

import pytest

from tests.tempo_coach.cli.conftest import Command, set_line


@pytest.mark.slow
def test_a_plain_set_is_told_beforehand_and_in_its_rests_what_its_sets_go_over(
    command: Command, home: Path
) -> None:
    log = home / "week.jsonl"
    begun = (datetime.now().astimezone() - timedelta(weeks=1)).isoformat()
    seconds = {"lower": 4.0, "pause": 0.0, "raise": 1.0, "top": 0.0}
    log.write_text(
        set_line(started_at=begun, ended_at=begun, load_kg=None, seconds=seconds) + "\n",
        encoding="utf-8",
    )

    outcome = command(
        "set", "front squat 2x1 @ 60 kg 3-0-0-0", "--plain", "--yes", "--silent", "--setup", "3",
        "--lifter", "Mirela Oude", "--log", log,
    )  # fmt: skip

    over = (
        "6 s of lowering emphasis, 2 s over its limit of 4 s (10% above the mean of the last 1 "
        "full loading week)."
    )
    said = " ".join(outcome.err.split())
    assert outcome.code == 0
    assert said.startswith(f"note: Set 2 takes the week to {over}")
    assert said.endswith(f"note: With the next set the week has {over}")
