from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from tempo_coach.errors import FileProblem, FileUnreadable
from tempo_coach.storage.pseudonym_key import PseudonymKey


def test_a_key_is_made_once_and_kept_private(tmp_path: Path) -> None:
    path = tmp_path / "data" / "pseudonyms.key"
    before = os.umask(0)
    try:
        key = PseudonymKey(path).key()
    finally:
        os.umask(before)

    assert len(key) == 32
    assert PseudonymKey(path).key() == key
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert list(path.parent.iterdir()) == [path]


def test_keys_differ(tmp_path: Path) -> None:
    assert PseudonymKey(tmp_path / "a").key() != PseudonymKey(tmp_path / "b").key()


@pytest.mark.parametrize("content", [b"", b"abc", b"00" * 31, b"00" * 33, b"\xff" * 64])
def test_what_is_no_key_is_refused_and_left_as_it_is(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "pseudonyms.key"
    path.write_bytes(content)

    with pytest.raises(FileUnreadable, match="it is no key; put back the one you had"):
        PseudonymKey(path).key()
    assert path.read_bytes() == content


def test_a_place_that_takes_no_key_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").touch()

    with pytest.raises(FileProblem, match="codes would change with every export"):
        PseudonymKey(tmp_path / "file" / "pseudonyms.key").key()
