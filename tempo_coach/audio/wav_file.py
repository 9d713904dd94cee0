"""The player that writes the track to a WAV file."""

from __future__ import annotations

import os
from contextlib import suppress
from pathlib import Path

from sounds_gen.pcm import write_wav
from sounds_gen.samples import Samples
from tempo_coach.errors import FileProblem


class WrittenTrack:
    """A track that is in its file whole, so that nothing is left to wait for or to silence."""

    lag_ms = 0

    def is_sounding(self) -> bool:
        """Tell that no device takes samples."""
        return False

    def silence(self) -> None:
        """Do nothing: the file stays."""


class WavFilePlayer:
    """Writes each track it plays to one file, taking the place of what was there.

    Parameters
    ----------
    path
        The file; its folder must exist.
    """

    def __init__(self, path: Path) -> None:
        self._path = path

    def play(self, track: Samples) -> WrittenTrack:
        """Write the track, whole or not at all.

        Raises
        ------
        FileProblem
            The file can't be written; what was there before is untouched.
        """
        # In the same folder, since only within one file system does a rename replace at a stroke.
        part = self._path.with_name(f".{self._path.name}.{os.getpid()}.part")
        try:
            with part.open("wb") as file:
                write_wav(track, to=file)
                file.flush()
                os.fsync(file.fileno())
            part.replace(self._path)
        except OSError as error:
            with suppress(OSError):
                part.unlink(missing_ok=True)
            raise FileProblem(
                f"the track can't be written to {self._path}: {error.strerror}",
                path=self._path,
                hint="name a file in a folder that exists, may be written and has room",
            ) from error
        return WrittenTrack()
