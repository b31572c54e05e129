"""A chart for the wall: what tins of each size take, each figure that of a pack."""
