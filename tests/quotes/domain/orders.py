"""Orders and a shelf to price them from."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.stock import Kind, Stock, StockPart
from quotes.domain.order import Order, Shaft, Wanted

_SERVICES = """
SV-PROP-1 1 92 end propeller end: taper, keyway, thread, cotter hole, up to 1 in
SV-FWD-STR-1 1 44 end forward end straight: face, chamfer, keyway, up to 1 in
SV-FWD-TAP-1 1 98 end forward end tapered, up to 1 in
SV-FIT-1 1 65 each fit coupling and face on the shaft, up to 1 in
SV-PROP-1-1_4 1-1/4 108 end propeller end: taper, keyway, thread, cotter hole, up to 1-1/4 in
SV-FWD-STR-1-1_4 1-1/4 50 end forward end straight: face, chamfer, keyway, up to 1-1/4 in
SV-FIT-1-1_4 1-1/4 65 each fit coupling and face on the shaft, up to 1-1/4 in
SV-STRAIGHT - 24.00 each straighten and certify, to 48 in
SV-STRAIGHT-OVER - 0.20 in straighten, each inch over 48 in
SV-TUBE - 14.00 each tube and end caps, base
SV-TUBE-IN - 0.15 in tube, each inch
"""
_BARS = (
    ("BH-1000", "inch", inches(1), "3.6", "S20910", inches(144)),
    ("BM-1000", "inch", inches(1), "2.6", "S31600", inches(144)),
    ("BD-025M", "mm", mm(25), "0.145", "1.4462", mm(4000)),
    ("BM-025M", "mm", mm(25), "0.105", "1.4401", mm(3000)),
)
_PARTS = (
    ("CP40C-1000", Kind.COUPLING, "118", "each", "half coupling 4 in conventional, bore 1"),
    ("BR-1000-1250-2", Kind.BEARING, "38", "each", "strut bearing 1 x 1-1/4 x 2"),
    ("NT-3_4-10", Kind.HARDWARE, "18", "set", "propeller nut + jam nut 3/4-10, with cotter"),
    ("NT-M16x1.5", Kind.HARDWARE, "19", "set", "propeller nut M16x1.5 with tab washer"),
    ("KY-1_4", Kind.HARDWARE, "6", "each", "key 1/4, stainless"),
    ("KY-8x7", Kind.HARDWARE, "8", "each", "key 8x7, stainless"),
)
COUPLING = Wanted("CP40C-1000", "coupling", 1)
BEARING = Wanted("BR-1000-1250-2", "bearing", 1)


def _service(line: str) -> StockPart:
    code, size, cost, per, words = re.split(" ", line, maxsplit=4)
    diameter = None if size == "-" else inches(size.replace("-", " "))
    return StockPart(code, Kind.SERVICE, "both", diameter, words, Decimal(cost), per)


def the_shelf() -> Stock:
    services = [_service(line) for line in _SERVICES.strip().splitlines()]
    bars = [
        StockPart(
            code, Kind.BAR, system, size, f"round bar {alloy}", Decimal(cost),
            "in" if system == "inch" else "mm", longest, 9, alloy,
        )
        for code, system, size, cost, alloy, longest in _BARS
    ]  # fmt: skip
    parts = [
        StockPart(code, kind, "both", None, words, Decimal(cost), per, None, 4)
        for code, kind, cost, per, words in _PARTS
    ]
    return Stock(tuple(services + bars + parts), 1)


def an_inch_shaft(length: Length = inches(49), **changes: object) -> Shaft:
    shaft = Shaft(
        "inch", inches(1), "S20910", "conventional", length, length + inches("5/16"),
        "straight", "3/4-10", "1/4",
    )  # fmt: skip
    return replace(shaft, **changes)  # type: ignore[arg-type]


def a_metric_shaft(length: Length = mm(950), **changes: object) -> Shaft:
    shaft = Shaft(
        "mm", mm(25), "1.4462", "conventional", length, length, "straight", "M16x1.5", "8x7"
    )
    return replace(shaft, **changes)  # type: ignore[arg-type]


def an_order(shaft: Shaft | None = None, *parts: Wanted, **changes: object) -> Order:
    wants = {"shaft"} if shaft else set()
    order = Order(frozenset(wants | {part.kind for part in parts}), shaft, parts, False)
    return replace(order, **changes)  # type: ignore[arg-type]


def s01(alloy: str = "S20910") -> Order:
    """The worked example of the trade: a 49 in shaft, its coupling and its bearing."""
    return an_order(an_inch_shaft(alloy=alloy), COUPLING, BEARING)
