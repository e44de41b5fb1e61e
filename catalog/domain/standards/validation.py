"""What must hold in every table before a value of it is used: the sieve for misprints.

Public sources misprint: a lost sign, a row shifted by one size, 0.206 for 0.286. A table in which
such a thing stands is refused whole, with the row and the reason.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction
from math import sqrt

from catalog.domain.standards.values import Confidence, StandardValue

Rows = Mapping[str, Mapping[str, StandardValue]]  # subject -> quantity -> value
Rule = Callable[[Rows], Iterator[str]]
_LB_IN3_IN_KG_M3 = 27_679.9


class StandardError(ValueError):
    """A table that does not hold; ``faults`` says which rows and why."""

    def __init__(self, table: str, faults: Sequence[str]) -> None:
        super().__init__(f"{table}: {'; '.join(faults)}")
        self.faults = tuple(faults)


def faults(name: str, values: Sequence[StandardValue]) -> list[str]:
    """Every fault of a table, as sentences; none when it holds."""
    found = [fault for value in values for fault in _row_faults(value)]
    if found:
        return found
    rows: dict[str, dict[str, StandardValue]] = {}
    for value in values:
        rows.setdefault(value.subject, {})[value.quantity] = value
    rules = (_least_below_most, *_RULES.get(name, ()))
    try:
        return [fault for rule in rules for fault in rule(rows)]
    except (KeyError, ValueError, ZeroDivisionError) as error:
        return [f"a value is missing or is not a number: {error}"]


def _row_faults(value: StandardValue) -> Iterator[str]:
    where = f"{value.subject} {value.quantity}"
    for column in ("subject", "quantity", "unit", "standard", "source"):
        if not getattr(value, column):
            yield f"{where}: {column} is missing"
    if (value.confidence is Confidence.GAP) != (not value.value):
        yield f"{where}: a gap has no value, and only a gap has none"
    if not _says_the_same_twice(value.value):
        yield f"{where}: the fraction and the decimal in {value.value!r} differ"
    if _lost_a_sign(value.value):
        yield f"{where}: a sign is missing in {value.value!r}"


def _says_the_same_twice(text: str) -> bool:
    """``1/32 = 0.031`` holds to the last place printed; ``1/32 = 0.030`` does not."""
    for top, bottom, decimal in re.findall(r"(\d+)/(\d+) = (\d*\.\d+)", text):
        half_a_place = Fraction(1, 2 * 10 ** len(decimal.partition(".")[2]))
        if abs(Fraction(int(top), int(bottom)) - Fraction(decimal)) > half_a_place:
            return False
    return True


def _lost_a_sign(text: str) -> bool:
    """Two limits of which one has a sign and the other, not zero, has none: ``0.039/+0``."""
    limits = re.fullmatch(r"([+-]?)([\d.]+)/([+-]?)([\d.]+)", text)
    if not limits or not (limits[1] or limits[3]):
        return False
    return any(
        not sign and Decimal(size)
        for sign, size in ((limits[1], limits[2]), (limits[3], limits[4]))
    )


def _float(value: StandardValue) -> float:
    return _inches(value.value)


def _least_below_most(rows: Rows) -> Iterator[str]:
    for subject, row in rows.items():
        for quantity, low in row.items():
            high = row.get(re.sub("min$", "max", quantity))
            if not quantity.endswith("min") or high is None:
                continue
            if low.value and high.value and _float(low) > _float(high):
                yield f"{subject} {quantity}: {low.value} is more than {high.value}"


def _density(rows: Rows) -> Iterator[str]:
    for subject, row in rows.items():
        density, metric = _float(row["density"]), _float(row["density_metric"])
        if not 0.25 <= density <= 0.35:
            yield f"{subject} density: no shaft metal weighs {density} lb/in3"
        if abs(density * _LB_IN3_IN_KG_M3 / metric - 1) > 0.002:
            yield f"{subject} density: {density} lb/in3 is not {metric} kg/m3"


def _j755(rows: Rows) -> Iterator[str]:
    """Small end = D - C/16 inside its limits; the hub overhangs 1/4 in; G = T + W + 1/4."""
    for subject, row in rows.items():
        get = {quantity: value for quantity, value in row.items() if value.unit == "in"}
        taper = _float(get["taper_length_C"])
        bore = _float(get["hub_bore_small_end_dia"])
        low, high = _float(get["small_end_dia_min"]), _float(get["small_end_dia_max"])
        small = _inches(subject) - taper / 16
        if not low <= small <= high:
            yield f"{subject} small end: D - C/16 = {small} is not within {low} to {high}"
        if not 0.0015 < high - low < 0.0025:
            yield f"{subject} small end: its limits are not 0.002 apart"
        if not 0.2399 <= (small - bore) * 16 <= 0.2561:
            yield f"{subject} hub bore: the hub does not overhang by 1/4 in"
        nuts = _float(get["plain_nut_thickness_T"]) + _float(get["jam_nut_thickness_W"])
        if _float(get["thread_length_G"]) != nuts + 0.25:
            yield f"{subject} thread length: G is not T + W + 1/4"
        if _float(get["extension_beyond_taper_H"]) <= _float(get["thread_length_G"]):
            yield f"{subject} extension: H is not more than G"


def _inches(text: str) -> float:
    """A size as printed in the tables: ``1-1/8``, ``1-1/8 in``, ``0.75``."""
    words = text.removesuffix(" in").replace("-", " ").split()
    return float(sum((Fraction(word) for word in words), Fraction()))


def _nuts(rows: Rows) -> Iterator[str]:
    """A row shifted by one size shows: heights and flats go with the thread's diameter."""
    shares = {
        "hex_nut_height": (0.84, 0.88),
        "jam_nut_height": (0.54, 0.63),
        "width_across_flats": (1.45, 1.50),
    }
    for subject, row in rows.items():
        for quantity, (low, high) in shares.items():
            share = _float(row[quantity]) / _float(row["major_diameter"])
            if not low <= share <= high:
                yield f"{subject} {quantity}: {share:.3f} of the diameter, not {low} to {high}"


