"""All that is known of maxes, lifter by lifter and exercise by exercise."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from tempo_coach.core.facts import MaxTested
from tempo_coach.core.legible import name_key
from tempo_coach.core.max_doubts import max_doubts
from tempo_coach.core.max_estimates import DayEstimate, TempoRecord
from tempo_coach.core.maxes import KnownMax, known_maxes, reserve_maxes
from tempo_coach.core.plan import Lifter, Max
from tempo_coach.core.rep_equations import EQUATIONS, Band, Caveat, band
from tempo_coach.core.reserve import TARGET, Reserve
from tempo_coach.core.tempo import Allowances, lower_seconds


@dataclass(frozen=True, slots=True)
class ExerciseMaxes:
    """One lifter's maxes of one exercise."""

    lifter: str
    exercise: str
    known: tuple[KnownMax, ...]
    """Tested, in order of their dates."""
    records: tuple[TempoRecord, ...]
    """By tempo, those that an estimate can be made of."""
    doubts: tuple[str, ...]
    """Where these don't agree, a sentence each."""
    allowances: Allowances
    """What counts for X and V in a lower."""

    @property
    def rests_on(self) -> tuple[KnownMax, KnownMax] | None:
        """The maxes lowered and lifted that the reserve rests on; None without both."""
        return reserve_maxes(self.known)

    @property
    def reserve(self) -> Reserve | None:
        """The reserve, where both maxes are known."""
        pair = self.rests_on
        return None if pair is None else Reserve(pair[0].load_kg, pair[1].load_kg)

    def latest(self, record: TempoRecord) -> tuple[DayEstimate, Band]:
        """Return the latest day of a record, with what the equations say of it."""
        day = record.days[-1]
        return day, record.band(day, allowances=self.allowances)

    @property
    def caveats(self) -> tuple[Caveat, ...]:
        """Why one or the other of the latest estimates may be wrong."""
        said = {caveat for record in self.records for caveat in self.latest(record)[1].caveats}
        return tuple(caveat for caveat in Caveat if caveat in said)


def max_overview(
    tested: Iterable[MaxTested],
    records: Iterable[TempoRecord],
    *,
    planned: Iterable[Lifter] = (),
    allowances: Allowances,
) -> tuple[ExerciseMaxes, ...]:
    """Put together what was tested and what the sets say, in order of names.

    Parameters
    ----------
    tested
        The maxes of the log, in the order they were tested.
    records
        What its sets say.
    planned
        Lifters of a plan, with the maxes that stand there.
    allowances
        What counts for X and V in a lower.
    """
    drafts: dict[tuple[str, str], _Draft] = {}

    def draft(lifter: str, exercise: str) -> _Draft:
        key = (name_key(lifter), name_key(exercise))
        return drafts.setdefault(key, _Draft(lifter, exercise, [], [], []))

    # Names as in the log, where it knows them.
    for record in records:
        draft(record.lifter, record.exercise).records.append(record)
    for one in tested:
        draft(one.lifter, one.exercise).tested.append(one)
    for lifter in planned:
        for written in lifter.maxes:
            draft(lifter.name, written.exercise).planned.append(written)
    found = (drafts[key].maxes(allowances) for key in sorted(drafts))
    return tuple(one for one in found if one.known or one.records)


@dataclass(frozen=True, slots=True)
class _Draft:
    lifter: str
    exercise: str
    records: list[TempoRecord]
    tested: list[MaxTested]
    planned: list[Max]

    def maxes(self, allowances: Allowances) -> ExerciseMaxes:
        known = known_maxes(self.tested, planned=self.planned, exercise=self.exercise)
        return ExerciseMaxes(
            lifter=self.lifter,
            exercise=self.exercise,
            known=known,
            records=tuple(record for record in self.records if record.days),
            doubts=tuple(max_doubts(known, self.records, allowances=allowances)),
            allowances=allowances,
        )


def overview_data(found: Iterable[ExerciseMaxes]) -> list[dict[str, Any]]:
    """Return maxes as plain data, with the units in the keys."""
    return [
        {
            "lifter": one.lifter,
            "exercise": one.exercise,
            "tested": [known_data(known) for known in one.known],
            "reserve": None if one.reserve is None else reserve_data(one.reserve),
            "estimated": [_record_data(one, record) for record in one.records],
            "doubts": list(one.doubts),
        }
        for one in found
    ]


def known_data(known: KnownMax) -> dict[str, Any]:
    """Return a tested max."""
    return {
        "what": known.what,
        "load_kg": known.load_kg,
        "load": str(known.load),
        "lower_s": known.lower_s,
        "on": known.on.isoformat(),
        "from": known.source,
        "id": known.id,
        "note": known.note,
    }


def reserve_data(reserve: Reserve) -> dict[str, Any]:
    """Return a reserve with what it was divided by, and the target."""
    return {
        "lowered_kg": reserve.lowered_kg,
        "lifted_kg": reserve.lifted_kg,
        "ratio": round(reserve.ratio, 4),
        "percent_of_lifted": round(reserve.percent, 2),
        "kg": round(reserve.kg, 3),
        "target_ratio": list(TARGET),
        "standing": reserve.standing.value,
        "gap_kg": round(reserve.gap_kg, 3),
    }


def band_data(band: Band) -> dict[str, Any]:
    """Return a band with its caveats."""
    return {
        "low_kg": round(band.low_kg, 3),
        "middle_kg": round(band.middle_kg, 3),
        "high_kg": round(band.high_kg, 3),
        "caveats": [caveat.value for caveat in band.caveats],
    }


def estimate_data(
    load_kg: float, *, reps: int, lower_s: float | None, exercise: str
) -> dict[str, Any]:
    """Return what each equation says of a set to failure, and the band.

    Raises
    ------
    OutOfRange
        The load or the reps are outside.
    """
    said = band(load_kg, reps=reps, lower_s=lower_s, exercise=exercise)
    return {
        "load_kg": load_kg,
        "reps": reps,
        "lower_s": lower_s,
        "band": band_data(said),
        "equations": [
            {
                "name": one.name,
                "formula": one.formula,
                "max_kg": round(one.max_kg(load_kg, reps=reps), 3) if one.takes(reps) else None,
                "in_band": one.takes(reps) and one.is_for(exercise),
                "reps": [one.fewest_reps, one.holds_to_reps],
                "at_one_rep": one.at_one_rep,
                "exercise": one.exercise or None,
                "source": one.source,
            }
            for one in EQUATIONS
        ],
    }


def _record_data(of: ExerciseMaxes, record: TempoRecord) -> dict[str, Any]:
    trend = record.trend()
    return {
        "tempo": str(record.tempo),
        "lower_s": lower_seconds(record.tempo, of.allowances),
        "trend": None
        if trend is None
        else {
            "change_kg": round(trend.change_kg, 3),
            "days": trend.days,
            "direction": trend.direction.value,
        },
        "days": [
            {
                "on": day.on.isoformat(),
                "load_kg": day.best.load_kg,
                "reps": day.best.reps,
                "effort": day.best.effort,
                "reps_to_failure": day.best.to_failure,
                "sets": day.sets,
            }
            | band_data(record.band(day, allowances=of.allowances))
            for day in record.days
        ],
    }
