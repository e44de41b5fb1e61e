"""Line drawings of the know-how pages: one idea each, in the ink of the drive line."""

from __future__ import annotations

from collections.abc import Callable

from intake.domain.shapes import Drawing
from intake.domain.sketches import bearing, before, coupling, line, propeller

SKETCHES: dict[str, Callable[[], Drawing]] = {
    draw.__name__: draw
    for draw in (
        before.blocked_boat,
        before.tools,
        before.paper_strip,
        line.broom_handle,
        line.pieces,
        line.read_twice,
        line.through_gearbox,
        propeller.drill_gap,
        propeller.hub_alone,
        bearing.bearing_face,
        bearing.two_bearings,
        coupling.flange_face,
        coupling.hub_ways,
        coupling.three_pullers,
        coupling.two_v_drives,
        coupling.front_end,
    )
}
