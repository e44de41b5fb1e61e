"""What was measured, recognised as a size that exists: the flange, the bearing's bore and shell."""

from __future__ import annotations

from functools import lru_cache

from catalog.domain.lengths import Length
from catalog.domain.stock import StockPart
from intake.domain.case import Case
from intake.domain.limits import Limits
from intake.domain.sheet import Reading


@lru_cache(maxsize=4)
def flanges_near(case: Case) -> tuple[Length, ...]:
    """The usual flanges a disc as measured may be (1/16 in, or 3 u of the reading), nearest first.

    100 mm, 4 in and 102 mm are one reading of a tape.
    """
    reading = case.sheet.readings.get("flange_od")
    return _near(reading.length.nm, reading.u_nm, case.limits) if reading else ()


@lru_cache(maxsize=4096)
def _near(read_nm: int, u_nm: float, limits: Limits) -> tuple[Length, ...]:
    near = max(limits.flange_near.nm, limits.snap_u * u_nm)
    found = [flange for flange in limits.flanges if abs(flange.nm - read_nm) <= near]
    return tuple(sorted(found, key=lambda flange: abs(flange.nm - read_nm)))


def flange_of(case: Case) -> Length | None:
    """The usual flange nearest to the disc as measured, or None where none is near."""
    near = flanges_near(case)
    return near[0] if near else None


def is_near(flange: Length, usual: Length, limits: Limits) -> bool:
    """True where two flanges are one to a tape."""
    return abs(flange.nm - usual.nm) <= limits.flange_near.nm


def is_coupling_hub(case: Case) -> bool:
    """True where the flange as given is as small as a hub, and no flange is."""
    flange = case.sheet.length("flange_od")
    low, high = case.limits.hub_not_flange
    return flange is not None and low <= flange <= high


def listed_coupling(case: Case) -> StockPart | None:
    """The coupling of the catalogue for this flange, shaft and side, or None."""
    flange, size = flange_of(case), case.size
    direction = case.sheet.choices.get("flange_direction", "")
    if flange is None or size is None or not direction:
        return None
    found = case.stock.couplings(
        flange_od=flange, bore=size.diameter, direction=direction, within=case.limits.flange_near
    )
    return found[0] if found else None


def bore_of(case: Case) -> Length | None:
    """The bearing's bore, as its mark says or as the shaft's size has it."""
    size = case.bearing_size or case.size
    return size.diameter if size else None


def shell_reading(case: Case) -> Reading | None:
    """The shell's outside as measured, or the strut's bore that it sat in."""
    readings = case.sheet.readings
    return readings.get("shell_od") or readings.get("strut_bore")


@lru_cache(maxsize=4)
def listed_shell(case: Case) -> Length | None:
    """The listed shell of its bore that lies within 3 u of the reading, or None."""
    reading, bore = shell_reading(case), bore_of(case)
    if reading is None or bore is None:
        return None
    within = Length(round(case.limits.snap_u * reading.u_nm))
    found = case.stock.bearings(bore, reading.length, within_od=within)
    return found[0].shell_od if found else None


def shell_of(case: Case) -> Length | None:
    """The shell's outside: a listed one where one is near enough, else as measured."""
    reading = shell_reading(case)
    if reading is None:
        return None
    return listed_shell(case) or reading.length


@lru_cache(maxsize=4)
def listed_bearings(case: Case) -> tuple[StockPart, ...]:
    """Bearings of the catalogue with this bore, shell and length, nearest first."""
    bore, shell = bore_of(case), shell_of(case)
    length: Length | None = case.sheet.part("bearing_length", "text")
    if bore is None or shell is None or length is None:
        return ()
    limits = case.limits
    return case.stock.bearings(
        bore, shell, length, limits.bearing_od_near, limits.bearing_length_near
    )
