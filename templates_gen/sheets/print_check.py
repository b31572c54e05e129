"""How a print is checked: what each sheet and the page say of it."""

from __future__ import annotations

from templates_gen.cakefile.printers import BAR, SMALL_BAR

CHECK = SMALL_BAR
"""Length of the check bars on every sheet, mm."""
LARGE_CHECK = BAR
"""Length of the check bars on the first sheet, mm."""
REMINDER = "Print at 100 % (actual size), one-sided, not borderless."
