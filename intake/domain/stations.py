"""Where everything on the drive line stands: real millimetres in, paper millimetres out.

The aft end (strut, gap, hub, nut, nose) is always to scale. What lies forward of the break is to
the same scale across, placed where there is room; ``shorten=False`` puts it all to one scale.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

INCH = 25.4
GEARBOX = 9.4  # paper mm a gearbox that is passed through may take on a shortened drawing
CASED = ("down_angle", "v_rear_flange")  # the gearbox's own shape tells these two apart
CASE = 14.0  # paper mm such a gearbox takes


@dataclass(frozen=True, slots=True)
class Sizes:
    """Real sizes in mm, the plain case where the stack is silent; kept within what can be drawn."""

    diameter: float
    gap: float
    hub: float
    nut: float
    nose: float
    taper: float
    barrel: float
    face_to_strut: float
    front: float
    through: float


def as_mm(stack: Mapping[str, Any], key: str) -> float | None:
    """One length of the stack in mm, or None when it is not there."""
    value = stack.get(key)
    if isinstance(value, Mapping):
        value = value.get("mm")
    return None if value in (None, "") else float(value)


def sizes(stack: Mapping[str, Any]) -> Sizes:
    """Sizes to draw with. A typical boat's stand in, in shaft diameters, for what is missing."""

    def pick(key: str, usual: float, low: float, high: float, per: float = 1.0) -> float:
        value = as_mm(stack, key)
        return min(max(usual * per if value is None else value, low * per), high * per)

    d = pick("nominal", INCH, 10.0, 120.0)
    gap = "gap_goal" if as_mm(stack, "predicted_gap") is None else "predicted_gap"
    aft, fwd = as_mm(stack, "x_strut_aft"), as_mm(stack, "x_strut_fwd")
    barrel = 3 * d if aft is None or fwd is None else aft - fwd
    return Sizes(
        diameter=d,
        gap=pick(gap, 0.75, 0.2, 2.5, d),
        hub=pick("hub_length", 2.9, 1.2, 5.0, d),
        nut=pick("nut_standoff", 1.19, 0.7, 2.0, d),
        nose=pick("nose", 0.31, 0.0, 0.8, d),
        taper=pick("taper_length", 2.75, 1.0, 5.0, d),
        barrel=min(max(barrel, 2 * d), 4.5 * d),
        face_to_strut=pick("x_strut_aft", 43.0, 14.0, 200.0, d),
        front=pick("front_length", 4.2, 3.0, 7.0, d),
        through=pick("gearbox_through", 9.0, 4.0, 16.0, d),
    )


@dataclass(frozen=True, slots=True)
class Stations:
    """Paper x of each station, and ``unit``: one shaft diameter on paper. ``axis`` is paper y."""

    passes: bool
    unit: float
    axis: float
    width: float
    face: float
    hub_end: float
    gear_left: float
    gear_right: float
    gland: float
    log: float
    log_end: float
    breaks: tuple[float, float] | None
    strut_fwd: float
    strut_aft: float
    hub_front: float
    taper_small: float
    taper_big: float
    hub_back: float
    thread_end: float
    tip: float
    front_tip: float
    layout: str = "inline"

    @property
    def radius(self) -> float:
        """Half the shaft on paper."""
        return self.unit / 2

    @property
    def flange(self) -> float:
        """Half the flange on paper: four shaft diameters across, as for a 1 in shaft."""
        return min(2 * self.unit, 12.0)

    @property
    def barrel(self) -> float:
        """Half the strut barrel."""
        return 0.98 * self.unit

    @property
    def hub(self) -> float:
        """Half the propeller hub at its front."""
        return 0.95 * self.unit


def stations(
    size: Sizes, *, passes: bool, shorten: bool, width: float, axis: float, layout: str = "inline"
) -> Stations:
    """Place every station for a paper ``width`` mm wide; the axis runs at paper y ``axis``."""
    d, margin, cased = size.diameter, 4.5, layout in CASED
    aft_real = size.gap + size.hub + size.nut + size.nose
    if shorten:
        scale = min(width * 0.43 / (size.barrel + aft_real), (5.2 if cased else 6.6) / d)
        if passes:  # front, gearbox, gland, break and clearances share what is left
            room = width - 2 * margin - GEARBOX - 12.0
            scale = min(scale, room / (size.front + 2.4 * d + size.barrel + aft_real))
        plain = 0.035 * width + (17.0 if cased else 8.6)
        face = (margin + size.front * scale + 1) if passes else plain
    else:
        forward = size.front if passes else (5.0 if cased else 2.6) * d
        scale, face = _true_scale(size, forward, width=width, margin=margin)
    unit, tip = d * scale, width - margin
    thread_end = tip - size.nose * scale
    hub_back = thread_end - size.nut * scale
    hub_front = hub_back - size.hub * scale
    strut_aft = hub_front - size.gap * scale
    strut_fwd = strut_aft - size.barrel * scale
    taper_small = hub_back - INCH / 4 * scale
    gear_right = _gear_right(size, face, scale, passes=passes, shorten=shorten)
    inside_end = gear_right if passes else face + 2.5 * unit
    gland = inside_end + (0.6 if passes else 0.9) * unit
    log = gland + 1.6 * unit
    if shorten:
        middle = strut_fwd - 6.0  # a stretch of bright shaft before the strut
        log_end = max(log + 1.5, min(log + 3 * unit, middle - 2.6))
        breaks = (middle - 1.2, middle + 1.2)
    else:
        log_end, breaks = log + max(8 * unit, (strut_fwd - log) * 0.45), None
    return Stations(
        passes=passes, unit=unit, axis=axis, width=width, face=face,
        hub_end=face - 2.3 * unit if passes else face + 2.5 * unit,
        gear_left=face if passes else max(face - 0.55 * unit - (CASE if cased else 6.0), 2.0),
        gear_right=gear_right,
        gland=gland, log=log, log_end=log_end, breaks=breaks,
        strut_fwd=strut_fwd, strut_aft=strut_aft, hub_front=hub_front, taper_small=taper_small,
        taper_big=max(taper_small - size.taper * scale, strut_aft + 0.2), hub_back=hub_back,
        thread_end=thread_end, tip=tip,
        front_tip=face - size.front * scale if passes else face,
        layout="v_pass_through" if passes else layout,
    )  # fmt: skip


def _true_scale(size: Sizes, forward: float, *, width: float, margin: float) -> tuple[float, float]:
    """One scale for the whole line, and where its face then stands."""
    # A gearbox that is passed through is part of it: lengths run from the coupling's face.
    whole = forward + size.face_to_strut + size.gap + size.hub + size.nut + size.nose
    scale = (width - 2 * margin) / whole
    return scale, margin + forward * scale


def _gear_right(size: Sizes, face: float, scale: float, *, passes: bool, shorten: bool) -> float:
    if not passes:
        return face
    return face + (min(size.through * scale, GEARBOX) if shorten else size.through * scale)
