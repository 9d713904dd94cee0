"""One log or a hundred, merged by id, as rows; a set takes 79 bytes, so millions fit.

Most ids stand in one line, and that line alone says what their row is. The lines of the others,
which are corrected, measured, struck or there twice, are read again and folded by `history.fold`,
which alone says what several facts of one id mean.
"""

from __future__ import annotations

from array import array
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import groupby
from operator import itemgetter
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tempo_coach.core.facts import Fact, SetCorrected, SetDone, SetStruck
from tempo_coach.core.history import History, fold
from tempo_coach.core.log_lines import Skipped, Unread, read_line, read_whole_line
from tempo_coach.core.measured_facts import SetMeasured
from tempo_coach.core.ports import LogLines
from tempo_coach.core.quick_lines import quick_values
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.recorded_reserve_tests import RecordedReserveTests
from tempo_coach.core.recorded_soreness import RecordedSoreness
from tempo_coach.core.session_facts import SessionChanged
from tempo_coach.core.set_rows import RowWriter, SetRows, row_values
from tempo_coach.core.whole_facts import WholeFacts
from tempo_coach.errors import TempoCoachError

_OFFSET_BITS = 44
"""A place is the number of a log, and in these bits where the line begins in it: 16 TB."""
_SEVERAL = -1
"""The place of a set for which more than one line speaks."""
_NAMES = ("lifter", "exercise")
_AT_ONCE = 10_000
_TOLD_EVERY = 1_000
_BLOCK = 100_000


@dataclass(frozen=True, slots=True)
class MergedLogs:
    """What some logs say together."""

    rows: SetRows
    """The sets that count, corrected."""
    skipped: tuple[Skipped, ...]
    struck: int
    disagreeing: tuple[str, ...]
    """As for `History`."""
    orphaned: tuple[str, ...]
    """As for `History`."""
    maxes: RecordedMaxes
    """Whole, since they are few, and with names as in the rows."""
    reserve_tests: RecordedReserveTests
    """Whole too."""
    soreness: RecordedSoreness
    """Whole too."""
    _logs: Sequence[LogLines] = field(repr=False)
    _several: NDArray[Any] = field(repr=False)
    """Hashes of ids and places, in order, where more than one line speaks for an id."""

    def renamed(
        self,
        rows: SetRows,
        *,
        maxes: RecordedMaxes,
        reserve_tests: RecordedReserveTests,
        soreness: RecordedSoreness,
        text: Callable[[str], str],
    ) -> MergedLogs:
        """Return the same under other names, with each log named by its number.

        Parameters
        ----------
        rows
            The rows with their new names.
        maxes
            The maxes with theirs.
        reserve_tests
            The reserve tests with theirs.
        soreness
            What was told of soreness with theirs.
        text
            What to put in place of any other text.
        """
        numbers = {log.name: f"log {number}" for number, log in enumerate(self._logs, start=1)}
        skipped = tuple(
            replace(one, file=numbers[one.file], why=text(one.why)) for one in self.skipped
        )
        return replace(
            self,
            rows=rows,
            maxes=maxes,
            reserve_tests=reserve_tests,
            soreness=soreness,
            skipped=skipped,
        )

    def sets(self, rows: SetRows) -> Iterator[SetDone]:
        """Read whole sets again, as `measured_sets` does."""
        return (done for done, _ in self.measured_sets(rows))

    def measured_sets(self, rows: SetRows) -> Iterator[tuple[SetDone, SetMeasured | None]]:
        """Read whole sets again, lifter by lifter, in the order they were done.

        Parameters
        ----------
        rows
            Some of `rows`.

        Yields
        ------
        tuple of SetDone, and SetMeasured or None
            The set with each name as last written, and how it was measured.

        Raises
        ------
        LogUnreadable
            A log can't be read a second time.
        """
        data = rows.data
        order = np.lexsort((data["start_us"], data["lifter"]))
        is_next = np.diff(data["lifter"][order]) != 0
        is_next |= np.diff(data["start_us"][order]) != 0
        for begin, end in _batches(is_next, len(rows)):
            some = data[order[begin:end]]
            numbers = zip(some["lifter"].tolist(), some["exercise"].tolist(), strict=True)
            wanted = dict(zip(some["id"].tolist(), numbers, strict=True))
            is_several = some["place"] == _SEVERAL
            at = np.searchsorted(self._several["id"], some["id"][is_several])
            to = np.searchsorted(self._several["id"], some["id"][is_several], side="right")
            places = some["place"][~is_several].tolist()
            for first, last in zip(at.tolist(), to.tolist(), strict=True):
                places += self._several["place"][first:last].tolist()
            named = []
            history = fold(_facts_at(self._logs, places))
            for done in history.sets:
                lifter, exercise = wanted[hash(done.id)]
                names = (rows.lifters[lifter], rows.exercises[exercise])
                is_named = (done.lifter, done.exercise) == names
                update = dict(zip(_NAMES, names, strict=True))
                of_name = done if is_named else done.model_copy(update=update)
                named.append((lifter, (of_name, history.measured.get(done.id))))
            yield from (one for _, one in sorted(named, key=itemgetter(0)))


