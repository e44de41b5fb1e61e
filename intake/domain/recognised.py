"""What was measured, recognised as a size that exists: the flange, the bearing's bore and shell."""

from __future__ import annotations

from catalog.domain.lengths import Length
from intake.domain.case import Case


def flange_of(case: Case) -> Length | None:
    """The usual flange within 1/16 in of the disc as measured, or None."""
    flange, limits = case.sheet.length("flange_od"), case.limits
    if flange is None:
        return None
    near = min(limits.flanges, key=lambda usual: abs(usual.nm - flange.nm))
    return near if abs(near.nm - flange.nm) <= limits.flange_near.nm else None


def bore_of(case: Case) -> Length | None:
    """The bearing's bore, as its mark says or as the shaft's size has it."""
    size = case.bearing_size or case.size
    return size.diameter if size else None


def shell_of(case: Case) -> Length | None:
    """The shell's outside, snapped to the nearest listed one of its bore within 3 u."""
    reading = case.sheet.readings.get("shell_od") or case.sheet.readings.get("strut_bore")
    if reading is None:
        return None
    bore, within = bore_of(case), Length(round(case.limits.snap_u * reading.u_nm))
    found = case.stock.bearings(bore, reading.length, within_od=within) if bore else ()
    return found[0].shell_od if found else reading.length
