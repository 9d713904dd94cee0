from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence
from contextlib import suppress
from datetime import date, datetime, time, timedelta
from pathlib import Path
from typing import Any

import openpyxl
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tempo_coach.core.plan_cells import Cell, SheetDate, SheetTime
from tempo_coach.core.plan_table import Sheet, TableReading, read_table
from tempo_coach.errors import FileUnreadable, TableRefused
from tempo_coach.storage.plan_table import TableFile

HEADINGS = ["Week", "Day", "Exercise", "Sets", "Reps", "Tempo", "Load", "Rest", "Notes"]
ROWS: list[list[Any]] = [
    [1, "Monday", "front squat", 4, 5, "4-1-X-1", "80 kg", "3:00", "heels down; chest up"],
    [1, "Thursday", "Überzug", 3, 8, "3-0-1-0", "22,5", "90", None],
]
LINES = ["front squat 4x5 @ 80 kg 4-1-X-1 rest 3:00", "Überzug 3x8 @ 22.5 kg 3-0-1-0 rest 1:30"]


def imported(path: Path) -> TableReading:
    sheets, _ = TableFile(path).read()
    return read_table(sheets, name="x", start=date(2026, 11, 30), lifter="Sabine Ihle")


def lines(path: Path) -> list[str]:
    return [str(row.line) for row in imported(path).rows]


def text_of(rows: Sequence[Sequence[Any]], separator: str, line_end: str = "\r\n") -> str:
    frame = pd.DataFrame(rows, columns=pd.Index(HEADINGS))
    return frame.to_csv(sep=separator, index=False, lineterminator=line_end)


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_text_that_pandas_wrote_is_read_whatever_separates_it(
    tmp_path: Path, separator: str, line_end: str
) -> None:
    # pandas: a second, independent writer of CSV.
    path = tmp_path / "table.csv"
    path.write_bytes(text_of(ROWS, separator, line_end).encode())
    assert lines(path) == LINES


@pytest.mark.parametrize(
    ("encoding", "letters"),
    [
        ("utf-8", "UTF-8"),
        ("utf-8-sig", "UTF-8"),
        ("utf-16", "UTF-16"),
        ("latin-1", "Latin-1, since it is not UTF-8: look at the accents"),
    ],
)
def test_text_is_read_in_the_usual_encodings(tmp_path: Path, encoding: str, letters: str) -> None:
    path = tmp_path / "table.csv"
    path.write_bytes(text_of(ROWS, ";").encode(encoding))
    assert TableFile(path).read()[1] == letters
    assert lines(path) == LINES


def test_utf_16_is_read_in_either_order_of_bytes(tmp_path: Path) -> None:
    path = tmp_path / "table.csv"
    path.write_bytes(b"\xfe\xff" + text_of(ROWS, ",").encode("utf-16-be"))
    assert lines(path) == LINES


def workbook(path: Path, rows: Sequence[Sequence[Any]]) -> openpyxl.Workbook:
    book = openpyxl.Workbook()
    sheet = book.worksheets[0]
    for row in rows:
        sheet.append(list(row))
    book.save(path)
    return book


def test_a_workbook_that_pandas_wrote_is_read(tmp_path: Path) -> None:
    path = tmp_path / "table.xlsx"
    pd.DataFrame(ROWS, columns=pd.Index(HEADINGS)).to_excel(path, index=False)
    assert lines(path) == LINES


def test_a_workbook_may_have_titles_merged_cells_and_empty_columns(tmp_path: Path) -> None:
    path = tmp_path / "table.xlsx"
    rows: list[list[Any]] = [["Winter block"], [], [None, *HEADINGS]]
    rows += [[None, *row] for row in ROWS]
    rows += [[], [None, 2], [None, None, "Monday", "row", 3, 8, "2-0-1-1"]]
    book = workbook(path, rows)
    book.worksheets[0].merge_cells("A1:J1")
    book.worksheets[0].merge_cells("B4:B5")
    book.save(path)
    reading = imported(path)
    assert [str(row.line) for row in reading.rows][:2] == LINES
    assert (reading.rows[-1].row, reading.rows[-1].weeks) == (8, range(2, 3))


def test_typed_cells_are_read_as_they_are_meant(tmp_path: Path) -> None:
    path = tmp_path / "table.xlsx"
    typed = [1, "Mon", "row", 4.0, 5, datetime(2001, 4, 1), 0.72, time(3, 0), True]  # noqa: DTZ001 - a cell has no offset
    book = workbook(path, [HEADINGS, typed])
    sheet = book.worksheets[0]
    sheet["F2"].number_format = "mm-dd-yy"
    sheet["G2"].number_format = "0%"
    book.save(path)

    assert lines(path) == ["row 4x5 @ 72% 4-1-1-0 rest 3:00"]
    assert imported(path).rows[0].remarks == (
        "the date 2001-04-01 was read as the tempo 4-1-1-0",
        "the time 3:00:00 was read as a rest of 3:00",
    )


