"""The tiers as solids, with their layers and sides. Knows no pieces and no paper."""
