"""Where tested maxes don't agree with one another or with the sets of the log."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from itertools import combinations

from tempo_coach.core.max_estimates import TempoRecord, is_lifted
from tempo_coach.core.maxes import KnownMax, latest_maxes, reserve_maxes
from tempo_coach.core.rep_equations import ORDINARY_LOWER_S
from tempo_coach.core.reserve import QUESTIONED_ABOVE, Reserve
from tempo_coach.core.tempo import Allowances, lower_seconds


def max_doubts(
    known: Iterable[KnownMax], records: Collection[TempoRecord], *, allowances: Allowances
) -> Iterator[str]:
    """Yield a sentence for each doubt, with what it rests on; none of them refuses a max.

    Parameters
    ----------
    known
        One lifter's maxes of one exercise, in order of their dates; the latest of each lower count.
    records
        The same lifter's records of that exercise.
    allowances
        What counts for X and V in a lower.
    """
    latest = latest_maxes(known)
    for one in latest:
        yield from _done_already(one, records, allowances)
        if one.what == "lifted":
            yield from _expected_more(one, records, allowances)
    timed = sorted(
        (one for one in latest if one.what == "lifted" and one.lower_s is not None),
        key=lambda one: one.lower_s or 0.0,
    )
    for faster, slower in combinations(timed, 2):
        if slower.load_kg > faster.load_kg:
            yield (
                f"{_named(slower)} is above {_named(faster)}, though a slower lower makes a "
                "smaller max; the faster one may be out of date"
            )
    pair = reserve_maxes(latest)
    if pair is not None:
        yield from _of_reserve(*pair)


def _done_already(
    one: KnownMax, records: Collection[TempoRecord], allowances: Allowances
) -> Iterator[str]:
    """Yield the heaviest set above a max, if any, lowered as slowly as it or more slowly."""
    # A lift of which nobody took the lower is taken for one at the ordinary tempo.
    lower_s = ORDINARY_LOWER_S if one.lower_s is None else one.lower_s
    above = [
        record.heaviest
        for record in records
        if (record.heaviest.load_kg or 0.0) > one.load_kg
        and lower_seconds(record.tempo, allowances) >= lower_s
        and (one.what == "lowered" or is_lifted(record.tempo))
    ]
    if above:
        done = max(above, key=lambda done: (done.load_kg or 0.0, done.started_at, done.id))
        yield (
            f"{_named(one)} is below a set of the log: {done.reps_done} × {done.load_kg:g} kg at "
            f"{done.tempo} on {done.started_at.date().isoformat()} (set {done.id[:8]}); test it "
            "again, or correct the set"
        )


def _expected_more(
    one: KnownMax, records: Iterable[TempoRecord], allowances: Allowances
) -> Iterator[str]:
    """Yield the latest estimates above a max, of lowers as slow as its own or slower."""
    lower_s = ORDINARY_LOWER_S if one.lower_s is None else one.lower_s
    for record in records:
        if not record.days or lower_seconds(record.tempo, allowances) < lower_s:
            continue
        day = record.days[-1]
        said = record.band(day)
        if said.low_kg > one.load_kg:
            yield (
                f"{_named(one)} is below what the sets at {record.tempo} let expect: "
                f"{said.low_kg:.1f} to {said.high_kg:.1f} kg on {day.on.isoformat()}, though a "
                "slower lower makes a smaller max; the test may be out of date, or the effort was "
                "greater than written"
            )


def _of_reserve(lowered: KnownMax, lifted: KnownMax) -> Iterator[str]:
    reserve = Reserve(lowered.load_kg, lifted.load_kg)
    if reserve.ratio < 1:
        yield (
            f"{_named(lowered)} is below {_named(lifted)}, though most can lower more than they "
            "lift; one of the two may be out of date"
        )
    if reserve.is_questionable:
        yield (
            f"{_named(lowered)} is {reserve.ratio:.2f} times {_named(lifted)}: above "
            f"{QUESTIONED_ABOVE:g} is rare, so look at both loads and at who helped"
        )


def _named(one: KnownMax) -> str:
    """Return such as ``the 90 kg lifted after a lower of 2 s (log, 2026-11-12)``."""
    within = "" if one.lower_s is None else f"{one.lower_s:g} s"
    if one.what == "lowered":
        done = f"lowered in {within}"
    else:
        done = f"lifted after a lower of {within}" if within else "lifted"
    return f"the {one.load} {done} ({one.source}, {one.on.isoformat()})"
