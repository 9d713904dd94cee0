from __future__ import annotations

import sys
from pathlib import Path

import pytest

from tempo_coach.storage import places


@pytest.mark.skipif(sys.platform != "linux", reason="other systems have other folders")
def test_each_file_is_in_the_folder_that_the_desktop_keeps_for_its_kind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # XDG Base Directory Specification 0.8: data, configuration and state.
    for kind in ("DATA", "CONFIG", "STATE"):
        monkeypatch.setenv(f"XDG_{kind}_HOME", str(tmp_path / kind.lower()))
    assert places.log_path() == tmp_path / "data/tempo-coach/log.jsonl"
    assert places.settings_path() == tmp_path / "config/tempo-coach/settings.toml"
    assert places.memory_path() == tmp_path / "state/tempo-coach/remembered.json"


def test_asking_for_a_place_makes_no_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for kind in ("DATA", "CONFIG", "STATE"):
        monkeypatch.setenv(f"XDG_{kind}_HOME", str(tmp_path / kind.lower()))
    places.log_path(), places.settings_path(), places.memory_path()
    assert list(tmp_path.iterdir()) == []
