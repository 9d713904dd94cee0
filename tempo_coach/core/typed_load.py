"""A load as it is typed beside the rack, where a number alone will do."""

from __future__ import annotations

import re

from tempo_coach.core.load import Load, LoadUnit, parse_load

_NUMBER = re.compile(r"[0-9]+(?:\.[0-9]+)?")


def read_typed_load(text: str, *, before: Load | None, unit: LoadUnit) -> Load:
    """Read a load; a bare number hangs on the body where the load before it did.

    Parameters
    ----------
    text
        What is typed.
    before
        The load that it takes the place of.
    unit
        What a bare number is counted in, where the load before it does not say.

    Raises
    ------
    OutOfRange
        The text is no load, or its amount is not possible.
    """
    text = text.strip()
    if not _NUMBER.fullmatch(text):
        return parse_load(text)
    if before is None or before.unit is LoadUnit.PERCENT:
        return parse_load(f"{text} {unit}")
    return parse_load(f"{'bw+' if before.on_body else ''}{text} {before.unit}")
