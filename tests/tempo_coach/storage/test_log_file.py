from __future__ import annotations

import os
import resource
import signal
import stat
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tempo_coach.core.facts import Changes, Fact, SetCorrected, SetStruck, line_of
from tempo_coach.core.log_lines import TORN, Skipped
from tempo_coach.errors import LogUnreadable, LogUnwritable
from tempo_coach.storage.log_file import LogFile
from tests.tempo_coach.core.done_sets import MONDAY, done_set

FULL_DISK = Path("/dev/full")
ROOT = Path(__file__).parents[3]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "log.jsonl"


def line(set_id: str) -> bytes:
    return line_of(done_set(id=set_id))


def read(path: Path) -> list[Fact | Skipped]:
    return list(LogFile(path).read())


def ids(path: Path) -> list[str]:
    return [fact.id for fact in read(path) if not isinstance(fact, Skipped)]


def skipped(path: Path) -> list[tuple[int, str]]:
    return [(one.line, one.why) for one in read(path) if isinstance(one, Skipped)]


def refusal_to_write(path: Path, set_id: str = "a") -> LogUnwritable:
    with pytest.raises(LogUnwritable) as caught:
        LogFile(path).append(done_set(id=set_id))
    return caught.value


def refusal_to_read(path: Path) -> LogUnreadable:
    with pytest.raises(LogUnreadable) as caught:
        list(LogFile(path, must_exist=True).read())
    return caught.value


@contextmanager
def file_size_limit(size: int) -> Iterator[None]:
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


# Writing.


def test_facts_are_read_in_the_order_they_were_appended(path: Path) -> None:
    facts: list[Fact] = [
        done_set(),
        SetCorrected(id="5c2e", at=MONDAY, changes=Changes(note="zügig\u2028ヒップ\n")),
        SetStruck(id="5c2e", at=MONDAY),
    ]
    log = LogFile(path)
    for fact in facts:
        log.append(fact)
    assert read(path) == facts
    assert path.read_bytes() == b"".join(line_of(fact) for fact in facts)


def test_the_file_and_its_folder_are_private_whatever_the_umask(tmp_path: Path) -> None:
    path = tmp_path / "data" / "log.jsonl"
    before = os.umask(0)
    try:
        LogFile(path).append(done_set())
    finally:
        os.umask(before)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_a_log_is_named_by_its_path_made_legible() -> None:
    assert LogFile(Path("/gym/log.jsonl")).name == "/gym/log.jsonl"
    assert LogFile(Path("/gym/\x1b[2J")).name == "/gym/\\x1b[2J"


@pytest.mark.skipif(not FULL_DISK.exists(), reason="the system has no /dev/full")
def test_a_full_disk_is_told_with_what_to_do() -> None:
    fault = refusal_to_write(FULL_DISK)
    assert fault.message == "the log /dev/full can't be written: the disk is full"
    assert "free some space" in fault.hint
    assert fault.path == FULL_DISK


def test_a_line_the_disk_takes_only_in_part_is_told_and_the_next_one_is_whole(path: Path) -> None:
    LogFile(path).append(done_set(id="a"))
    with file_size_limit(len(line("a")) + 100):
        fault = refusal_to_write(path, "b")
    assert fault.message.endswith("the disk is full")
    assert skipped(path) == [(2, TORN)]

    LogFile(path).append(done_set(id="b"))

    assert ids(path) == ["a", "b"]
    assert skipped(path) == [(2, "not JSON")]


def test_a_disk_that_takes_nothing_leaves_the_log_as_it_was(path: Path) -> None:
    LogFile(path).append(done_set(id="a"))
    with file_size_limit(len(line("a"))):
        fault = refusal_to_write(path, "b")
    assert fault.message.endswith("the disk or the quota is full")
    assert path.read_bytes() == line("a")


def test_a_device_that_can_not_be_synchronised_is_no_fault() -> None:
    log = LogFile(Path(os.devnull))

    log.append(done_set())

    assert list(log.read()) == []


def test_a_folder_can_not_be_written(tmp_path: Path) -> None:
    assert refusal_to_write(tmp_path).message.endswith("it is a folder")


