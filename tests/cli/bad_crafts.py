"""Broken cake files of what is carved, cut in strips, piped and sawn."""

from __future__ import annotations

from tests.cli.bad_cakes import UNITS, Bad, in_tier

CARVING = (
    in_tier("carving without a table", "carving = true", "true", "a table", ""),
    in_tier("tins of no shape", "carving.tins = 'oval'", "“oval”", "round", "tins"),
    in_tier("too much to spare", "carving.spare = '60 mm'", "“60 mm”", "0 to 50 mm", "spare"),
    in_tier("spare cake in no unit", "carving.spare = 5", "5", UNITS, "unit"),
    in_tier("tin misspelt", "carving.tin = 'round'", "tin", "tins", "tins"),
)
BAD_CRAFTS: tuple[Bad, ...] = (*CARVING,)
"""Every broken cake file of one problem."""
