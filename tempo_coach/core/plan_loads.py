"""What a load of a plan is on the bar: shares of a max and body mass, worked out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import ROUND_HALF_DOWN, Decimal

from tempo_coach.core.legible import name_key
from tempo_coach.core.load import KG_PER_LB, Load, LoadUnit
from tempo_coach.core.plan import Lifter, Max, Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.tempo import Allowances, Speed, seconds_text


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
    prescription: Prescription, *, plan: Plan, lifter: Lifter, allowances: Allowances
) -> ResolvedLoad:
    """Work out the load of a line for a lifter of the plan."""
    load = prescription.load
    if load is None:
        return ResolvedLoad(prescription, None, "")
    if load.unit is not LoadUnit.PERCENT:
        body_kg = None if lifter.body_mass is None else lifter.body_mass.kg()
        words = "no body mass" if load.on_body and body_kg is None else ""
        return ResolvedLoad(prescription, load.kg(body_kg=body_kg), words)
    known = maxes_of(lifter, prescription.exercise)
    if not known:
        return ResolvedLoad(prescription, None, "no max")
    best = nearest_max(known, lower_s=_lower_s(prescription, allowances))
    share = load.amount / 100 * _amount_in(best.load, plan.loads_by.unit)
    loadable = round_to(share, plan.loads_by)
    words = f"{load} of {best.load} = {_short(share)}, loadable {loadable}"
    if len(known) > 1:
        words += f" (the max {_test_words(best)})"
    return ResolvedLoad(replace(prescription, load=loadable), loadable.kg(), words)


def maxes_of(lifter: Lifter, exercise: str) -> tuple[Max, ...]:
    """Return the lifter's maxes of an exercise; the spelling's case does not matter."""
    key = name_key(exercise)
    return tuple(one for one in lifter.maxes if name_key(one.exercise) == key)


def nearest_max(known: tuple[Max, ...], *, lower_s: float) -> Max:
    """Return the max whose tested lower is nearest to `lower_s`, of equals the latest.

    The slower the lower, the smaller the max (Wilk et al. 2020, J Hum Kinet 72:151,
    10.2478/hukin-2020-0001), so a max belongs to its tempo.
    """
    far = float("inf")
    return min(
        known,
        key=lambda one: (
            far if one.lower_s is None else abs(one.lower_s - lower_s),
            -one.on.toordinal(),
        ),
    )


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


def _lower_s(prescription: Prescription, allowances: Allowances) -> float:
    lower = prescription.tempo.lower
    return (allowances.of(lower) if isinstance(lower, Speed) else lower) / 1000


def _short(amount: Decimal) -> str:
    return f"{amount:.2f}".rstrip("0").rstrip(".")


def _test_words(one: Max) -> str:
    lowered = (
        "" if one.lower_s is None else f"lowered in {seconds_text(round(one.lower_s * 1000))} s, "
    )
    return f"{lowered}tested {one.on.isoformat()}"
