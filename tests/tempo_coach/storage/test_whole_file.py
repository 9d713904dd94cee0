from __future__ import annotations

import stat
from pathlib import Path

import pytest

from tempo_coach.storage.whole_file import whole_file


def test_a_file_appears_when_it_is_whole_private_to_the_user(tmp_path: Path) -> None:
    path = tmp_path / "table.csv"

    with whole_file(path) as file:
        file.write(b"half")
        assert not path.exists()
        file.write(b", whole")

    assert path.read_bytes() == b"half, whole"
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert list(tmp_path.iterdir()) == [path]


@pytest.mark.parametrize("fault", [OSError(), KeyboardInterrupt(), ValueError()])
def test_whatever_goes_wrong_leaves_what_was_there(tmp_path: Path, fault: BaseException) -> None:
    path = tmp_path / "table.csv"
    path.write_bytes(b"old")

    def write() -> None:
        with whole_file(path) as file:
            file.write(b"new")
            raise fault

    with pytest.raises(type(fault)):
        write()

    assert path.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [path]


def test_a_long_name_has_room_beside_it(tmp_path: Path) -> None:
    path = tmp_path / ("n" * 250 + ".csv")

    with whole_file(path) as file:
        file.write(b"whole")

    assert path.read_bytes() == b"whole"
