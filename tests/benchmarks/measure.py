"""Speed and memory as ratios within one run: `python tests/benchmarks/measure.py`.

Every figure is the program's own work beside some plain work of the same size, so that it means
the same on another machine. Nothing here is asserted. A number given with it is how many sets the
logs of many lifters hold; a hundred lifters make about 2,500,000 in five years.
"""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
import tempfile
import timeit
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path

import numpy as np

from tempo_coach.core.bar_simulator import Device, simulated_set
from tempo_coach.core.cue_sets import set_track
from tempo_coach.core.demo import demo_facts
from tempo_coach.core.facts import SetDone, line_of
from tempo_coach.core.log_reading import read_logs
from tempo_coach.core.prescription import EXAMPLE, parse_prescription
from tempo_coach.core.settings import parse_cues
from tempo_coach.core.timeline import Timeline
from tempo_coach.core.trace import Quantity, Trace
from tempo_coach.core.trace_text import read_trace
from tempo_coach.core.trace_writing import simulated_table
from tempo_coach.core.weeks import weekly
from tempo_coach.storage.log_file import LogFile
from tempo_coach.trace.filters import low_pass
from tempo_coach.trace.rep_cutting import cut_set

_LINES = 100_000
_LIFTERS = 20
_SETS = 200_000
_WEEKS = 250
"""How far back the logs go."""

# Each is a program of its own: a first frame is only first once, and CPU time is a process's.
_EMPTY_APP = """
from textual.app import App
class Shown(App[int]):
    pass
app = Shown()
"""
_OUR_APP = """
from pathlib import Path
from tempfile import mkdtemp
from tempo_coach.bootstrap import Wishes, app, program
given = {"lifter": "Mirela", "setup_s": 3.0, "sound_check": False, "soreness_check": False}
made = program(Wishes(Path(mkdtemp()) / "log.jsonl", is_silent=True, settings=given))
app = app(made, line="squat 1x20 2-1-2-0")
"""
_FIRST_FRAME = """
import asyncio
async def show():
    async with app.run_test(size=(80, 24)):
        pass
asyncio.run(show())
"""
_WATCHED = """
import asyncio, time
async def show():
    async with app.run_test(size=(80, 24)) as pilot:
        {keys}
        began, spent = time.monotonic(), time.process_time()
        await asyncio.sleep(10)
        print((time.process_time() - spent) / (time.monotonic() - began))
asyncio.run(show())
"""

# Memory is a process's too.
_USED = """
import resource
print(seconds, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""
_MERGED = """
import sys, time
from pathlib import Path
from tempo_coach.core.merged_logs import merged
from tempo_coach.core.weeks import totals_by
from tempo_coach.storage.log_file import LogFile
began = time.perf_counter()
logs = [LogFile(path) for path in sorted(Path(sys.argv[1]).glob("*.jsonl"))]
rows = merged(logs, advance=lambda _: None).rows
for _ in totals_by(rows, rows.data["lifter"], rows.mondays(), rows.data["exercise"]):
    pass
