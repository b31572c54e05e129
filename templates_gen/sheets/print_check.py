"""How a print is checked: what each sheet and the page say of it."""

from __future__ import annotations

CHECK = 100.0
"""Length of the check bars on every sheet, mm."""
LARGE_CHECK = 150.0
"""Length of the check bars on the first sheet, mm."""
REMINDER = "Print at 100 % (actual size), one-sided, not borderless."
