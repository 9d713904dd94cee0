from __future__ import annotations

from tempo_coach.ui.rep_words import heard_last, in_columns

MOMENTS_MS = (1_000, 2_000, 3_000, 4_000)


def test_the_cue_heard_last_is_the_latest_whose_moment_has_come() -> None:
    positions = (-500, 999, 1_000, 3_999, 4_000, 60_000)

    assert [heard_last(MOMENTS_MS, at) for at in positions] == [None, None, 0, 2, 3, 3]


def test_without_a_place_none_is_heard() -> None:
    assert heard_last(MOMENTS_MS, None) is None


def test_words_stand_in_columns_as_many_as_there_is_room_for() -> None:
    words = ("ready", "lower 4 s", "end")

    assert in_columns(words, heard=None, width=80) == ("  ready       lower 4 s   end",)
    assert in_columns(words, heard=None, width=24) == ("  ready       lower 4 s", "  end")
    assert in_columns(words, heard=None, width=5) == ("  ready", "  lower 4 s", "  end")


def test_the_mark_moves_no_word() -> None:
    words = ("ready", "lower 4 s", "end")

    assert in_columns(words, heard=1, width=80) == ("  ready     ▸ lower 4 s   end",)