def merged(logs: Sequence[LogLines], *, advance: Callable[[int], None]) -> MergedLogs:
    """Read logs line by line and merge them.

    Parameters
    ----------
    logs
        At most half a million.
    advance
        Is told now and then how many more bytes were read.

    Raises
    ------
    LogUnreadable
        One of them can't be read as a whole.
    TempoCoachError
        One was changed, other than by new lines, while it was read.
    """
    writer, skipped = RowWriter(), []
    later = array("q")
    whole = WholeFacts()
    struck_ids: set[str] = set()
    for index, log in enumerate(logs):
        place = told = index << _OFFSET_BITS
        for number, line in enumerate(log.lines(), start=1):
            if (values := quick_values(line)) is not None:
                writer.append(place, values)
            else:
                match read_whole_line(line, file=log.name, number=number):
                    case SetDone() as done:
                        writer.append(place, row_values(done))
                    case SetCorrected() | SetMeasured() | SetStruck() as fact:
                        later.extend((hash(fact.id), place))
                        if isinstance(fact, SetStruck):
                            struck_ids.add(fact.id)
                    case Skipped() as one:
                        skipped.append(one)
                    case SessionChanged() | None:
                        pass
                    case fact:
                        whole.take(fact)
            place += len(line)
            if number % _TOLD_EVERY == 0:
                advance(place - told)
                told = place
        advance(place - told)
    data = writer.data()
    is_single, several = _parted(data, np.frombuffer(later, dtype=_PLACED))
    struck = 0
    disagreeing: list[str] = []
    orphaned: list[str] = []
    for history in _folded(logs, several):
        struck += len(history.struck)
        disagreeing += history.disagreeing
        orphaned += history.orphaned
        for done in history.sets:
            writer.append(_SEVERAL, row_values(done, history.measured.get(done.id)))
    rows = writer.named(_rejoined(data, is_single, writer.data()))
    maxes, reserve_tests, soreness = whole.folded(struck=struck_ids)
    return MergedLogs(
        rows=rows,
        skipped=tuple(skipped),
        struck=struck,
        disagreeing=tuple(sorted(disagreeing)),
        orphaned=tuple(sorted(orphaned)),
        maxes=maxes.spelt(lifters=rows.lifters, exercises=rows.exercises),
        reserve_tests=reserve_tests,
        soreness=soreness,
        _logs=logs,
        _several=several,
    )


_PLACED = np.dtype([("id", "<i8"), ("place", "<i8")])


def _parted(data: NDArray[Any], later: NDArray[Any]) -> tuple[NDArray[np.bool_], NDArray[Any]]:
    """Tell which rows are alone with their id, and list the places of all others by id."""
    ids = np.sort(data["id"])
    several = np.union1d(ids[1:][ids[1:] == ids[:-1]], later["id"])
    if not len(several):
        return np.ones(len(data), dtype=np.bool_), np.empty(0, dtype=_PLACED)
    at = np.searchsorted(several, data["id"]).clip(max=len(several) - 1)
    is_single = several[at] != data["id"]
    listed = np.concatenate([_placed(data[~is_single]), later])
    return is_single, listed[np.lexsort((listed["place"], listed["id"]))]


def _placed(data: NDArray[Any]) -> NDArray[Any]:
    placed = np.empty(len(data), dtype=_PLACED)
    placed["id"], placed["place"] = data["id"], data["place"]
    return placed


def _rejoined(
    data: NDArray[Any], is_single: NDArray[np.bool_], several: NDArray[Any]
) -> NDArray[Any]:
    """Keep single rows and add those that were folded, in the place of the rows before them."""
    # Block by block, since a copy of millions of rows would take as much again.
    end = 0
    for begin in range(0, len(data), _BLOCK):
        kept = data[begin : begin + _BLOCK][is_single[begin : begin + _BLOCK]]
        data[end : end + len(kept)] = kept
        end += len(kept)
    data[end : end + len(several)] = several
    return data[: end + len(several)]


def _folded(logs: Sequence[LogLines], several: NDArray[Any]) -> Iterator[History]:
    """Fold the facts of some ids at a time; together they say what one fold of all would."""
    for begin, end in _batches(np.diff(several["id"]) != 0, len(several)):
        yield fold(_facts_at(logs, several["place"][begin:end].tolist()))


def _facts_at(logs: Sequence[LogLines], places: Iterable[int]) -> Iterator[Fact]:
    for index, found in groupby(sorted(places), key=lambda place: place >> _OFFSET_BITS):
        offsets = [place & ((1 << _OFFSET_BITS) - 1) for place in found]
        for line in dict.fromkeys(logs[index].lines_at(offsets)):
            read = read_line(line.rstrip(b"\r\n"))
            if isinstance(read, Unread):
                raise TempoCoachError(
                    f"the log {logs[index].name} was changed while it was read", hint="start again"
                )
            yield read


def _batches(is_next: NDArray[np.bool_], length: int) -> Iterator[tuple[int, int]]:
    """Cut a sequence into parts, only where an element has nothing in common with the one before.

    Yields
    ------
    tuple of int
        Where a part begins and ends.
    """
    begin = 0
    while begin < length:
        end = min(begin + _AT_ONCE, length)
        while end < length and not is_next[end - 1]:
            end += 1
        yield begin, end
        begin = end
