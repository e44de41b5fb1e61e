"""Coupling face to strut aft end: how far, how sure, and from where the tape really started."""

from __future__ import annotations

import math

from intake.domain.estimate import Estimate
from intake.domain.limits import Limits
from intake.domain.methods import uncertainty_nm
from intake.domain.sheet import Reading, Sheet


def strut_distance(sheet: Sheet, limits: Limits) -> Estimate | None:
    """Coupling face to strut aft end, corrected for where the tape really started.

    A datum other than the gearbox face moves it by a flange or a hub once that is known; a spacer
    between the flanges is taken off; a gearbox the shaft passes through is added. A length said
    to be level is laid along the shaft. Without one length, the three pieces stand for it.
    """
    reading = sheet.readings.get("face_to_strut_aft")
    if reading is None:
        return _in_pieces(sheet)
    value, u = read_twice(reading, outside_u(sheet, reading, limits), limits)
    shift, u_shift = _datum_shift(sheet, limits)
    moves = {"strut": u}
    if u_shift:
        moves["datum"] = u_shift
    if sheet.part("shaft_angle", "along") == "floor":
        value += level_shortfall(sheet)
        moves["slope"] = max(_slope_u(sheet, limits), 1.0)
    return Estimate(value + shift, moves)


def _in_pieces(sheet: Sheet) -> Estimate | None:
    """Face to log, log, log to strut: their sum, where all three were given."""
    pieces = [sheet.part("pieces", name) for name in ("inner", "log", "outer")]
    if None in pieces:
        return None
    u = uncertainty_nm("face_to_strut_aft", "pieces")
    return Estimate(sum(piece.nm for piece in pieces), {"strut": u})


def level_shortfall(sheet: Sheet) -> int:
    """How far a level length falls short of the same along the shaft: X / cos a - X, in nm.

    0 where no slope was given.
    """
    degrees, reading = sheet.part("shaft_angle", "text"), sheet.readings.get("face_to_strut_aft")
    if not degrees or reading is None:
        return 0
    return round(reading.length.nm * (1 / math.cos(math.radians(degrees)) - 1))


def _slope_u(sheet: Sheet, limits: Limits) -> float:
    """What half a degree of slope is worth: d(X / cos a) = X tan a / cos a da."""
    degrees = sheet.part("shaft_angle", "text") or 0.0
    slope = math.radians(degrees)
    per_radian = sheet.readings["face_to_strut_aft"].length.nm * math.tan(slope) / math.cos(slope)
    return per_radian * math.radians(limits.u_angle_degrees)


def outside_u(sheet: Sheet, reading: Reading, limits: Limits) -> float:
    """Outside lengths taken afloat are reported, not measured."""
    if sheet.choice("afloat_or_ashore") == "afloat":
        return max(reading.u_nm, float(limits.u_afloat.nm))
    return reading.u_nm


def read_twice(reading: Reading, u: float, limits: Limits) -> tuple[int, float]:
    """Two readings that agree are averaged by their weights; two that do not leave the first."""
    again = reading.again
    if again is None or not agrees(reading, limits):
        return reading.length.nm, u
    if again.method == reading.method:
        return (reading.length.nm + again.length.nm) // 2, u / math.sqrt(2.0)
    share = u * u / (u * u + again.u_nm**2)
    mean = reading.length.nm + round((again.length.nm - reading.length.nm) * share)
    return mean, u * again.u_nm / math.hypot(u, again.u_nm)


def agrees(reading: Reading, limits: Limits) -> bool:
    """True where a second reading is there and as near to the first as two of them should be.

    Taken the same way that is 2 sqrt 2 u, common practice.
    """
    again = reading.again
    if again is None:
        return False
    apart = abs(reading.length.nm - again.length.nm)
    together = math.hypot(reading.u_nm, again.u_nm)
    return apart <= limits.second_reading_u / math.sqrt(2.0) * together


def _datum_shift(sheet: Sheet, limits: Limits) -> tuple[int, float]:
    """From where the tape started to the coupling face as it will be, and how surely."""
    datum, (now, then) = sheet.choice("forward_datum"), spacers(sheet)
    if datum == "gearbox_face":
        return -then, 0.0
    if datum == "unknown":
        return -then, float(limits.u_datum_unknown.nm)
    if datum == "gearbox_back":
        through = sheet.readings.get("gearbox_through")
        return (through.length.nm, through.u_nm) if through else (0, 0.0)
    shift = _known_shift(sheet, datum, limits)
    if shift is None:
        return 0, 0.0
    # Who started behind the spacer has not measured it: it is on his side of the tape.
    behind = now if datum in ("shaft_flange_aft", "hub_end") else 0
    return shift + behind - then, float(limits.u_datum_corrected.nm)


def _known_shift(sheet: Sheet, datum: str, limits: Limits) -> int | None:
    """The correction once thickness or hub is answered; half an inch where it cannot be had."""
    if datum == "hub_end":
        hub = sheet.length("hub_length_coupling")
        return hub.nm if hub else None
    half, sign = ("gearbox", -1) if datum == "gearbox_flange_back" else ("coupling", 1)
    thickness = sheet.part("flange_thickness", half)
    if thickness is None and sheet.cannot("flange_thickness"):
        thickness = limits.flange_assumed
    return sign * thickness.nm if thickness else None


def datum_is_settled(sheet: Sheet, limits: Limits) -> bool:
    """True where the tape started on the gearbox face, or what it started on has been answered."""
    datum = sheet.choice("forward_datum")
    if datum == "gearbox_face":
        return True
    if datum == "gearbox_back":
        return sheet.choice("drive_layout") == "v_pass_through"
    return datum != "unknown" and _known_shift(sheet, datum, limits) is not None


def spacers(sheet: Sheet) -> tuple[int, int]:
    """What sits between the two flanges now, and what will sit there afterwards, in nanometres."""
    kind, stays = sheet.part("flex_or_spacer", "kind"), sheet.part("flex_or_spacer", "stays")
    thickness = sheet.part("flex_or_spacer", "thickness")
    now = thickness.nm if thickness and kind != "none" else 0
    return now, 0 if stays == "no" else now
