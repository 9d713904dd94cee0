from __future__ import annotations

from datetime import timedelta
from pathlib import Path

import pytest

from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.errors import FileUnreadable, LogUnreadable
from tempo_coach.ui.day_book import AS_READ, CHANGED, DayBook, DayReading
from tempo_coach.ui.underway import Underway
from tests.tempo_coach.fakes import disk_full
from tests.tempo_coach.ui.plan_rack import TODAY, PlanRack, squat

LIFTER = "Mirela Oude"


class Book:
    """A day book over a rack that is not shown."""

    def __init__(self) -> None:
        self.rack = PlanRack()
        self.book = DayBook(
            Underway(self.rack.coach), self.rack.plan, self.rack.plan.read(today=TODAY).usable("")
        )

    def read(self) -> DayReading:
        return self.book.read(LIFTER, None)


def test_a_day_is_read_with_what_the_log_says_of_it() -> None:
    book = Book()
    book.rack.log.facts.append(squat(1))
    reading = book.read()

    assert reading.session is not None
    assert reading.session.items[0].next_set == 2
    assert reading.today == reading.session.day.date
    assert (len(reading.days), reading.notices) == (12, ())


def test_sets_that_are_not_on_the_disk_count_too() -> None:
    book = Book()
    book.read()
    book.rack.log.fault = disk_full()
    reading = book.book.change(1, "skipped", why="knee")

    assert reading is not None
    assert reading.session is not None
    assert reading.session.items[0].skipped == "knee"
    assert reading.notices == (
        "The change is kept in memory, not yet on the disk. The disk is full. Make room.",
    )


def test_changes_follow_one_another_from_where_the_last_one_left_the_day() -> None:
    book = Book()
    book.read()
    book.book.move(2, -1)
    assert book.book.move(2, -1) is None
    book.book.move(2, 1)

    facts = book.rack.log.facts
    assert [fact.to for fact in facts if isinstance(fact, SessionChanged)] == [1, 2]
    assert len({fact.at for fact in facts if isinstance(fact, SessionChanged)}) == 2


def test_before_a_day_was_read_nothing_can_be_changed() -> None:
    assert Book().book.change(1, "added_set") is None
    assert Book().book.move(1, 1) is None


def test_an_edited_plan_is_read_again_and_says_so_once() -> None:
    book = Book()
    book.read()
    book.rack.plan.text = book.rack.plan.text.replace("2x1 @ 72%", "3x1 @ 80%")
    reading = book.read()

    assert reading.notices == (CHANGED,)
    assert reading.session is not None
    assert str(reading.session.items[0].prescription).startswith("front squat 3x1 @ 72.5 kg")
    assert book.read().notices == ()


def test_a_plan_that_breaks_leaves_the_day_as_last_read_and_says_what_is_wrong() -> None:
    book = Book()
    book.read()
    book.rack.plan.text = book.rack.plan.text.replace("weeks = 6", "weeks = 0")
    reading = book.read()

    assert len(reading.notices) == 1
    assert "weeks = 0 is not possible" in reading.notices[0]
    assert reading.notices[0].endswith(AS_READ)
    assert reading.session is not None
    assert len(reading.session.items) == 2


def test_a_plan_that_is_deleted_leaves_the_day_as_last_read() -> None:
    book = Book()
    book.read()
    book.rack.plan.fault = FileUnreadable("the plan is gone", path=Path("winter.toml"))
    reading = book.read()

    assert reading.notices == (f"The plan is gone. {AS_READ}",)
    assert reading.session is not None


def test_a_lifter_who_is_taken_out_of_the_plan_keeps_the_day_as_last_read() -> None:
    book = Book()
    book.read()
    book.rack.plan.text = book.rack.plan.text.replace(LIFTER, "Sabine Ihle")
    reading = book.read()

    assert reading.session is not None
    assert reading.session.lifter == LIFTER
    assert any("no lifter 'Mirela Oude'" in notice for notice in reading.notices)


def test_a_log_that_cant_be_read_leaves_the_day_as_last_read(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    book = Book()
    book.read()

    def refuse() -> None:
        raise LogUnreadable("the log is a folder", path=Path("log"))

    monkeypatch.setattr(book.rack.log, "read", refuse)
    reading = book.read()

    assert reading.notices == (f"The log is a folder. {AS_READ}",)
    assert reading.session is not None


def test_a_day_that_is_asked_for_is_read_and_one_that_is_gone_is_not() -> None:
    book = Book()
    thursday = TODAY + timedelta(days=3)
    asked = book.book.read(LIFTER, thursday)
    gone = book.book.read(LIFTER, TODAY + timedelta(days=1))

    assert asked.session is not None
    assert asked.session.day.date == thursday
    assert gone.session is not None
    assert gone.session.day.date == TODAY


def test_the_book_knows_its_lifters_in_any_spelling() -> None:
    book = Book().book

    assert book.names == ("Mirela Oude", "Jonne Tarval")
    assert book.is_of("mirela OUDE")
    assert not book.is_of("Ana")
    assert not book.is_of(None)