def test_a_path_through_a_file_can_not_be_written(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    fault = refusal_to_write(tmp_path / "file" / "deeper" / "log.jsonl")
    assert fault.message.endswith("a part of its path is no folder")


# Reading.


def test_a_missing_log_is_empty_unless_it_must_exist(path: Path) -> None:
    assert read(path) == []
    fault = refusal_to_read(path)
    assert fault.message == f"the log {path} can't be read: there is no such file"
    assert fault.path == path


def test_reading_a_missing_log_makes_no_file(tmp_path: Path) -> None:
    read(tmp_path / "data" / "log.jsonl")
    assert list(tmp_path.iterdir()) == []


def test_an_empty_log_has_no_lines(path: Path) -> None:
    path.touch()
    assert read(path) == []


def test_a_folder_is_no_log(tmp_path: Path) -> None:
    assert refusal_to_read(tmp_path).message.endswith("it is a folder")


def test_a_path_through_a_file_is_no_log_even_if_it_need_not_exist(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    with pytest.raises(LogUnreadable, match="a part of its path is no folder"):
        read(tmp_path / "file" / "log.jsonl")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_forbidden_log_is_told(path: Path) -> None:
    path.write_bytes(line("a"))
    path.chmod(0)
    assert refusal_to_read(path).message.endswith("permission is denied")


def test_a_torn_last_line_is_set_aside_reported_and_then_appended_after(path: Path) -> None:
    path.write_bytes(line("a") + line("b")[:100])
    assert ids(path) == ["a"]
    assert skipped(path) == [(2, TORN)]

    LogFile(path).append(done_set(id="c"))

    assert ids(path) == ["a", "c"]
    assert skipped(path) == [(2, "not JSON")]
    assert path.read_bytes() == line("a") + line("b")[:100] + b"\n" + line("c")


def test_a_whole_last_line_without_its_line_feed_counts_and_stays_whole(path: Path) -> None:
    path.write_bytes(line("a")[:-1])
    assert ids(path) == ["a"]
    LogFile(path).append(done_set(id="b"))
    assert ids(path) == ["a", "b"]


def test_a_bad_line_in_the_middle_is_skipped_and_named_by_its_number(path: Path) -> None:
    path.write_bytes(line("a") + b"lower slowly\n" + line("b") + b"[]\n" + line("c"))
    assert ids(path) == ["a", "b", "c"]
    assert skipped(path) == [(2, "not JSON"), (4, "not a JSON object")]


def test_a_skipped_line_names_its_file(path: Path) -> None:
    path.write_bytes(b"?\n")
    assert read(path) == [Skipped(str(path), 1, "not JSON")]


def test_a_newer_line_is_kept_even_as_the_last_without_a_line_feed(path: Path) -> None:
    path.write_bytes(line("a") + b'{"v":3,"kind":"set_done"}')
    (_, newer) = read(path)
    assert isinstance(newer, Skipped)
    assert newer.foreign
    assert newer.line == 2


def test_a_log_that_is_half_binary_gives_its_good_half(path: Path) -> None:
    noise = bytes(byte for byte in range(256) if byte != ord("\n")) * 16
    path.write_bytes(line("a") + noise + b"\n" + line("b"))
    assert ids(path) == ["a", "b"]
    assert skipped(path) == [(2, "not JSON")]


def test_other_line_ends_and_blank_lines_change_nothing(path: Path) -> None:
    crlf = line("a")[:-1] + b"\r\n"
    path.write_bytes(b"\n" + crlf + b"\r\n \t\n" + line("b") + b"\n\n")
    assert ids(path) == ["a", "b"]
    assert skipped(path) == []


@given(st.data())
@settings(max_examples=60)
def test_a_log_cut_at_any_byte_loses_at_most_its_last_line(
    tmp_path_factory: pytest.TempPathFactory, data: st.DataObject
) -> None:
    lines = [line(f"{number}ü") for number in range(4)]
    whole = b"".join(lines)
    size = data.draw(st.integers(0, len(whole)))
    path = tmp_path_factory.mktemp("cut") / "log.jsonl"
    path.write_bytes(whole[:size])

    kept = whole[:size].count(b"\n")

    found = ids(path)
    assert found[:kept] == [f"{number}ü" for number in range(kept)]
    assert len(found) - kept + len(skipped(path)) <= 1


# Several processes, and processes that die.


def session(path: Path, name: str, count: int) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "tests.tempo_coach.storage.appending", path, name, str(count)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
    )


@pytest.mark.slow
def test_two_processes_write_500_lines_each_and_every_line_is_whole(path: Path) -> None:
    with session(path, "one", 500) as one, session(path, "two", 500) as two:
        said = [process.communicate()[0].decode().split() for process in (one, two)]
    assert [len(several) for several in said] == [500, 500]
    assert skipped(path) == []
    found = ids(path)
    assert len(found) == 1000
    for several in said:
        assert [set_id for set_id in found if set_id in set(several)] == several


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(10))
def test_a_killed_process_has_lost_no_set_it_said_was_logged(path: Path, seed: int) -> None:
    random = Random(seed)  # noqa: S311 - a moment to be killed at is no secret
    with session(path, "killed", 100_000) as process:
        assert process.stdout is not None
        said = [process.stdout.readline() for _ in range(random.randint(1, 50))]
        for _ in range(random.randrange(5000)):
            pass  # so that it falls inside a write as well as between two
        process.kill()
        said += process.stdout.readlines()
    assert process.returncode == -signal.SIGKILL
    acknowledged = [set_id.decode().strip() for set_id in said if set_id.endswith(b"\n")]
    found = ids(path)
    assert found[: len(acknowledged)] == acknowledged
    assert len(found) <= len(acknowledged) + 1
    assert len(skipped(path)) <= 1


@pytest.mark.parametrize("device", ["/dev/null", "/dev/full"])
def test_a_device_holds_no_log_however_much_it_gives(device: str) -> None:
    if not Path(device).exists():
        pytest.skip("this system has no such device")

    assert list(LogFile(Path(device)).read()) == []
