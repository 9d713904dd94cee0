"""What holds for all tests."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

# No deadline: a machine that is busy with something else is no fault of the code.
settings.register_profile(
    "tempo-coach",
    deadline=None,
    max_examples=50,
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("tempo-coach")
