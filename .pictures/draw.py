"""Draws the pictures of the README from the app itself: `python .pictures/draw.py`.

Needs `rsvg-convert` (Debian: librsvg2-bin) and the font DejaVu Sans Mono.
"""

from __future__ import annotations

import asyncio
import subprocess
from pathlib import Path

from tempo_coach.core.demo import LIFTER, LINE
from tests.tempo_coach.ui.rack import Rack

FOLDER = Path(__file__).parent
# The third second of the second rep's lower.
MOMENT_MS = 10_000 + 7_000 + 2_400


async def draw() -> None:
    """Write the picture of a running set."""
    rack = Rack(LINE, lifter=LIFTER)
    async with rack.at_the_rack(columns=80, rows=24):
        await rack.wait(2_000)
        await rack.press("space")
        await rack.wait(MOMENT_MS)
        svg = rack.app.export_screenshot(title="tempo-coach")
    svg = svg.replace("Fira Code", "DejaVu Sans Mono")
    subprocess.run(
        ["rsvg-convert", "--zoom", "1", "--output", str(FOLDER / "pacing.png")],
        input=svg.encode(),
        check=True,
    )


if __name__ == "__main__":
    asyncio.run(draw())
