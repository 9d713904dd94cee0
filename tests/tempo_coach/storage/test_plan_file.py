from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from tempo_coach.errors import FileProblem, FileUnreadable
from tempo_coach.storage.plan_file import PlanFile
from tests.tempo_coach.core.plans import TEXT, TODAY, plan_of


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "winter.toml"


def faults(path: Path) -> list[str]:
    return [str(fault) for fault in PlanFile(path).read(today=TODAY).faults]


@pytest.mark.parametrize(
    "content",
    [TEXT.encode(), b"\xef\xbb\xbf" + TEXT.encode(), TEXT.replace("\n", "\r\n").encode()],
)
def test_a_plan_is_read_with_and_without_a_byte_order_mark(path: Path, content: bytes) -> None:
    path.write_bytes(content)
    assert PlanFile(path).read(today=TODAY).plan == plan_of()


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b'name = "a"\nweeks = \xff', "line 2: the byte FF is no text in UTF-8; save the plan as"),
        (TEXT.encode("utf-16"), "line 1: the byte FF is no text in UTF-8; "),
        (
            TEXT.encode("latin-1").replace(b"heels", b"\xdc"),
            "line 21: the byte DC is no text in UTF-8",
        ),
        (b"\x00\x01\x02", "line 1: column 1: invalid"),
    ],
)
def test_what_is_no_text_in_utf_8_is_a_fault_with_its_line(
    path: Path, content: bytes, said: str
) -> None:
    path.write_bytes(content)
    assert faults(path)[0].startswith(said)


def test_an_empty_file_lacks_everything(path: Path) -> None:
    path.touch()
    assert [fault.split(";")[0] for fault in faults(path)] == [
        f"line 1: {key} is missing" for key in ("name", "start", "weeks", "[[lifters]]", "[[days]]")
    ]


def test_a_path_without_a_readable_file_says_why(path: Path, tmp_path: Path) -> None:
    with pytest.raises(
        FileUnreadable, match="there is no such file; 'tempo-coach plan new' writes"
    ):
        faults(path)
    with pytest.raises(FileUnreadable, match="it is a folder"):
        faults(tmp_path)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_forbidden_file_says_why(path: Path) -> None:
    path.touch(mode=0o000)
    with pytest.raises(FileUnreadable, match="permission is denied"):
        faults(path)


def test_a_plan_is_written_privately_and_never_over_a_file_unless_told_to(path: Path) -> None:
    PlanFile(path).write("Grüße\n", replace=False)
    assert path.read_bytes() == "Grüße\n".encode()
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    with pytest.raises(FileProblem, match="is there already; --replace writes over it"):
        PlanFile(path).write("other", replace=False)
    PlanFile(path).write("other", replace=True)
    assert path.read_text(encoding="utf-8") == "other"


def test_a_place_that_can_not_be_written_says_why(path: Path, tmp_path: Path) -> None:
    path.touch()
    with pytest.raises(FileProblem, match="a part of its path is no folder; give another file"):
        PlanFile(path / "below.toml").write("", replace=False)
    with pytest.raises(FileProblem, match="it is a folder"):
        PlanFile(tmp_path).write("", replace=True)


def test_controls_in_a_path_are_spelt_out(tmp_path: Path) -> None:
    assert PlanFile(tmp_path / "a\x1bb").name.endswith(r"a\x1bb")
