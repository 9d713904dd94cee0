"""Lowering more than can be lifted: what of a line is, and what has to be typed before it."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass

from tempo_coach.core.legible import quoted
from tempo_coach.core.load import Load, LoadUnit
from tempo_coach.core.method_catalogue import METHODS
from tempo_coach.core.method_names import MethodName
from tempo_coach.core.prescription import Prescription
from tempo_coach.core.strength import Strength
from tempo_coach.core.tempo import Phase
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange

READY = (
    "Have ready: spotters who know their job or safety pins at the right height, collars on the "
    "bar, and a word that stops the set. Pain stops it too."
)
NOT_SAID = (
    "Nothing says that a coach has cleared this lifter for it; in a plan, overload = true does."
)
_SAME_KG = 0.01


@dataclass(frozen=True, slots=True)
class OverloadQuestion:
    """What must be typed before a set lowers more than was ever tested."""

    load: Load
    """What is to be lowered."""
    why: str

    def read(self, text: str) -> Load:
        """Take the load as it was typed; a bare number is in its unit.

        Raises
        ------
        OutOfRange
            It is another load, or none.
        """
        with suppress(OutOfRange):
            typed = read_typed_load(text, before=self.load, unit=self.load.unit)
            if _is_same(typed, self.load):
                return typed
        raise OutOfRange(
            f"{quoted(text.strip())} is not the load to be lowered",
            hint=f"type {self.load}, or leave and choose another load",
        )


def lowered_load(prescription: Prescription) -> Load | None:
    """Return the most that a line has lowered by the lifter; None where that is not written."""
    shape = prescription.shape
    if shape.only is Phase.RAISE:
        return None
    return prescription.load if shape.lower_load is None else shape.lower_load.load


def is_overload(prescription: Prescription, strength: Strength) -> bool:
    """Tell whether a line lowers more than the lifter can lift, by its numbers or its method."""
    share = strength.share(lowered_load(prescription))
    if share is not None:
        return share > 100
    return asks_for_clearance(prescription.method)


def asks_for_clearance(method: MethodName | None) -> bool:
    """Tell whether a method is for those alone whom the coach has cleared."""
    if method is MethodName.RESERVE_TEST:
        return True
    return method is not None and METHODS[method].is_overload


def overload_question(prescription: Prescription, strength: Strength) -> OverloadQuestion | None:
    """Return what must be typed before a line is begun; None where nothing must.

    It is asked where a line lowers more than the lifter can lift, and more than the lifter was
    ever seen to lower under control, or nobody has tested that.
    """
    load = lowered_load(prescription)
    if load is None or not is_overload(prescription, strength):
        return None
    kg, lowered = strength.kg(load), strength.lowered
    if lowered is None:
        return OverloadQuestion(
            load,
            f"{load} is to be lowered: more than can be lifted, and no lowered max is on record.",
        )
    if kg is not None and kg <= lowered.kg + _SAME_KG:
        return None
    return OverloadQuestion(
        load, f"{load} is to be lowered: more than the most lowered under control, {lowered}."
    )


def _is_same(typed: Load, load: Load) -> bool:
    if LoadUnit.PERCENT in (typed.unit, load.unit) or typed.on_body or load.on_body:
        return typed == load
    return abs((typed.kg() or 0) - (load.kg() or 0)) < _SAME_KG
