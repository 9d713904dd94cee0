"""Logs as texts, and large ones made up."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from random import Random

from tempo_coach.core.facts import Fact, line_of
from tempo_coach.core.merged_logs import MergedLogs, merged

_TEMPOS = {
    "4-1-X-1": (4.0, 1.0, 1.0, 1.0),
    "3-0-1-0": (3.0, 0.0, 1.0, 0.0),
    "V-0-A-0": (2.0, 0.0, 3.0, 0.0),
    "2.5-0-1-1": (2.5, 0.0, 1.0, 1.0),
}
_EXERCISES = ("front squat", "Front Squat", "bench pull", "chin-up", "Überzug")


@dataclass(frozen=True)
class TextLog:
    """A log as one text; implements `core.ports.LogLines`."""

    content: bytes
    name: str = "log.jsonl"

    def size(self) -> int:
        return len(self.content)

    def lines(self) -> Iterator[bytes]:
        yield from self.content.splitlines(keepends=True)

    def lines_at(self, offsets: Iterable[int]) -> Iterator[bytes]:
        for offset in offsets:
            yield self.content[offset : self.content.find(b"\n", offset) + 1 or None]


def log_of(facts: Iterable[Fact], *, name: str = "log.jsonl") -> TextLog:
    return TextLog(b"".join(map(line_of, facts)), name)


def merge_of(*logs: TextLog) -> MergedLogs:
    return merged(logs, advance=lambda _: None)


def made_up(sets: int, *, lifters: int = 3, seed: int = 11, second_thoughts: bool = True) -> bytes:
    """Return a log over about two years, with corrections, strikes and repeated lines."""
    random = Random(seed)  # noqa: S311 - the same log in every run, nothing secret
    start = datetime(2024, 11, 25, 17, tzinfo=timezone(timedelta(hours=1)))
    lines: list[str] = []
    for number in range(sets):
        tempo, seconds = random.choice(list(_TEMPOS.items()))
        reps, kg = random.randint(0, 8), random.choice((60.0, 62.5, 79.37866475, None))
        began = start + timedelta(days=number * 700 / sets, milliseconds=random.randint(0, 999))
        spent = [round(one * reps, 3) for one in seconds]
        fact = {
            "v": 1,
            "kind": "set_done",
            "id": f"{seed:x}-{number:x}",
            "lifter": f"Lifter {random.randrange(lifters)}",
            "started_at": began.isoformat(),
            "ended_at": (began + timedelta(seconds=sum(spent))).isoformat(),
            "exercise": random.choice(_EXERCISES),
            "lead": "lower",
            "tempo": tempo,
            "load_kg": kg,
            "load_as_written": f"{kg} kg" if kg else "bw",
            "reps_prescribed": None,
            "reps_done": reps,
            "seconds": dict(zip(("lower", "pause", "raise", "top"), spent, strict=True)),
            "timing": random.choice(("paced", "tapped")),
            "method": None,
            "effort": None,
            "note": "",
        }
        lines.append(_json(fact))
        if second_thoughts:
            lines += _second_thoughts(random, str(fact["id"]), began, lines)
    return "".join(line + "\n" for line in lines).encode()


def _second_thoughts(random: Random, set_id: str, at: datetime, lines: list[str]) -> Iterator[str]:
    of = {"v": 1, "id": set_id, "at": at.isoformat()}
    match random.randrange(40):
        case 0:
            yield _json(of | {"kind": "set_corrected", "changes": {"reps_done": 3, "note": "belt"}})
        case 1:
            yield _json(of | {"kind": "set_corrected", "changes": {"exercise": "bench press"}})
        case 2:
            yield _json(of | {"kind": "set_struck", "why": "warm-up"})
        case 3:
            yield random.choice(lines)
        case 4:
            fact = json.loads(lines[-1])
            if fact["kind"] == "set_done":
                yield _json(fact | {"ended_at": fact["ended_at"].replace("T1", "T2", 1)})
        case 5:
            rep = {"lower": 3.6, "pause": None, "raise": 1.25, "top": 0, "motion": None}
            spent = {"lower": 7.5, "pause": 0, "raise": 2.5, "top": 0}
            said = {"timing": "tapped", "seconds": spent, "reps": [rep] * 2}
            yield _json(of | {"kind": "set_measured"} | said)


def _json(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))
