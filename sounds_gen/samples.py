"""The one form of sound: mono float32 in [-1, 1] at one rate."""

from __future__ import annotations

from typing import TypeAlias

import numpy as np
import numpy.typing as npt

Samples: TypeAlias = npt.NDArray[np.float32]
"""Shape ``(n,)``, float32, range [-1, 1]."""

SAMPLE_RATE_HZ = 48_000
"""Samples a second: what sound cards run at, and 48 whole samples a millisecond."""


def sample_at(at_ms: int) -> int:
    """Return the index of the sample at an absolute moment; exact, since 1 ms is 48 samples."""
    return at_ms * SAMPLE_RATE_HZ // 1000
