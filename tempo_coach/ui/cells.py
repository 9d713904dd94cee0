"""Text in columns, measured in cells of the terminal and not in characters."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from rich.cells import cell_len, set_cell_size

_GAP = "  "
_ELLIPSIS = "…"


@dataclass(frozen=True, slots=True)
class Column:
    """How one column is laid out."""

    heading: str = ""
    to_right: bool = False
    """Numbers stand to the right."""
    takes_rest: bool = False
    """Gets what the others leave, and is cut where that is too little; one column does."""
    gives_way: int = 0
    """Where the room is too small the columns with the highest number go first; 0 stays."""


def fitted(text: str, width: int, *, to_right: bool = False) -> str:
    """Return a text that fills so many cells, cut with an ellipsis where it is longer."""
    length = cell_len(text)
    if length > width:
        return set_cell_size(text, max(width - 1, 0)) + _ELLIPSIS[:width]
    padding = " " * (width - length)
    return padding + text if to_right else text + padding


def laid_out(
    columns: Sequence[Column], rows: Iterable[Sequence[str]], *, width: int, least_rest: int = 12
) -> tuple[str, ...]:
    """Return a line of headings and a line a row, all of one width in cells.

    Parameters
    ----------
    columns
        Their layout.
    rows
        Their texts, one for each column.
    width
        Cells there are.
    least_rest
        Below so many cells for the column that takes the rest, columns give way.
    """
    lines = [[column.heading for column in columns], *map(list, rows)]
    shown = list(range(len(columns)))
    natural = [max(cell_len(line[at]) for line in lines) for at in shown]

    def left_over() -> int:
        fixed = [natural[at] for at in shown if not columns[at].takes_rest]
        return width - sum(fixed) - len(_GAP) * (len(shown) - 1)

    while left_over() < least_rest:
        weakest = max(shown, key=lambda at: columns[at].gives_way)
        if not columns[weakest].gives_way:
            break
        shown.remove(weakest)
    rest = max(left_over(), 1)
    return tuple(
        _GAP.join(
            fitted(
                line[at],
                rest if columns[at].takes_rest else natural[at],
                to_right=columns[at].to_right,
            )
            for at in shown
        )
        for line in lines
    )
