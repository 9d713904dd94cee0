"""What a lifter sets once."""

from __future__ import annotations

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from tempo_coach.core.facts import Name
from tempo_coach.core.tempo import Allowances


class Settings(BaseModel):
    """The settings, each with what holds when nothing is set."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )

    lifter: Name | None = None
    """Who lifts; asked for once where nothing says so."""
    setup_s: Annotated[float, Field(ge=3, le=60)] = 10.0
    """Seconds from the start until rep 1 begins."""
    offset_ms: Annotated[int, Field(ge=-500, le=1000)] = 0
    """How much later than usual the sound is heard, as over Bluetooth; the picture waits for it."""
    fast_s: Annotated[float, Field(ge=0.2, le=10)] = 1.0
    """What planning counts for X."""
    own_s: Annotated[float, Field(ge=0.2, le=10)] = 2.0
    """What planning counts for V."""
    assisted_s: Annotated[float, Field(ge=0.2, le=10)] = 3.0
    """What planning counts for A."""

    @property
    def setup_ms(self) -> int:
        """`setup_s` in whole milliseconds."""
        return round(self.setup_s * 1000)

    @property
    def allowances(self) -> Allowances:
        """What stands in for X, V and A."""
        return Allowances(
            round(self.fast_s * 1000), round(self.own_s * 1000), round(self.assisted_s * 1000)
        )
