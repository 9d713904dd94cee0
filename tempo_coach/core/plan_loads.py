"""What a load of a plan is on the bar: shares of a max and body mass, worked out."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass, replace
from decimal import ROUND_HALF_DOWN, Decimal
from functools import partial

from tempo_coach.core.load import KG_PER_LB, Load, LoadUnit
from tempo_coach.core.maxes import known_maxes, latest_maxes, max_for
from tempo_coach.core.plan import Lifter, Plan
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.recorded_maxes import RecordedMaxes
from tempo_coach.core.tempo import Allowances, lower_seconds
from tempo_coach.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class ResolvedLoad:
    """What a load means for one lifter."""

    prescription: Prescription
    """With the load to put on the bar in place of a share, where the max is known."""
    load_kg: float | None
    """With the body where it is part of the load; None where that can't be said."""
    words: str
    """How a share was worked out, such as ``72% of 90 kg = 64.8, loadable 65 kg``; else empty."""

    @property
    def lower_load_kg(self) -> float | None:
        """What is lowered where that is more; None where nothing more is, or it can't be said."""
        lowered = self.prescription.shape.lower_load
        return None if lowered is None else lowered.load.kg()


def resolve(
    prescription: Prescription,
    *,
    plan: Plan,
    lifter: Lifter,
    allowances: Allowances,
    recorded: RecordedMaxes | None = None,
) -> ResolvedLoad:
    """Work out the loads of a line for a lifter of the plan: what is raised, and what lowered.

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
    work_out = partial(
        _worked_out, plan=plan, lifter=lifter, allowances=allowances, recorded=recorded
    )
    lowered = prescription.shape.lower_load
    if lowered is None:
        return work_out(prescription)
    plain = replace(prescription, shape=replace(prescription.shape, lower_load=None))
    return with_lowered(
        prescription,
        raised=work_out(plain),
        down=work_out(replace(plain, load=lowered.load)),
        step=plan.loads_by,
    )


def with_lowered(
    prescription: Prescription, *, raised: ResolvedLoad, down: ResolvedLoad, step: Load
) -> ResolvedLoad:
    """Put what is lowered beside what is raised.

    Parameters
    ----------
    prescription
        The line as it was written, with more to lower than to raise.
    raised
        The line without what is lowered.
    down
        The line with what is lowered as its load.
    step
        What loads are rounded to.
    """
    lowered, load, said = prescription.shape.lower_load, down.prescription.load, down.words
    if lowered is None or load is None or raised.prescription.load is None:
        return raised
    if load.on_body and down.load_kg is not None:
        # The log knows what was lowered by its kilograms alone.
        load, said = _from_kg(down.load_kg) or load, f"{load} is {down.load_kg:g} kg"
    if raised.load_kg and down.load_kg is not None and down.load_kg <= raised.load_kg:
        if not all(_is_share(one) for one in (prescription.load, lowered.load)):
            said = f"{lowered} is no more than what is raised, so it is left out"
            return replace(raised, words=_joined(raised.words, said))
        load = _above(raised.prescription.load, step)
        said += f", which is raised too, so {load}"
    line = raised.prescription
    shape = replace(line.shape, lower_load=replace(lowered, load=load))
    said = f"lowered: {said}" if said and said != raised.words else ""
    return replace(
        raised, prescription=replace(line, shape=shape), words=_joined(raised.words, said)
    )


def _is_share(load: Load | None) -> bool:
    return load is not None and load.unit is LoadUnit.PERCENT


def _joined(*parts: str) -> str:
    return "; ".join(filter(None, parts))


def _from_kg(kg: float) -> Load | None:
    with suppress(OutOfRange):
        return Load(Decimal(f"{kg:.6g}"), LoadUnit.KG)
    return None


def _above(load: Load, step: Load) -> Load:
    return Load((load.amount // step.amount + 1) * step.amount, step.unit)


def _worked_out(
    prescription: Prescription,
    *,
    plan: Plan,
    lifter: Lifter,
    allowances: Allowances,
    recorded: RecordedMaxes | None,
) -> ResolvedLoad:
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
    loadable, words = share_of(best.load, load, plan.loads_by)
    # A max belongs to its tempo, so one of another tempo is never taken in silence.
    if sum(one.what == "lifted" for one in known) > 1 or best.lower_s not in (None, lower_s):
        words += f" ({best.words})"
    return ResolvedLoad(replace(prescription, load=loadable), loadable.kg(), words)


def share_of(best: Load, load: Load, step: Load) -> tuple[Load, str]:
    """Return a share of a max as it can be loaded, and how it was worked out."""
    share = load.amount / 100 * _amount_in(best, step.unit)
    loadable = round_to(share, step)
    return loadable, f"{load} of {best} = {_short(share)}, loadable {loadable}"


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
