"""Parts from stock that this sheet asks for, and why each."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from catalog.domain.stock import StockPart
from intake.domain.case import Case
from intake.domain.recognised import listed_bearings, listed_coupling


class PartMatch(NamedTuple):
    """A part of the catalogue for this sheet, and why it."""

    code: str
    kind: str
    quantity: int
    in_stock: bool
    why: str

    def as_json(self) -> dict[str, Any]:
        """The match as the API gives it."""
        return {
            "code": self.code,
            "kind": self.kind,
            "quantity": self.quantity,
            "in_stock": self.in_stock,
            "why": self.why,
        }


_DIRECTION_WORDS = {"aft": "conventional", "forward": "reversed"}


def match_parts(case: Case) -> tuple[PartMatch, ...]:
    """Bar, nut and keys for a shaft; the coupling; the bearings. Whatever is missing is absent."""
    wants = case.sheet.wants
    found: list[PartMatch] = []
    if "shaft" in wants:
        found += _shaft_parts(case)
    if "coupling" in wants:
        found += _coupling(case)
    if "bearing" in wants:
        found += _bearing(case)
    return tuple(found)


def _shaft_parts(case: Case) -> Iterator[PartMatch]:
    size, overall = case.size, case.overall
    if size is None or overall is None:
        return
    needed = overall + case.limits.bar_facing_and_saw
    for bar in case.stock.bars(size.system, size.diameter, case.alloy):
        if bar.stock_length is None or bar.stock_length >= needed:
            yield _match(bar, 1, f"{size.name} round bar in {case.alloy}")
            break
    thread = case.end.thread if case.end else _thread_said(case)
    nut = case.stock.part(f"NT-{thread.replace('/', '_')}") if thread else None
    if nut:
        yield _match(nut, 1, f"thread {thread}")
    if case.end:
        width = case.end.keyway_width.inch_text
        key = case.stock.part(f"KY-{width.replace('/', '_')}")
        if key:
            yield _match(key, 2, f"keyways {width} in, one at each end")


def _thread_said(case: Case) -> str:
    thread = case.sheet.part("thread", "text")
    return str(thread.text) if thread else ""


def _coupling(case: Case) -> Iterator[PartMatch]:
    part, size = listed_coupling(case), case.size
    if part and size:
        side = _DIRECTION_WORDS[case.sheet.choices["flange_direction"]]
        yield _match(part, 1, f"{side}, bore {size.name}")


def _bearing(case: Case) -> Iterator[PartMatch]:
    found = listed_bearings(case)
    if found:
        count = case.sheet.part("bearing_length", "count") or 1
        yield _match(found[0], count, "bore, shell and length as measured")


def _match(part: StockPart, quantity: int, why: str) -> PartMatch:
    enough = part.enough_for(1 if part.kind == "bar" else quantity)
    return PartMatch(part.code, str(part.kind), quantity, enough, why)
