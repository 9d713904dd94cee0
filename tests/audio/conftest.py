from __future__ import annotations

import os
from collections.abc import Iterator

import pytest

from tests.audio.sound_server import SoundServer, missing_programs, private_sound_server


@pytest.fixture(scope="session")
def sound_server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SoundServer]:
    """Run one server for all tests; without its programs they are skipped, or fail if required."""
    if missing := missing_programs():
        reason = f"no private sound server without {' and '.join(missing)} (see DEVELOPERS.md)"
        if os.environ.get("TEMPO_COACH_AUDIO_TESTS") == "required":
            pytest.fail(reason)
        pytest.skip(reason)
    with private_sound_server(tmp_path_factory.mktemp("sound")) as server:
        yield server
