"""What an accepted quote needs of the rack and the shelf, as holds that are not stored yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from catalog.domain.stock import Kind
from catalog.models import Part
from catalog.pieces.selectors import parts_of
from quotes.domain.metal import Metal
from quotes.domain.nesting import bar_needed
from quotes.domain.order import Shaft
from quotes.making import order_of
from quotes.models import Quote
from quotes.stock.models import SHAFT, Hold

_COUNTED = (Kind.COUPLING, Kind.BEARING, Kind.HARDWARE)


def wants_of(quote: Quote) -> list[Hold]:
    """The bar of the shaft first, then parts by code; work and freight are on no shelf."""
    shaft = order_of(quote).shaft
    parts = {part.code: part for part in parts_of(_codes(quote))}
    found = [_bar(quote, shaft, parts)] if shaft else []
    return [*found, *sorted(_parts(quote, parts), key=lambda hold: hold.line)]


def _codes(quote: Quote) -> list[str]:
    return [str(line.get("code", "")) for line in quote.lines]


def _bar(quote: Quote, shaft: Shaft, parts: Mapping[str, Part]) -> Hold:
    needed = bar_needed(shaft.sent_overall)
    metal = Metal.of(shaft)
    bars = [part.code for part in parts.values() if part.kind == Kind.BAR]
    return Hold(
        quote=quote,
        line=SHAFT,
        what=f"{needed.show(shaft.system)} of {metal.words}",
        part_code=bars[0] if bars else "",
        system=metal.system,
        diameter_nm=metal.diameter.nm,
        alloy=metal.alloy,
        needed_nm=needed.nm,
    )


def _parts(quote: Quote, parts: Mapping[str, Part]) -> Iterator[Hold]:
    wanted: dict[str, int] = {}
    for line in quote.lines:
        part = parts.get(str(line.get("code", "")))
        if part and part.kind in _COUNTED and part.on_hand is not None:
            wanted[part.code] = wanted.get(part.code, 0) + _whole(line)
    for code, quantity in wanted.items():
        what = parts[code].description[:200]
        yield Hold(quote=quote, line=code, what=what, part_code=code, quantity=quantity)


def _whole(line: Mapping[str, Any]) -> int:
    """How many the line says; parts are sold one by one or by the set."""
    text = str(line.get("quantity") or "1").partition(".")[0]
    return max(1, int(text)) if text.isdecimal() else 1
