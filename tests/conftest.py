"""Settings that all tests share."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

# the same examples in every run: a failure is the change's, not the day's
settings.register_profile(
    "steady",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
settings.load_profile("steady")
