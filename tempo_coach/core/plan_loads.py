"""What a load of a plan is on the bar: shares of a max and body mass, worked out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_HALF_DOWN, Decimal

from tempo_coach.core.load import KG_PER_LB, Load, LoadUnit
from tempo_coach.core.maxes import known_maxes, latest_maxes, max_for
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.tempo import Allowances, lower_seconds


@dataclass(frozen=True, slots=True)
class ResolvedLoad:
    """What a load means for one lifter."""

    prescription: Prescription
    """With the load to put on the bar in place of a share, where the max is known."""
    load_kg: float | None
    """With the body where it is part of the load; None where that can't be said."""
    words: str
    """How a share was worked out, such as ``72% of 90 kg = 64.8, loadable 65 kg``; else empty."""


def resolve(
    prescription: Prescription,
    *,
    plan: Plan,
    lifter: Lifter,
    allowances: Allowances,
    recorded: RecordedMaxes | None = None,
) -> ResolvedLoad:
    """Work out the load of a line for a lifter of the plan.

    Parameters
    ----------
    prescription
        The line.
    plan, lifter
        Whose body mass and maxes hold.
    allowances
        What counts for X and V.
    recorded
        The maxes of the log, which hold beside those of the plan.
    """
    load = prescription.load
    if load is None:
        return ResolvedLoad(prescription, None, "")
    if load.unit is not LoadUnit.PERCENT:
        body_kg = None if lifter.body_mass is None else lifter.body_mass.kg()
        words = "no body mass" if load.on_body and body_kg is None else ""
        return ResolvedLoad(prescription, load.kg(body_kg=body_kg), words)
    exercise = prescription.exercise
    tested = () if recorded is None else recorded.of(lifter.name, exercise)
    known = latest_maxes(known_maxes(tested, planned=lifter.maxes, exercise=exercise))
    lower_s = lower_seconds(prescription.tempo, allowances)
    best = max_for(known, lower_s=lower_s)
    if best is None:
        return ResolvedLoad(prescription, None, "no max")
    share = load.amount / 100 * _amount_in(best.load, plan.loads_by.unit)
    loadable = round_to(share, plan.loads_by)
    words = f"{load} of {best.load} = {_short(share)}, loadable {loadable}"
    # A max belongs to its tempo, so one of another tempo is never taken in silence.
    if sum(one.what == "lifted" for one in known) > 1 or best.lower_s not in (None, lower_s):
        words += f" ({best.words})"
    return ResolvedLoad(replace(prescription, load=loadable), loadable.kg(), words)


def round_to(amount: Decimal, step: Load) -> Load:
    """Return the multiple of the step nearest to an amount in its unit, and at least one step.

    Halfway the lighter one is taken: too light can be mended in the next set.
    """
    steps = (amount / step.amount).quantize(Decimal(1), rounding=ROUND_HALF_DOWN)
    return Load(max(steps, Decimal(1)) * step.amount, step.unit)


def _amount_in(load: Load, unit: LoadUnit) -> Decimal:
    if load.unit is unit:
        return load.amount
    return load.amount * KG_PER_LB if unit is LoadUnit.KG else load.amount / KG_PER_LB


def _short(amount: Decimal) -> str:
    return f"{amount:.2f}".rstrip("0").rstrip(".")
