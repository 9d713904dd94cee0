"""What the log holds of soreness: how much of it a lifter told, before a day's first set."""

from __future__ import annotations

from typing import Annotated, Final, Literal, TypeAlias

from pydantic import Field

from tempo_coach.core.fact_values import VERSION, FactValue, Name, SetId, Version
from tempo_coach.core.written_values import Time

MOST_SORE: Final = 10
"""As sore as can be thought of; 0 is not sore at all."""

Soreness: TypeAlias = Annotated[int, Field(ge=0, le=MOST_SORE)]


class SorenessTold(FactValue):
    """A lifter told how sore the muscles are; the latest answer of a local day counts."""

    v: Version = VERSION
    kind: Literal["soreness_told"] = "soreness_told"
    id: SetId
    """The answer's own."""
    at: Time
    lifter: Name
    soreness: Soreness
    """0, not at all, to 10."""
