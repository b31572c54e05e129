"""How exact geometry is: every tolerance with its reason. Lengths in mm."""

SAMPLING = 0.01
"""How far a sampled curve may leave the true one: a tenth of what may be off on a sheet."""
ARC_FIT = 1e-3
"""How far arcs may leave the curve that they stand for: sums of offsets stay under SAMPLING."""
WARP_FIT = 2e-4
"""How far the cubics of a warped path may leave the true curve."""
MOVE_FIT = 1e-4
"""How exactly the room for a move is found."""
ROUNDING = 1e-9
"""Values that differ by less are the same: sums of lengths and angles, rounded (mm, radians)."""
MIRRORED = 1e-6
"""How far a line may lie from another's mirror image and still be taken for it."""
CORNER_REACH = 1e-6
"""A place this close to a corner of an outline counts as the corner."""
