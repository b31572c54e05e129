"""What is seen through the hole of a tier: its far end, within its near one."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.geometry.areas.booleans import edge_of, intersection, shadow
from templates_gen.geometry.areas.sampling import sampled
from templates_gen.geometry.path import Path, polyline
from templates_gen.views.view import View


@dataclass(frozen=True, slots=True)
class Through:
    """The ends of a hole as they look from the front, one before the other."""

    near: Path
    far: Path

    @property
    def seen_through(self) -> Path | None:
        """What is seen right through the hole; the rest of its near end is its wall."""
        found = intersection([shadow(self.near), shadow(self.far)])
        return None if found is None else edge_of(found)


def through(view: View) -> Through | None:
    """Return the ends of the hole of a tier, where one of them is wholly in sight."""
    ends = view.tier.openings.ends.get("covered", ())
    rings = [[place for points, _ in sampled(path, view.fine) for place in points] for path in ends]
    near = [ring for ring in rings if all(view.faces(u, v) > 0 for u, v in ring)]
    if len(near) != 1:
        return None
    (far,) = (ring for ring in rings if ring is not near[0])
    looks = (
        polyline([view.seen(u, v) for u, v in ring[:-1]], closed=True) for ring in (near[0], far)
    )
    return Through(*looks)