seconds = time.perf_counter() - began
"""
# Reads the same files and makes the same groups, but merges, corrects and checks nothing.
_DUCKDB = """
import sys, time
import duckdb
began = time.perf_counter()
duckdb.execute(\"\"\"
    select lifter, date_trunc('week', started_at[:10]::date) as monday, lower(exercise) as name,
        count(*), sum(reps_done), sum(seconds.lower), sum(seconds.pause), sum(seconds."raise"),
        sum(seconds.top), sum(load_kg * seconds.lower), sum(load_kg * reps_done)
    from read_json($files, format = 'newline_delimited', columns = {
        kind: 'varchar', id: 'varchar', lifter: 'varchar', started_at: 'varchar',
        exercise: 'varchar', load_kg: 'double', reps_done: 'integer',
        seconds: 'struct(lower double, pause double, "raise" double, top double)'})
    where kind = 'set_done'
    group by all
\"\"\", {"files": sys.argv[1] + "/*.jsonl"}).fetchall()
seconds = time.perf_counter() - began
"""


def best_s(work: Callable[[], object], *, repeat: int = 5) -> float:
    """Return the shortest of several runs, in seconds."""
    return min(timeit.repeat(work, number=1, repeat=repeat))


def of_the_track() -> None:
    timeline = Timeline.of(parse_prescription("squat 1x60 6-1-2-1"))
    samples = len(set_track(timeline))
    plain = best_s(lambda: np.full(samples, 0.5, dtype=np.float32))
    for cues in ("tick", "glide", "voice", "glide+voice", "tick+glide+voice"):
        chosen = parse_cues(cues)
        ours = best_s(partial(set_track, timeline, cues=chosen))
        say(f"render a set of 10 minutes, {cues}", ours, "write as many samples", plain)


def of_the_line() -> None:
    words = re.compile(r"(\S+)\s+")
    ours = best_s(lambda: [parse_prescription(EXAMPLE) for _ in range(1000)])
    plain = best_s(lambda: [words.findall(EXAMPLE) for _ in range(1000)])
    say("read a prescription", ours / 1000, "find its words", plain / 1000)


def of_the_log(folder: Path) -> None:
    path = folder / "log.jsonl"
    write_log(path, _LINES)
    ours = best_s(lambda: weekly(read_logs([LogFile(path)]).history.sets), repeat=3)
    lines = path.read_bytes().splitlines()
    plain = best_s(lambda: [json.loads(line) for line in lines], repeat=3)
    say(f"read and add up {_LINES:,} lines", ours, "json.loads of each", plain)


def of_many_logs(folder: Path, sets: int) -> None:
    for lifter in range(_LIFTERS):
        write_log(folder / f"{lifter}.jsonl", sets // _LIFTERS, of=f"{lifter} ")
    ours, plain = (
        [float(figure) for figure in run(program + _USED, str(folder)).split()]
        for program in (_MERGED, _DUCKDB)
    )
    say(f"merge and add up {sets:,} lines", ours[0], "DuckDB on all cores", plain[0])
    print(f"memory for it: {ours[1]:.0f} MB; DuckDB: {plain[1]:.0f} MB")


def write_log(path: Path, lines: int, *, of: str = "") -> None:
    """Write the demo's log again and again, each time some weeks earlier."""
    facts = list(demo_facts(datetime(2026, 11, 25, 12, tzinfo=UTC)))
    with path.open("wb") as file:
        for number in range(lines):
            fact = facts[number % len(facts)]
            again = number // len(facts)
            shift = timedelta(weeks=again % _WEEKS)
            changed: dict[str, object] = {"id": f"{of}{fact.id}-{again}"}
            if isinstance(fact, SetDone):
                started, ended = fact.started_at - shift, fact.ended_at - shift
                changed |= {
                    "lifter": f"{of}{fact.lifter}", "started_at": started, "ended_at": ended
                }  # fmt: skip
            file.write(line_of(fact.model_copy(update=changed)))


def of_the_trace() -> None:
    """Two hours at 200 samples a second, with a set every six minutes."""
    line = parse_prescription("squat 1x8 4-1-X-1")
    device, parts = Device(rate_hz=200, noise=0.001), []
    for seed in range(20):
        values = simulated_set(line, seed=seed, device=device).trace.values
        rest = np.full(72_000 - values.size, values[-1])
        parts += [values, rest + np.random.default_rng(seed).normal(size=rest.size) * 0.001]
    height_m = np.concatenate(parts)
    trace = Trace(np.arange(height_m.size) / 200, height_m, Quantity.HEIGHT)
    text = "".join(simulated_table(trace, line=str(line), seed=0))
    ours = best_s(lambda: read_trace(text), repeat=3)
    plain = best_s(lambda: np.loadtxt(io.StringIO(text), delimiter=",", skiprows=2), repeat=3)
    say(f"read a trace of {height_m.size:,} rows", ours, "numpy.loadtxt", plain)
    ours = best_s(lambda: cut_set(trace, line), repeat=3)
    plain = best_s(lambda: low_pass(height_m, rate_hz=200, cut_off_hz=10), repeat=3)
    say("find its sets and cut the longest", ours, "filter as many samples", plain)


def of_the_app() -> None:
    ours = best_s(lambda: run(_OUR_APP + _FIRST_FRAME))
    plain = best_s(lambda: run(_EMPTY_APP + _FIRST_FRAME))
    say("start to first frame", ours, "an empty Textual app", plain)
    keys = (
        'await pilot.press("enter", "enter"); await pilot.pause(2); await pilot.press("pagedown")'
    )
    pacing = float(run(_OUR_APP + _WATCHED.format(keys=keys)))
    idle = float(run(_EMPTY_APP + _WATCHED.format(keys="pass")))
    print(f"CPU while pacing: {pacing:.1%} of a core; an empty Textual app: {idle:.1%}")


def run(program: str, *arguments: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", program, *arguments], check=True, capture_output=True, text=True
    )
    return done.stdout


def say(what: str, ours_s: float, beside: str, plain_s: float) -> None:
    print(f"{what}: {ours_s * 1000:,.2f} ms, {ours_s / plain_s:.1f} × {beside}")


if __name__ == "__main__":
    of_the_track()
    of_the_line()
    of_the_trace()
    with tempfile.TemporaryDirectory() as temporary:
        of_the_log(Path(temporary))
    with tempfile.TemporaryDirectory() as temporary:
        of_many_logs(Path(temporary), int(sys.argv[1]) if len(sys.argv) > 1 else _SETS)
    of_the_app()
