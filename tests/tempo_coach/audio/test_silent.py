from __future__ import annotations

from sounds_gen import named
from tempo_coach.audio.silent import SilentPlayer
from tempo_coach.core.ports import Player


def test_a_silent_track_sounds_until_it_is_silenced() -> None:
    player: Player = SilentPlayer()

    playback = player.play(named.fall())

    assert playback.lag_ms == 0
    assert playback.is_sounding()
    playback.silence()
    assert not playback.is_sounding()
    playback.silence()
    assert not playback.is_sounding()


def test_each_playback_is_silenced_on_its_own() -> None:
    player = SilentPlayer()
    first, second = player.play(named.fall()), player.play(named.rise())

    first.silence()

    assert second.is_sounding()