def _grow_with_size(rows: Rows) -> Iterator[str]:
    """No value of a larger size is less than its smaller neighbour's."""
    before: dict[str, float] = {}
    for subject, row in rows.items():
        for quantity, value in row.items():
            size = _float(value)
            if size < before.get(quantity, 0):
                yield f"{subject} {quantity}: {size} is less than its neighbour's"
            before[quantity] = size


def _interference(rows: Rows) -> Iterator[str]:
    """Least interference = shaft min - hole max; most = shaft max."""
    for subject, row in rows.items():
        least = _float(row["shaft_min"]) - _float(row["hole_plus"])
        if abs(least - _float(row["interference_min"])) > 0.05:
            yield f"{subject} interference_min: shaft min - hole max = {least:.1f}"
        if row["shaft_max"].value != row["interference_max"].value:
            yield f"{subject} interference_max: is not the shaft's most"


def _key_depths(rows: Rows) -> Iterator[str]:
    """S = D - Y - H/2 and T = S + H + 0.005, Y = (D - sqrt(D² - W²))/2."""
    for subject, row in rows.items():
        d, w = _inches(subject), _float(row["b17_1_square_key"])
        s = d - (d - sqrt(d * d - w * w)) / 2 - w / 2
        for quantity, depth in (("S_printed", s), ("T_printed", s + w + 0.005)):
            if abs(_float(row[quantity]) - depth) > 0.00051:
                yield f"{subject} {quantity}: computed {depth:.4f}"


def _traps(rows: Rows) -> Iterator[str]:
    for subject, row in rows.items():
        metric, inch = re.findall(r"[\d/-]+", subject)
        difference = float(metric) - _inches(inch) * 25.4
        if abs(float(row["difference"].value) - difference) > 0.001:
            yield f"{subject} difference: computed {difference:.3f}"


_RULES: Mapping[str, tuple[Rule, ...]] = {
    "shaft_materials": (_density,),
    "j755_shaft_ends": (_j755,),
    "unc_threads_b18_2_2_nuts": (_nuts,),
    "iso773_din6885_keys": (_grow_with_size,),
    "ansi_b17_1_key_vs_shaft": (_grow_with_size,),
    "ansi_b4_1_interference": (_interference,),
    "keys_b17_1_vs_j755": (_key_depths,),
    "inch_metric_traps": (_traps,),
}
