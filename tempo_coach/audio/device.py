"""The player that is heard: the one module that knows simpleaudio."""

from __future__ import annotations

import ctypes
from functools import cache
from typing import Any

import numpy as np

from sounds_gen.pcm import BYTES_A_SAMPLE, Pcm, to_pcm
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples, sample_at
from tempo_coach.errors import SoundUnavailable

LEAD_IN_MS = 300
"""Silence put before a track, because devices swallow the first moments as they wake."""
DEVICE_LATENCY_MS = 20
"""From the return of `play_buffer` until its first sample is heard.

Measured through PulseAudio and a virtual card: 2 to 23 ms. ALSA's buffer of 100 ms is filled at
once, so it delays only what comes later. A real card adds its own few, wireless ones 70 to 250.
"""

HINT = (
    "see that a sound server is running and that headphones or a loudspeaker are plugged in, "
    "or go without sound: --silent"
)


class DevicePlayback:
    """One track on its way to the device.

    Parameters
    ----------
    handle
        What `simpleaudio.play_buffer` returned.
    live
        The samples that are being read while they sound.
    """

    lag_ms = LEAD_IN_MS + DEVICE_LATENCY_MS

    def __init__(self, handle: Any, live: Pcm) -> None:
        self._handle = handle
        # simpleaudio reads this very array until the sound is over, so it must live that long.
        self._live = live

    def is_sounding(self) -> bool:
        """Tell whether the device is still taking samples."""
        return bool(self._handle.is_playing())

    def silence(self) -> None:
        """Make the rest silent.

        `stop` alone leaves about 300 ms to be heard; zeroed samples are silent as soon as they are
        read.
        """
        self._live[:] = 0
        self._handle.stop()


class DevicePlayer:
    """Plays each track on the default sound device, by one call, so that the device keeps time."""

    def play(self, track: Samples) -> DevicePlayback:
        """Start the track; holds the interpreter until the device is open, so use a worker.

        Raises
        ------
        SoundUnavailable
            There is no device, or it refused the track.
        """
        try:
            import simpleaudio

            # Its error class is exported nowhere else.
            from simpleaudio import _simpleaudio
        except ImportError as error:
            raise SoundUnavailable(f"sound can't be used: {error}", hint=HINT) from error
        _keep_alsa_quiet()
        # Fresh for each track, because a buffer may not be touched while it sounds; never empty,
        # which would crash some systems.
        live = np.concatenate([np.zeros(sample_at(LEAD_IN_MS), dtype=np.int16), to_pcm(track)])
        try:
            handle = simpleaudio.play_buffer(live, 1, BYTES_A_SAMPLE, SAMPLE_RATE_HZ)
        except (_simpleaudio.SimpleaudioError, ValueError) as error:
            # Its text is "Error opening PCM device. -- CODE: -111 -- MSG: Connection refused".
            reason = str(error).rpartition("MSG: ")[2]
            raise SoundUnavailable(
                f"the sound device did not take the track: {reason}", hint=HINT
            ) from error
        return DevicePlayback(handle, live)


ALSA_LIBRARY = "libasound.so.2"
# File, line, function, error number, format; what follows the format is left unread.
_ErrorHandler = ctypes.CFUNCTYPE(
    None, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p, ctypes.c_int, ctypes.c_char_p
)


@cache
def _keep_alsa_quiet() -> object:
    """Stop ALSA from writing complaints to descriptor 2, where the screen is drawn.

    Returns
    -------
    object
        What ALSA now calls, or None without ALSA. It holds only the address, so the cache keeps
        the object for the life of the process.
    """
    try:
        alsa = ctypes.CDLL(ALSA_LIBRARY)
    except OSError:
        return None
    handler = _ErrorHandler(lambda *_: None)
    alsa.snd_lib_error_set_handler(handler)
    return handler
