from __future__ import annotations

import os
from pathlib import Path

import pytest

from tempo_coach.errors import LogUnreadable
from tempo_coach.storage.log_folder import log_paths


def test_a_folder_stands_for_its_logs_at_any_depth_in_order(tmp_path: Path) -> None:
    (tmp_path / "b" / "deep").mkdir(parents=True)
    for name in ("z.jsonl", "b/deep/a.jsonl", "b/log.txt", "a.jsonl"):
        (tmp_path / name).touch()

    assert log_paths([tmp_path]) == tuple(
        tmp_path / name for name in ("a.jsonl", "b/deep/a.jsonl", "z.jsonl")
    )


def test_one_file_by_several_names_is_one_log(tmp_path: Path) -> None:
    log, link, hard = (tmp_path / name for name in ("a.jsonl", "link.jsonl", "hard.jsonl"))
    log.touch()
    link.symlink_to(log)
    hard.hardlink_to(log)

    assert log_paths([link, log, hard, tmp_path / ".." / tmp_path.name / "a.jsonl"]) == (link,)


def test_a_file_that_is_not_there_is_left_to_whoever_reads_it(tmp_path: Path) -> None:
    assert log_paths([tmp_path / "gone.jsonl"]) == (tmp_path / "gone.jsonl",)


def test_a_folder_without_logs_is_refused(tmp_path: Path) -> None:
    with pytest.raises(LogUnreadable, match="has no log in it or below"):
        log_paths([tmp_path])


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_folder_below_that_can_not_be_read_is_refused_and_not_passed_over(
    tmp_path: Path,
) -> None:
    (tmp_path / "a.jsonl").touch()
    (tmp_path / "closed").mkdir(mode=0)

    with pytest.raises(LogUnreadable, match=r"closed can't be read: permission is denied"):
        log_paths([tmp_path])
