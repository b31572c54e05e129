"""Settings that all tests share."""

from __future__ import annotations

from hypothesis import HealthCheck, Phase, settings

from tests.browser import chromium

__all__ = ["chromium"]

# the same examples in every run: a failure is the change's, not the day's
settings.register_profile(
    "steady",
    derandomize=True,
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
# for a quick answer: few examples, and the first that fails is enough
settings.register_profile(
    "quick",
    settings.get_profile("steady"),
    max_examples=10,
    phases=[Phase.explicit, Phase.generate],
)
settings.load_profile("steady")
