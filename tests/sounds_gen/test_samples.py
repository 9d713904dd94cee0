from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sounds_gen.samples import sample_at


@pytest.mark.parametrize(("at_ms", "sample"), [(0, 0), (1, 48), (999, 47_952), (1000, 48_000)])
def test_a_millisecond_is_48_samples(at_ms: int, sample: int) -> None:
    assert sample_at(at_ms) == sample


@given(at_ms=st.integers(0, 86_400_000), length_ms=st.integers(0, 600_000))
def test_lengths_do_not_drift(at_ms: int, length_ms: int) -> None:
    assert sample_at(at_ms + length_ms) - sample_at(at_ms) == sample_at(length_ms)
