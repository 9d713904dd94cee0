"""Codes in place of names, the same in every export made with one key."""

from __future__ import annotations

import hashlib
import hmac
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from tempo_coach.core.export_columns import Cells
from tempo_coach.core.export_tables import Choice, ExportTable
from tempo_coach.core.facts import MaxTested, SetDone
from tempo_coach.core.legible import name_key
from tempo_coach.core.merged_logs import MergedLogs
from tempo_coach.core.reserve_test import ReserveTest
from tempo_coach.core.soreness_facts import SorenessTold

KEY_BYTES = 32
SHORTEST = 8
"""Letters of a code: 40 bits, so that among a hundred lifters two alike have a chance of about one
in two hundred million; they then get longer codes."""
_ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without I, L, O and U, which are easily misread."""
_TELLING = 3
"""Letters that a part of a name must have to give the name away."""
SAID = (
    "Names are replaced by codes, the same in every export made with your key; set ids are "
    "replaced too, and so are exercises, methods and loads whose text holds a name. Notes are left "
    "out, and logs are named by number."
)


@dataclass(frozen=True, slots=True)
class Pseudonyms:
    """The codes of some lifters."""

    _key: bytes
    _codes: Mapping[str, str]
    """By `name_key`."""
    _telling: re.Pattern[str]
    """Finds a name, or a part of one, in a `name_key`."""

    @classmethod
    def of(cls, names: Iterable[str], *, key: bytes, shortest: int = SHORTEST) -> Pseudonyms:
        """Give every name a code of its own; two alike are both made longer until they differ."""
        keys = sorted({name_key(name) for name in names})
        whole = {name: _letters(key, f"lifter {name}") for name in keys}
        lengths = dict.fromkeys(keys, shortest)
        while True:
            by_code: dict[str, list[str]] = {}
            for name in keys:
                by_code.setdefault(whole[name][: lengths[name]], []).append(name)
            alike = [name for several in by_code.values() if len(several) > 1 for name in several]
            if not alike:
                break
            lengths |= {name: lengths[name] + 4 for name in alike}
        codes = {name: _code("L", whole[name][: lengths[name]]) for name in keys}
        return cls(key, codes, _telling(keys))

    def lifter(self, name: str) -> str:
        """Return the code of a name that was given."""
        return self._codes[name_key(name)]

    def text(self, text: str) -> str:
        """Return a text as it is, or a code for it where it holds a name or a part of one."""
        if self._telling.search(name_key(text)) is None:
            return text
        return _code("T", _letters(self._key, f"text {name_key(text)}")[:SHORTEST])

    def choice(self, choice: Choice) -> Choice:
        """Return a choice of names, which must be known, as one of codes."""
        return replace(
            choice,
            lifters=tuple(map(self.lifter, choice.lifters)),
            exercises=tuple(map(self.text, choice.exercises)),
            methods=tuple(map(self.text, choice.methods)),
        )

    def logs(self, logs: MergedLogs) -> MergedLogs:
        """Put the codes in place of the names, in order of the codes; changes the rows."""
        rows = logs.rows
        codes = [self.lifter(name) for name in rows.lifters]
        order = sorted(range(len(codes)), key=codes.__getitem__)
        if codes:
            # The order of the names would tell of them.
            rows.data["lifter"] = np.argsort(order).astype(np.int32)[rows.data["lifter"]]
        return logs.renamed(
            replace(
                rows,
                lifters=tuple(codes[number] for number in order),
                exercises=tuple(map(self.text, rows.exercises)),
                methods=tuple(map(self.text, rows.methods)),
            ),
            maxes=logs.maxes.renamed(self._max),
            reserve_tests=logs.reserve_tests.renamed(self._test),
            soreness=logs.soreness.renamed(self._told),
            text=self.text,
        )

    def done(self, done: SetDone) -> SetDone:
        """Put codes in place of what else a set may say of names, and leave out its note."""
        return done.model_copy(
            update={
                "note": "",
                "method": None if done.method is None else self.text(done.method),
                "load_as_written": self.text(done.load_as_written),
            }
        )

    def _max(self, tested: MaxTested) -> MaxTested:
        return tested.model_copy(
            update={
                "id": self._id(tested.id),
                "lifter": self.lifter(tested.lifter),
                "exercise": self.text(tested.exercise),
                "load_as_written": self.text(tested.load_as_written),
                "note": "",
            }
        )

    def _test(self, test: ReserveTest) -> ReserveTest:
        begun = test.begun.model_copy(
            update={
                "id": self._id(test.begun.id),
                "lifter": self.lifter(test.begun.lifter),
                "exercise": self.text(test.begun.exercise),
            }
        )
        attempts = tuple(
            one.model_copy(
                update={
                    "id": self._id(one.id),
                    "test": begun.id,
                    "set": None if one.set is None else self._id(one.set),
                }
            )
            for one in test.attempts
        )
        return ReserveTest(begun, attempts)

    def _told(self, told: SorenessTold) -> SorenessTold:
        return told.model_copy(update={"id": self._id(told.id), "lifter": self.lifter(told.lifter)})

    def _id(self, of: str) -> str:
        return _code("S", _letters(self._key, f"set {of}")[: 2 * SHORTEST])

    def table(self, table: ExportTable) -> ExportTable:
        """Put codes in place of what else in a table may hold a name, and leave out notes."""
        return replace(table, rows=map(self._cells, table.rows))

    def _cells(self, row: Cells) -> Cells:
        masked = dict(row)
        if "note" in row:
            masked["note"] = None
        if isinstance(set_id := row.get("id"), str):
            masked["id"] = self._id(set_id)
        for name in ("method", "load_as_written"):
            if isinstance(text := row.get(name), str):
                masked[name] = self.text(text)
        return masked


def _telling(keys: list[str]) -> re.Pattern[str]:
    parts = {part for key in keys for part in key.split() if len(part) >= _TELLING}
    either = "|".join(map(re.escape, sorted({*keys, *parts}))) or r"(?!)"
    return re.compile(rf"(?<!\w)(?:{either})(?!\w)")


def _letters(key: bytes, what: str) -> str:
    """Return 51 letters of a keyed hash (HMAC-SHA-256, RFC 2104)."""
    digest = int.from_bytes(hmac.digest(key, what.encode(), hashlib.sha256))
    return "".join(_ALPHABET[digest >> 5 * place & 31] for place in range(51))


def _code(sort: str, letters: str) -> str:
    return "-".join([sort, *(letters[at : at + 4] for at in range(0, len(letters), 4))])
