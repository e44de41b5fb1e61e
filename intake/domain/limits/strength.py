"""Limits of strength, speed and material. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.standards import value


def _factor(service: str) -> float:
    return float(value("safety_factors", service, "sf_min").number)


@dataclass(frozen=True)
class StrengthLimits:
    """Limits of strength, speed and material."""

    # Strength: least safety factor by service (Gerr; school note citing ABYC P-6 practice).
    safety_pleasure: float = _factor("average yachts")
    safety_work: float = _factor("pilot and patrol boats")
    safety_passenger: float = _factor("commercial inspected passenger")
    safety_stop_share: float = 2 / 3

    # The desk's default alloys.
    alloy_inch: str = "S20910"
    alloy_metric: str = "1.4462"

    # Span: the share of the critical speed that is asked about; usual spans are 20 to 40 diameters
    # (D. Gerr, Propeller Handbook p. 93 as quoted). A support this near to the flange or the strut
    # is that end itself. What is named by these words holds no shaft.
    whip_share: float = 0.80
    span_least_diameters: float = 20.0
    support_apart_diameters: float = 4.0
    not_supports: tuple[str, ...] = ("gland", "stuffing", "packing", "seal")

    # Propeller over shaft diameter (the rule of one fourteenth), and the shaft's speed.
    propeller_least_diameters: float = 9.0
    propeller_most_diameters: float = 18.0
    shaft_rpm_least: float = 300.0
    shaft_rpm_most: float = 5000.0
    shaft_rpm_stop: float = 5500.0

    # Engine figures that are usual in kilowatts and odd in horsepower.
    usual_kilowatts: tuple[int, ...] = (
        *(22, 29, 37, 41, 44, 51, 55, 59, 63, 66, 74, 81, 85, 88, 96, 103, 118, 132, 147, 169),
        *(191, 221, 228, 235, 257, 279, 294, 316, 331, 368),
    )

    # Crevice attack: above 100 to 200 ppm chloride for 304, above 1000 ppm for 316; the sea has
    # about 19 000 (nickel industry guideline NiDI 11 003). By UNS and EN number.
    alloys_304: tuple[str, ...] = ("S30400", "S30403", "S30453", "1.4301", "1.4307", "1.4311")
    alloys_316: tuple[str, ...] = ("S31600", "S31603", "1.4401", "1.4404")
    idle_weeks: int = 2
    # Copper alloys and nickel-copper, by how their UNS and EN numbers begin.
    alloys_copper: tuple[str, ...] = ("C", "N04", "N055", "2.0", "2.436", "2.4375")
