"""Where each key of a TOML text stands."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Mapping
from typing import TypeAlias

Path: TypeAlias = tuple[str | int, ...]
"""Keys, and indexes from 0, from the top of the text to a value."""

_BLANK = re.compile(r"(?:[ \t\r\n]|#[^\n]*)*")
_SPACE = re.compile(r"[ \t]*")
_DOT = re.compile(r"[ \t]*\.[ \t]*")
_STRING = re.compile(
    r'"""(?:[^\\]|\\.)*?"{3,5}|\'\'\'.*?\'{3,5}|"(?:[^"\\]|\\.)*"|\'[^\']*\'', re.DOTALL
)
_BARE = re.compile(r"[A-Za-z0-9_-]+")
_SCALAR = re.compile(r"[^,\]}#\r\n]*")


def line_of(path: Path, lines: Mapping[Path, int]) -> int:
    """Return the line of a value, or of the nearest thing around it that stands in the text."""
    while path not in lines:
        path = path[:-1]
    return lines[path]


def key_lines(text: str) -> dict[Path, int]:
    """Return the line, from 1, of every key and every item of a text that is valid TOML."""
    walk = _Walk(text)
    walk.document()
    ends = [found.start() for found in re.finditer("\n", text)]
    return {(): 1} | {path: bisect_left(ends, at) + 1 for path, at in walk.places.items()}


class _Walk:
    """Goes once through a text that `tomllib` has accepted, so that it meets no faults."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._counts: dict[Path, int] = {}
        """How often each ``[[table]]`` stood there so far."""
        self.places: dict[Path, int] = {}

    def document(self) -> None:
        """Note the place of everything in the text."""
        table: Path = ()
        while self._skip(_BLANK) < len(self._text):
            begin = self._at
            if self._take("[["):
                table = self._table(tuple(self._keys()), repeats=True)
                self._take("]]")
            elif self._take("["):
                table = self._table(tuple(self._keys()), repeats=False)
                self._take("]")
            else:
                self._pair(table)
                continue
            for depth in range(1, len(table) + 1):
                self.places.setdefault(table[:depth], begin)

    def _table(self, keys: tuple[str, ...], *, repeats: bool) -> Path:
        path: Path = ()
        for key in keys[:-1]:
            path += (key,)
            if path in self._counts:
                path += (self._counts[path] - 1,)
        path += keys[-1:]
        if not repeats:
            return path
        self._counts[path] = self._counts.get(path, 0) + 1
        return (*path, self._counts[path] - 1)

    def _pair(self, table: Path) -> None:
        begin, path = self._at, table
        for key in self._keys():
            path += (key,)
            self.places.setdefault(path, begin)
        self._skip(_SPACE)
        self._take("=")
        self._skip(_SPACE)
        self._value(path)

    def _keys(self) -> Iterator[str]:
        while True:
            self._skip(_SPACE)
            found = _STRING.match(self._text, self._at) or _BARE.match(self._text, self._at)
            if found is None:
                return
            self._at = found.end()
            yield _plain(found[0])
            dot = _DOT.match(self._text, self._at)
            if dot is None:
                return
            self._at = dot.end()

    def _value(self, path: Path) -> None:
        if self._take("["):
            index = 0
            while self._skip(_BLANK) < len(self._text) and not self._take("]"):
                self.places[*path, index] = self._at
                self._value((*path, index))
                self._skip(_BLANK)
                self._take(",")
                index += 1
        elif self._take("{"):
            while self._skip(_BLANK) < len(self._text) and not self._take("}"):
                self._pair(path)
                self._skip(_BLANK)
                self._take(",")
        else:
            self._skip(_STRING if _STRING.match(self._text, self._at) else _SCALAR)

    def _skip(self, pattern: re.Pattern[str]) -> int:
        if found := pattern.match(self._text, self._at):
            self._at = found.end()
        return self._at

    def _take(self, mark: str) -> bool:
        is_there = self._text.startswith(mark, self._at)
        self._at += len(mark) if is_there else 0
        return is_there


def _plain(key: str) -> str:
    if not key.startswith(('"', "'")):
        return key
    value: str = tomllib.loads(f"key = {key}")["key"]
    return value
