"""Sound as 16-bit samples: what devices take and WAV files hold."""

from __future__ import annotations

import wave
from contextlib import nullcontext
from pathlib import Path
from typing import BinaryIO, TypeAlias

import numpy as np
import numpy.typing as npt

from sounds_gen.samples import SAMPLE_RATE_HZ, Samples

Pcm: TypeAlias = npt.NDArray[np.int16]
"""Shape ``(n,)``, int16, range [-32767, 32767]."""

FULL_SCALE = 32_767
BYTES_A_SAMPLE = 2


def to_pcm(track: Samples) -> Pcm:
    """Return a track as 16-bit samples.

    Parameters
    ----------
    track
        Shape ``(n,)``, float32; what lies outside [-1, 1] is clipped before it is rounded.

    Returns
    -------
    Pcm
        Shape ``(n,)``, int16, C-contiguous, a fresh array; 1.0 becomes 32767.
    """
    scaled: Samples = np.clip(track, -1.0, 1.0) * np.float32(FULL_SCALE)
    return np.rint(scaled).astype(np.int16)


def from_pcm(pcm: Pcm) -> Samples:
    """Return 16-bit samples as a track; `to_pcm` gives the same samples back.

    Parameters
    ----------
    pcm
        Shape ``(n,)``, int16.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-1, 1]; 32767 becomes 1.0, and -32768 is taken for -32767.
    """
    return np.maximum(pcm, -FULL_SCALE).astype(np.float32) / np.float32(FULL_SCALE)


def write_wav(track: Samples, *, to: Path | BinaryIO) -> None:
    """Write a track as a WAV file: 48 kHz, mono, 16 bits.

    Parameters
    ----------
    track
        Shape ``(n,)``, float32, range [-1, 1].
    to
        A path, or a file open for writing bytes, which is left open.

    Raises
    ------
    OSError
        The file can't be written.
    """
    # Opened here, since a `wave` writer whose file will not open fails again when it is collected.
    opened = to.open("wb") if isinstance(to, Path) else nullcontext(to)
    with opened as target, wave.open(target, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(BYTES_A_SAMPLE)
        file.setframerate(SAMPLE_RATE_HZ)
        file.writeframes(to_pcm(track).astype("<i2", copy=False).tobytes())


def read_wav(source: Path | BinaryIO) -> Samples:
    """Read a WAV file that holds 48 kHz, mono, 16 bits.

    Parameters
    ----------
    source
        A path, or a file open for reading bytes, which is left open.

    Returns
    -------
    Samples
        Shape ``(n,)``, float32, range [-1, 1].

    Raises
    ------
    OSError
        The file can't be read.
    ValueError
        It is no WAV file, or its rate, channels or width differ.
    """
    opened = source.open("rb") if isinstance(source, Path) else nullcontext(source)
    try:
        with opened as readable, wave.open(readable, "rb") as file:
            form = (file.getframerate(), file.getnchannels(), 8 * file.getsampwidth())
            if form != (SAMPLE_RATE_HZ, 1, 8 * BYTES_A_SAMPLE):
                raise ValueError(
                    "a track is 48000 Hz, 1 channel, 16 bits, not {}, {}, {}".format(*form)
                )
            return from_pcm(np.frombuffer(file.readframes(file.getnframes()), dtype="<i2"))
    except (wave.Error, EOFError) as error:
        raise ValueError(f"not a WAV file that can be read: {error}") from error