@pytest.mark.parametrize(
    ("value", "number_format", "cell"),
    [
        (date(2004, 1, 1), "yyyy-mm-dd", SheetDate(date(2004, 1, 1), "ymd")),
        (date(2001, 1, 4), "dd/mm/yyyy", SheetDate(date(2001, 1, 4), "dmy")),
        (date(2001, 1, 4), "d-mmm", SheetDate(date(2001, 1, 4), "dmy")),
        (date(2001, 4, 1), "m/d/yy", SheetDate(date(2001, 4, 1), "mdy")),
        (timedelta(hours=26, minutes=3, seconds=4), "[h]:mm:ss", SheetTime(26, 3, 4)),
        (0.725, "0.0%", "72.500%"),
        (True, "General", "True"),
        (None, "General", None),
        (7, "General", 7),
        ("=1+1", "General", None),
    ],
)
def test_a_cell_of_a_workbook_keeps_its_meaning(
    tmp_path: Path, value: Any, number_format: str, cell: Cell
) -> None:
    path = tmp_path / "table.xlsx"
    book = workbook(path, [["a"], [value, "end"]])
    book.worksheets[0]["A2"].number_format = number_format
    book.save(path)
    sheets, letters = TableFile(path).read()
    assert letters == "a workbook"
    assert sheets == (Sheet("sheet Sheet", (("a", None), (cell, "end"))),)


def test_what_is_no_table_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "table.csv"
    for content, said in (
        (b"\x00\x01\x02", "it is no text and no .xlsx workbook"),
        (b"PK\x03\x04 no zip", "the workbook is damaged or encrypted"),
        (b'a,"' + b"x" * 200_000, "field larger than field limit"),
    ):
        path.write_bytes(content)
        with pytest.raises(TableRefused, match=said):
            TableFile(path).read()


def test_a_zip_that_is_no_workbook_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "table.xlsx"
    with zipfile.ZipFile(path, "w") as archive:
        archive.writestr("hello.txt", "hello")
    with pytest.raises(TableRefused, match=r"damaged or encrypted; save it as .csv or .xlsx again"):
        TableFile(path).read()


def test_a_path_without_a_readable_file_says_why(tmp_path: Path) -> None:
    with pytest.raises(FileUnreadable, match=r"there is no such file; give a .csv or .xlsx file"):
        TableFile(tmp_path / "nowhere.csv").read()
    with pytest.raises(FileUnreadable, match="it is a folder"):
        TableFile(tmp_path).read()


def _workbook_bytes() -> bytes:
    memory = io.BytesIO()
    book = openpyxl.Workbook()
    book.worksheets[0].append(HEADINGS)
    book.worksheets[0].append([1, "Mon", "row", 4, 5, "4-1-X-1"])
    book.save(memory)
    return memory.getvalue()


WORKBOOK = _workbook_bytes()


def _with_part(part: str, content: bytes) -> bytes:
    """Return the workbook with one of its parts exchanged."""
    memory = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(WORKBOOK)) as old, zipfile.ZipFile(memory, "w") as new:
        for name in old.namelist():
            new.writestr(name, content if name == part else old.read(name))
    return memory.getvalue()


def _part(name: str) -> bytes:
    with zipfile.ZipFile(io.BytesIO(WORKBOOK)) as book:
        return book.read(name)


PARTS = zipfile.ZipFile(io.BytesIO(WORKBOOK)).namelist()

_damaged = st.one_of(
    st.builds(
        lambda at, byte: WORKBOOK[:at] + bytes([byte]) + WORKBOOK[at + 1 :],
        st.integers(4, len(WORKBOOK) - 1),
        st.integers(0, 255),
    ),
    st.integers(4, len(WORKBOOK)).map(lambda size: WORKBOOK[:size]),
    st.builds(
        lambda name, at, more: _with_part(
            name, _part(name)[: at % len(_part(name))] + more + _part(name)[at % len(_part(name)) :]
        ),
        st.sampled_from(PARTS),
        st.integers(0, 5000),
        st.sampled_from((b"<", b'"', b"9", b"x", b"</", b"\xff", b"-1", b" ")),
    ),
)


@given(_damaged | st.binary(max_size=200))
def test_any_bytes_are_sheets_or_refused(
    tmp_path_factory: pytest.TempPathFactory, content: bytes
) -> None:
    path = tmp_path_factory.getbasetemp() / "any.xlsx"
    path.write_bytes(content)
    with suppress(TableRefused):
        sheets, letters = TableFile(path).read()
        assert all(sheet.name for sheet in sheets)
        assert letters
