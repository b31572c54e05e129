"""What is marked on the side of a tier, drawn in (u, v)."""
