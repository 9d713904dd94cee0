"""A lifter's session as its own process: append sets to a log, and say each id once it is there.

Usage: python -m tests.tempo_coach.storage.appending LOG NAME COUNT
"""

from __future__ import annotations

import os
import sys
from pathlib import Path

from tempo_coach.storage.log_file import LogFile
from tests.tempo_coach.core.done_sets import done_set


def append_sets(path: Path, name: str, count: int) -> None:
    """Append so many sets; each id goes to stdout after `append` has returned."""
    log = LogFile(path)
    for number in range(count):
        set_id = f"{name}-{number}"
        log.append(done_set(id=set_id, note="slow to the last " * 20))
        os.write(sys.stdout.fileno(), f"{set_id}\n".encode())


if __name__ == "__main__":
    append_sets(Path(sys.argv[1]), sys.argv[2], int(sys.argv[3]))
