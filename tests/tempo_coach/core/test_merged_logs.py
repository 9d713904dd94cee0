"""The merging of many logs against the one fold that says what facts mean, and against pandas."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable, Iterator
from random import Random

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.facts import Changes, Fact, SetCorrected, SetDone, SetStruck, line_of
from tempo_coach.core.history import History, fold
from tempo_coach.core.legible import name_key
from tempo_coach.core.log_lines import TORN, Unread, read_line
from tempo_coach.core.merged_logs import MergedLogs, merged
from tempo_coach.core.weeks import totals_by, weekly, weeks_over
from tempo_coach.errors import TempoCoachError
from tests.tempo_coach.core import strategies
from tests.tempo_coach.core.done_sets import MONDAY, done_set
from tests.tempo_coach.core.text_logs import TextLog, log_of, made_up, merge_of

fact_lists = st.lists(strategies.facts, max_size=8)


def plain_fold(content: bytes) -> History:
    read = map(read_line, content.splitlines())
    return fold(fact for fact in read if not isinstance(fact, Unread))


def lines(logs: MergedLogs) -> list[bytes]:
    return sorted(line_of(done) for done in logs.sets(logs.rows))


def as_named(sets: tuple[SetDone, ...], logs: MergedLogs) -> list[bytes]:
    """Return the lines of sets with each name as the merge writes it."""
    names = {name_key(name): name for name in (*logs.rows.lifters, *logs.rows.exercises)}
    assert len(names) == len({*logs.rows.lifters, *logs.rows.exercises})
    return sorted(
        line_of(
            done.model_copy(
                update={
                    "lifter": names[name_key(done.lifter)],
                    "exercise": names[name_key(done.exercise)],
                }
            )
        )
        for done in sets
    )


@given(fact_lists, fact_lists)
@strategies.WHOLE_LOGS
def test_merging_says_what_folding_says(one: list[Fact], other: list[Fact]) -> None:
    logs = merge_of(log_of(one), log_of(other))
    history = fold(one + other)

    assert weeks_over(logs.rows) == weekly(history.sets, measured=history.measured)
    assert logs.disagreeing == history.disagreeing
    assert logs.orphaned == history.orphaned
    assert logs.struck == len(history.struck)
    assert sorted(done.id for done in logs.sets(logs.rows)) == sorted(
        done.id for done in history.sets
    )


def test_both_ways_agree_on_a_log_with_corrections_strikes_repeats_and_disagreements() -> None:
    content = made_up(4_000)
    history = plain_fold(content)
    half = content.index(b"\n", len(content) // 2) + 1

    logs = merge_of(TextLog(content[half:]), TextLog(content[:half]), TextLog(content[:half]))

    assert len(history.struck) > 40
    assert len(history.corrected) > 100
    assert len(history.measured) > 50
    assert len(history.disagreeing) > 10
    assert weeks_over(logs.rows) == weekly(history.sets, measured=history.measured)
    assert logs.disagreeing == history.disagreeing
    assert lines(logs) == as_named(history.sets, logs)


def test_the_order_of_lines_and_logs_makes_no_difference() -> None:
    content = made_up(500).splitlines(keepends=True)
    shuffled = list(content)
    Random(3).shuffle(shuffled)  # noqa: S311 - the same order in every run, nothing secret

    there = merge_of(TextLog(b"".join(content)))
    back = merge_of(TextLog(b"".join(shuffled[200:])), TextLog(b"".join(shuffled[:200])))

    assert weeks_over(there.rows) == weeks_over(back.rows)
    assert lines(there) == lines(back)
    assert (there.rows.lifters, there.rows.exercises) == (back.rows.lifters, back.rows.exercises)


@pytest.mark.slow
def test_sums_of_a_hundred_thousand_sets_are_those_of_pandas() -> None:
    content = made_up(100_000, lifters=20, second_thoughts=False)
    frame = pd.DataFrame([json.loads(line) for line in io.BytesIO(content)])
    day = pd.to_datetime(frame["started_at"].str[:10])
    frame["monday"] = day - pd.to_timedelta(day.dt.day_of_week, unit="D")
    frame["exercise"] = frame["exercise"].str.casefold()
    frame["lower"] = frame["seconds"].map(lambda seconds: seconds["lower"])
    frame["lowering"] = frame["lower"] * frame["load_kg"]
    frame["tonnage"] = frame["reps_done"] * frame["load_kg"]
    expected = frame.groupby(["lifter", "monday", "exercise"], as_index=False).agg(
        sets=("id", "count"),
        reps=("reps_done", "sum"),
        lower=("lower", "sum"),
        lowering=("lowering", "sum"),
        tonnage=("tonnage", "sum"),
    )

    rows = merge_of(TextLog(content)).rows
    columns = (rows.data["lifter"], rows.mondays(), rows.data["exercise"])
    found = pd.DataFrame(
        [
            (
                rows.lifters[lifter],
                pd.Timestamp.fromordinal(monday),
                rows.exercises[exercise].casefold(),
                totals.sets,
                totals.reps,
                totals.times.lower_ms / 1000,
                totals.lowering_kg_s,
                totals.tonnage_kg,
            )
            for (lifter, monday, exercise), totals in totals_by(rows, *columns)
        ],
        columns=expected.columns,
    )

    assert len(found) > 2_000
    keys = ["lifter", "monday", "exercise"]
    pd.testing.assert_frame_equal(
        found.sort_values(keys, ignore_index=True),
        expected.sort_values(keys, ignore_index=True),
        check_dtype=False,
        rtol=1e-12,
    )


def test_lines_that_can_not_be_read_are_named_by_log_and_number() -> None:
    good = line_of(done_set())
    newer = good.replace(b'"v":1', b'"v":9').replace(b"5c2e", b"5c2f")
    one = TextLog(b"half a line\n\n" + good + newer, "one.jsonl")
    other = TextLog(good.replace(b"5c2e", b"77") + good[:60], "other.jsonl")

    logs = merge_of(one, other)

    assert len(logs.rows) == 2
    assert [(skip.file, skip.line, skip.foreign) for skip in logs.skipped] == [
        ("one.jsonl", 1, False),
        ("one.jsonl", 4, True),
        ("other.jsonl", 2, False),
    ]
    assert logs.skipped[2].why == TORN


def test_sets_come_lifter_by_lifter_in_the_order_they_were_done_with_names_as_last_written() -> (
    None
):
    facts: list[Fact] = [
        done_set(id="c", lifter="oda falk", exercise="Row"),
        done_set(id="b", lifter="Oda Falk", started_at=MONDAY.replace(hour=20)),
        done_set(id="a", lifter="Ansa Vireo", started_at=MONDAY.replace(hour=22), exercise="row"),
    ]

    logs = merge_of(log_of(facts))

    assert [(done.id, done.lifter, done.exercise) for done in logs.sets(logs.rows)] == [
        ("a", "Ansa Vireo", "row"),
        ("c", "Oda Falk", "row"),
        ("b", "Oda Falk", "front squat"),
    ]


def test_names_of_sets_that_do_not_count_are_not_known() -> None:
    struck: list[Fact] = [done_set(lifter="Nobody"), SetStruck(id="5c2e", at=MONDAY)]

    assert merge_of(log_of(struck)).rows.lifters == ()


def test_progress_adds_up_to_the_bytes_of_the_logs() -> None:
    logs = [TextLog(made_up(2_500)), TextLog(b""), TextLog(b"torn")]
    told: list[int] = []

    merged(logs, advance=told.append)

    assert sum(told) == sum(log.size() for log in logs)
    assert len(told) == 5


def test_a_log_that_is_written_over_while_it_is_read_gives_no_sums() -> None:
    class Changing(TextLog):
        def lines_at(self, offsets: Iterable[int]) -> Iterator[bytes]:
            yield from (b"something else\n" for _ in offsets)

    correction = SetCorrected(id="5c2e", at=MONDAY, changes=Changes(reps_done=3))
    log = Changing(log_of([done_set(), correction]).content, "changing.jsonl")

    with pytest.raises(TempoCoachError, match=r"the log changing\.jsonl was changed"):
        merge_of(log)
