"""What was measured, recognised as a size that exists: the flange, the bearing's bore and shell."""

from __future__ import annotations

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind
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
    """The shell's outside, snapped to the nearest listed shell within 3 u; else as read."""
    reading = case.sheet.readings.get("shell_od") or case.sheet.readings.get("strut_bore")
    if reading is None:
        return None
    shells = [part.shell_od for part in case.stock.of_kind(Kind.BEARING) if part.shell_od]
    near = min(shells, key=lambda shell: abs(shell.nm - reading.length.nm), default=None)
    within = case.limits.snap_u * reading.u_nm
    if near is not None and abs(near.nm - reading.length.nm) <= within:
        return near
    return reading.length
