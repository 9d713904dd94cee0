"""A file that is written whole or not at all."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO


@contextmanager
def whole_file(path: Path) -> Iterator[IO[bytes]]:
    """Yield a file private to the user, which takes the place of `path` at the end.

    Whatever goes wrong before, what was at `path` stays as it was.

    Raises
    ------
    OSError
        The folder or the disk does not take it.
    """
    descriptor, temporary = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name[:40]}.")
    try:
        with os.fdopen(descriptor, "wb") as file:
            yield file
            file.flush()
            os.fsync(file.fileno())
        Path(temporary).replace(path)
    except BaseException:
        # Ctrl-C too, after which nothing half written should stay.
        Path(temporary).unlink(missing_ok=True)
        raise
