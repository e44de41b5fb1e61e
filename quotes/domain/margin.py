"""What the checks say of a metal on this sheet, and its margin against the engine's torque."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalog.domain.stock import Stock
from intake.checks.metal import the_metal_suits_the_hull, the_shaft_gets_no_weaker
from intake.checks.strength import the_shaft_carries_the_torque, torque_safety, wanted_safety
from intake.domain.case import Case
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.domain.sizes import Size
from intake.domain.verdict import Severity
from quotes.domain.order import Shaft

# The checks that may hold a metal back. (Still salt water is a caution beside it, not a bar.)
_CHECKS = (the_shaft_carries_the_torque, the_shaft_gets_no_weaker, the_metal_suits_the_hull)
_PLATES = (
    ("engine_power", "power"),
    ("engine_max_rpm", "full engine speed"),
    ("gear_ratio", "gearbox ratio"),
)
_USES = {"work": "work", "passenger": "passenger use"}
_CENT = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Margin:
    """Safety factor in torsion and the one this service wants, in words and as figures."""

    words: str
    safety: Decimal | None = None
    wanted: Decimal | None = None


NO_MARGIN = Margin("not known: this sheet cannot be read any more")


@dataclass(frozen=True, slots=True)
class Judged:
    """``barred``: why a customer cannot take this metal alone, or ""; ``stops``: nobody may."""

    margin: Margin | None
    barred: str = ""
    stops: bool = False


def judge_alloy(
    alloy: str,
    shaft: Shaft,
    body: Mapping[str, Any],
    stock: Stock,
    history: History,
    limits: Limits,
) -> Judged:
    """One metal on this sheet, by the very checks that judge a sheet which asks for it."""
    try:
        sheet = read_sheet(body)
    except SheetErrors:  # written under older rules
        return Judged(None, _RING)
    size = Size(shaft.system, shaft.diameter)
    case = Case(replace(sheet, alloy=alloy), stock, history, limits, size=size)
    found = [
        (said.severity or check.severity, said.message)
        for check in _CHECKS
        if check.may_fire(sheet.wants, sheet.answered)
        for said in check.look(case)
    ]
    stops = [words for severity, words in found if severity is Severity.STOP]
    asks = [words for severity, words in found if severity is Severity.ASK]
    barred = f"Not offered: {stops[0]}" if stops else f"{_RING} {asks[0]}" if asks else ""
    return Judged(margin_of(case), barred, bool(stops))


_RING = "Ring us before you choose this metal."


def margin_of(case: Case) -> Margin:
    """SF = D³ S N / (321 000 P) and what this use wants; or what is missing to say it.

    Source: ABYC P-6 formula and service factors as published by D. Gerr, Boat Mechanical Systems
    Handbook, ch. 1 p. 10.
    """
    factor, use = torque_safety(case), _use(case.sheet)
    wanted = _two_places(wanted_safety(case))
    if factor is None:
        return Margin(f"not known: {_missing(case.sheet)}", None, wanted)
    safety = _two_places(factor)
    words = f"safety factor {safety} against torque; {use} wants {wanted.normalize():f}"
    return Margin(words, safety, wanted)


def _missing(sheet: Sheet) -> str:
    absent = [name for slug, name in _PLATES if not sheet.has(slug)]
    return f"no {' and no '.join(absent)} given" if absent else "no strength in our tables"


def _use(sheet: Sheet) -> str:
    return _USES.get(sheet.use, "pleasure use" if sheet.use else "pleasure use (assumed)")


def _two_places(number: float) -> Decimal:
    return Decimal(str(number)).quantize(_CENT)
