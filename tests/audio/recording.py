"""What a sound server's card was given, as samples with the moments they were heard."""

from __future__ import annotations

import subprocess
import threading
import time
from types import TracebackType

import numpy as np
from scipy.signal import fftconvolve, find_peaks

from sounds_gen.pcm import Pcm, from_pcm
from sounds_gen.samples import SAMPLE_RATE_HZ, Samples
from tests.audio.sound_server import SINK, SoundServer, path_of

BEFORE_S = 0.8
"""How long a recording has run before anything is played."""
AHEAD_MS = 20
"""How long before it is due the card is given a block: the latency that the recorder asks of it.

`parec --verbose` shows it as a latency of down to -20 ms.
"""
READ_BYTES = 1920
"""20 ms of 16-bit samples."""


class Recorder:
    """Records the card of a server while its block runs; afterwards `pcm` holds what was heard."""

    def __init__(self, server: SoundServer) -> None:
        self._server = server
        self.pcm: Pcm = np.zeros(0, dtype=np.int16)
        """What was recorded: int16, 48 kHz, mono."""
        self.began_s = float("inf")
        """Monotonic moment at which the first sample was heard."""

    def __enter__(self) -> Recorder:
        self._parec = subprocess.Popen(
            [
                path_of("parec"),
                f"--device={SINK}.monitor",
                f"--latency-msec={AHEAD_MS}",
                "--format=s16le",
                "--channels=1",
                "--rate=48000",
            ],
            env=self._server.env,
            stdout=subprocess.PIPE,
            bufsize=0,
        )
        self._reader = threading.Thread(target=self._read)
        self._reader.start()
        time.sleep(BEFORE_S)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._parec.terminate()
        self._parec.wait()
        self._reader.join()

    def _read(self) -> None:
        assert self._parec.stdout is not None
        recorded = bytearray()
        with self._parec.stdout as stream:
            while piece := stream.read(READ_BYTES):
                recorded += piece
                # A piece can be late on its way but not early, so the promptest tells best.
                length_s = len(recorded) / 2 / SAMPLE_RATE_HZ
                self.began_s = min(self.began_s, time.monotonic() - length_s + AHEAD_MS / 1000)
        self.pcm = np.frombuffer(recorded[: len(recorded) // 2 * 2], dtype="<i2")

    def moment_s(self, sample: int) -> float:
        """Return the monotonic moment at which a sample was heard."""
        return self.began_s + sample / SAMPLE_RATE_HZ


def onsets(pcm: Pcm, *, of: Samples, at_least: float = 0.995) -> list[int]:
    """Return where a clip begins in a recording, to the sample.

    Parameters
    ----------
    pcm
        The recording.
    of
        The clip as it was laid out, whole.
    at_least
        How alike a place and the clip must be: the correlation, both scaled to unit energy. A
        tone with fades is not taken for another of the same pitch without (0.95).

    Returns
    -------
    list of int
        First samples, in order.
    """
    heard, clip = from_pcm(pcm).astype(np.float64), of.astype(np.float64)
    products = fftconvolve(heard, clip[::-1], mode="valid")
    energy = np.concatenate([[0.0], np.cumsum(np.square(heard))])
    energies = energy[clip.size :] - energy[: -clip.size]
    # Nearly silent places hold rounding alone and would be scaled up to anything.
    audible = energies > 1e-3 * np.sum(np.square(clip))
    likeness = np.zeros(products.size)
    scale = np.sqrt(energies[audible] * np.sum(np.square(clip)))
    likeness[audible] = products[audible] / scale
    peaks, _ = find_peaks(likeness, height=at_least, distance=clip.size)
    return [int(peak) for peak in peaks]
