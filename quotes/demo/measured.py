"""What a machinist measures on a shaft that came out right, all invented."""

from __future__ import annotations

AS_MADE = {
    "runout_coupling": "1 thou",
    "runout_bearing": "0.0015",
    "runout_taper": "0.002",
    "face": "0.001",
    "contact": "80 %",
    "tool": "caliper",
}
