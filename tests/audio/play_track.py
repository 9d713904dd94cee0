"""Plays a track in a process of its own, where ALSA reads its configuration afresh.

Prints one line of JSON: the monotonic moments at which `play` returned, `silence` was called and
the device took no more, and the lag that the playback states.
"""

from __future__ import annotations

import json
import sys
import time
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np

from tempo_coach.audio.device import DevicePlayer


@dataclass(frozen=True)
class Played:
    returned_s: float
    silenced_s: float
    ended_s: float
    lag_ms: int


def main(track: str, silence_after_s: str) -> None:
    playback = DevicePlayer().play(np.load(Path(track)))
    returned_s = time.monotonic()
    while playback.is_sounding() and time.monotonic() < returned_s + float(silence_after_s):
        time.sleep(0.002)
    silenced_s = time.monotonic()
    playback.silence()
    while playback.is_sounding():
        time.sleep(0.002)
    played = Played(returned_s, silenced_s, time.monotonic(), playback.lag_ms)
    sys.stdout.write(json.dumps(asdict(played)))


if __name__ == "__main__":
    main(*sys.argv[1:])
