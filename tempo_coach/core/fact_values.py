"""What the facts of the log are made of."""

from __future__ import annotations

from typing import Annotated, Final, TypeAlias

from pydantic import BaseModel, ConfigDict, Field

from tempo_coach.core.prescription import LONGEST_NAME

VERSION: Final = 1
LONGEST_NOTE: Final = 2_000
HEAVIEST_KG: Final = 600
"""Of a body or a max, so that no share of one is more than a load can be."""

Version: TypeAlias = Annotated[int, Field(ge=VERSION, le=VERSION)]
"""A number and strict; a literal would take ``true`` and ``1.0`` for 1."""
Name: TypeAlias = Annotated[str, Field(min_length=1, max_length=LONGEST_NAME)]
SetId: TypeAlias = Annotated[str, Field(min_length=1, max_length=64)]
Kilograms: TypeAlias = Annotated[float, Field(gt=0, le=2_000)]
Note: TypeAlias = Annotated[str, Field(max_length=LONGEST_NOTE)]


class FactValue(BaseModel):
    """A fact, or a part of one: frozen, and strict about what it is read from."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", strict=True, allow_inf_nan=False, use_attribute_docstrings=True
    )
