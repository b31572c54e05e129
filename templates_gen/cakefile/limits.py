"""How large a tier and what lies on it may be, and the lengths that several tables take."""

from typing import Annotated

from templates_gen.cakefile.rules import AnyLength, Within

SMALLEST_TIER = 25.0
LARGEST_TIER = 1500.0

TierSize = Annotated[AnyLength, Within(SMALLEST_TIER, LARGEST_TIER)]
Ribbon = Annotated[AnyLength, Within(1, 200)]
Thickness = Annotated[AnyLength, Within(0.5, 30)]
BoardThickness = Annotated[AnyLength, Within(0, 60)]
