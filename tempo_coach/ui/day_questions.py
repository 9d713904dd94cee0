"""What is asked before a planned day is changed."""

from __future__ import annotations

from tempo_coach.core.fact_values import LONGEST_NOTE
from tempo_coach.core.load import LOAD_FORMS, Load, LoadUnit
from tempo_coach.core.prescription import check_name, clean_name
from tempo_coach.core.session import SessionItem
from tempo_coach.core.typed_load import read_typed_load
from tempo_coach.errors import OutOfRange
from tempo_coach.ui.answer_screen import AnswerScreen


def reason_question(item: SessionItem) -> AnswerScreen[str]:
    """Ask why an item is skipped."""
    return AnswerScreen(
        f"Why is {item.prescription.exercise} skipped today?",
        "A word or two for the coach, or nothing.",
        text="",
        read=_read_reason,
    )


def exercise_question(item: SessionItem) -> AnswerScreen[str]:
    """Ask what is done in place of an item's exercise; nothing means the written one."""
    written = item.written.exercise

    def read(text: str) -> str:
        return check_name(clean_name(text) or written, what="exercise")

    return AnswerScreen(
        f"What is done today in place of {written}?",
        f"Its sets are logged under this name. Nothing typed: {written}, as written.",
        text="" if item.prescription.exercise == written else item.prescription.exercise,
        read=read,
    )


def load_question(item: SessionItem, unit: LoadUnit) -> AnswerScreen[Load]:
    """Ask for an item's load; nothing means the written one.

    Parameters
    ----------
    item
        The item.
    unit
        What a bare number is counted in, where the load so far does not say.
    """
    written, before = item.written.load, item.prescription.load

    def read(text: str) -> Load:
        if text.strip():
            return read_typed_load(text, before=before, unit=unit)
        if written is None:
            raise OutOfRange("no load is written", hint=f"give one, such as {LOAD_FORMS}")
        return written

    help_text = "Such as 82.5, 82.5 kg, 180 lb, 72%, bw or bw+10 kg."
    if written is not None:
        help_text += f" Nothing typed: {written}, as written."
    shown = before is not None and before.unit is not LoadUnit.PERCENT
    return AnswerScreen(
        f"What load today for {item.prescription.exercise}?",
        help_text,
        text=str(before) if shown else "",
        read=read,
    )


def _read_reason(text: str) -> str:
    if len(text) > LONGEST_NOTE:
        raise OutOfRange(f"the reason has {len(text)} characters", hint=f"at most {LONGEST_NOTE}")
    return text.strip()
