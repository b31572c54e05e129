"""Stage 3: the tiers as solids, with their layers and sides. Knows no pieces and no paper."""
