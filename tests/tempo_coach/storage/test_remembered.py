from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from tempo_coach.storage.remembered import Memory, Remembered


def test_nothing_is_remembered_at_first(tmp_path: Path) -> None:
    assert Memory(tmp_path / "remembered.json").recall() == Remembered(cautions_shown=False)


def test_what_is_kept_is_recalled(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "state" / "remembered.json")
    memory.keep(cautions_shown=True)
    assert memory.recall() == Remembered(cautions_shown=True)


def test_what_is_kept_later_leaves_the_rest_as_it_was(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "remembered.json")
    memory.keep(plan="/home/ana/winter.toml")
    memory.keep(cautions_shown=True)
    assert memory.recall() == Remembered(cautions_shown=True, plan="/home/ana/winter.toml")


def test_a_day_is_recalled_as_a_day(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "remembered.json")
    memory.keep(sound_checked_on=date(2026, 11, 30))
    assert memory.recall().sound_checked_on == date(2026, 11, 30)


def test_a_path_that_is_no_text_is_not_remembered(tmp_path: Path) -> None:
    memory = Memory(tmp_path / "remembered.json")
    memory.keep(plan="/home/ana/\udcff.toml")
    assert memory.recall() == Remembered()


@pytest.mark.parametrize("content", [b"", b"{", b"[]", b"\xff", b'{"cautions_shown":"perhaps"}'])
def test_a_file_that_can_not_be_understood_is_as_good_as_none(
    tmp_path: Path, content: bytes
) -> None:
    path = tmp_path / "remembered.json"
    path.write_bytes(content)
    assert Memory(path).recall() == Remembered()


def test_what_a_newer_version_remembers_is_no_hindrance(tmp_path: Path) -> None:
    path = tmp_path / "remembered.json"
    path.write_text('{"cautions_shown":true,"songs":3}', encoding="utf-8")
    assert Memory(path).recall().cautions_shown


def test_a_disk_that_keeps_nothing_only_means_being_told_again(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    memory = Memory(tmp_path / "file" / "remembered.json")
    memory.keep(cautions_shown=True)
    assert memory.recall() == Remembered()
