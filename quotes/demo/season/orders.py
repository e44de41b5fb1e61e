"""Quotes and what hangs on them as rows, not stored yet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from decimal import Decimal
from itertools import pairwise
from random import Random

from django.contrib.auth.models import User

from catalog.domain.lengths import NM_PER_INCH
from catalog.pieces.models import BAR, REMNANT, Piece
from intake.models import SheetVersion, Submission
from quotes.cases.models import Case, CaseCost, CaseEvent
from quotes.demo.season.lives import Life
from quotes.domain import case_words
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.shop_stages import Stage
from quotes.making import PricedSheet
from quotes.models import Outcome, Quote
from quotes.sending.models import Shipment
from quotes.shop.models import ShopMove, ShopOrder
from quotes.stock.models import SHAFT, TAKEN, Hold

_STATUS = {
    "accepted": QuoteStatus.ACCEPTED,
    "declined": QuoteStatus.DECLINED,
    "lapsed": QuoteStatus.LAPSED,
    "": QuoteStatus.ISSUED,
}
_VALID = timedelta(days=30)
_KEPT_FROM = 20 * NM_PER_INCH  # what is shorter was thrown away in that shop
_GONE = "sawn in the season of the demo"


def a_quote(
    life: Life, submission: Submission, sheet: SheetVersion, found: PricedSheet, number: str
) -> Quote:
    """The one version of its quote, priced as it is today."""
    priced, issued = found.priced, life.quoted_at or life.asked.at
    accepted = life.answer == "accepted"
    return Quote(
        submission=submission,
        sheet=sheet,
        number=number,
        version=1,
        status=_STATUS[life.answer].value,
        lines=[line.as_json() for line in priced.lines],
        missing=[missing.as_json() for missing in priced.missing],
        goods=priced.goods,
        freight=priced.freight,
        freight_words=priced.freight_words,
        tax=priced.tax,
        total=priced.total,
        inputs=found.inputs,
        made_at=issued,
        issued_at=issued,
        opened_at=issued + timedelta(hours=1),
        valid_until=(issued + _VALID).date(),
        accepted_at=life.answered_at if accepted else None,
        accepted_by=life.asked.person.name if accepted else "",
        accepted_from="the demo" if accepted else "",
        declined_at=life.answered_at if life.answer == "declined" else None,
        declined_reason="found one nearer by" if life.answer == "declined" else "",
        is_here=life.left_on is None,
    )


Sawn = tuple[Piece, Piece | None, Hold]


def bar_of(life: Life, quote: Quote, parts: Mapping[str, int]) -> Sawn | None:
    """The bar its shaft was sawn from, what was left over, and what was held of it."""
    shaft = life.now.verdict.shaft
    line = next((one for one in quote.lines if one["unit"] in ("in", "mm")), None)
    if shaft is None or line is None or line["code"] not in parts:
        return None
    part = life.now.verdict.case.stock.part(line["code"])
    if part is None or part.stock_length is None:
        return None
    needed = shaft.overall.nm + NM_PER_INCH // 4
    whole, kind = _piece_of(part.stock_length.nm, needed, quote.number)
    rest = whole - needed
    if rest < 0:
        return None
    at = quote.accepted_at or life.asked.at
    piece = Piece(part_id=parts[part.code], kind=kind, length_nm=whole, free_nm=0,
                  heat="S-0001", came_at=at, gone_at=at, gone_why=_GONE)  # fmt: skip
    left = None
    if rest >= _KEPT_FROM:
        left = Piece(part_id=parts[part.code], kind=REMNANT, length_nm=rest, free_nm=0,
                     heat="S-0001", came_at=at, gone_at=at, gone_why="used up since")  # fmt: skip
    hold = Hold(quote=quote, line=SHAFT, what=f"{shaft.overall.both()} of {part.description}"[:200],
                part_code=part.code, system=part.system, diameter_nm=shaft.nominal.nm,
                alloy=part.alloy, needed_nm=needed, state=TAKEN, at=at)  # fmt: skip
    return piece, left, hold


def _piece_of(stock_nm: int, needed: int, number: str) -> tuple[int, str]:
    """A whole bar, or for two of five a remnant that is a little longer than what is needed."""
    rng = Random(f"bar {number}")  # noqa: S311
    if rng.random() < 0.4:
        return needed + round(rng.uniform(0.2, 24) * NM_PER_INCH), REMNANT
    return stock_nm, BAR


def shop_of(life: Life, quote: Quote, by: User) -> tuple[ShopOrder, list[ShopMove]]:
    """From the saw to the van, spread over the days between."""
    start, end = quote.accepted_at or life.asked.at, _left(life)
    order = ShopOrder(quote=quote, stage=Stage.SHIPPED.value, since=end)
    line = [Stage.WAITING, Stage.SAWN, Stage.MADE, Stage.INSPECTED, Stage.PACKED, Stage.SHIPPED]
    steps = list(pairwise(line))
    moves = [
        ShopMove(order=order, was=was.value, now=now.value, by=by,
                 at=start + (end - start) * (at + 1) / len(steps))
        for at, (was, now) in enumerate(steps)
    ]  # fmt: skip
    return order, moves


def _left(life: Life) -> datetime:
    day = life.left_on or life.asked.at.date()
    return life.asked.at.replace(year=day.year, month=day.month, day=day.day, hour=16)


def a_shipment(life: Life, quote: Quote, by: User) -> Shipment:
    """The day it left."""
    shaft = life.now.verdict.shaft
    return Shipment(
        quote=quote,
        day=_left(life).date(),
        tube_nm=shaft.overall.nm + 4 * NM_PER_INCH if shaft else None,
        weight_lb=Decimal("14.0"),
        carrier="the Tuesday van",
        by=by,
        at=_left(life),
        heard=life.told_at is not None,
    )


def an_outcome(life: Life, quote: Quote) -> Outcome:
    """What the customer told, with the gap as predicted then."""
    shaft = life.now.verdict.shaft
    gap = round(life.gap * NM_PER_INCH) if life.gap is not None and life.gap > 0 else None
    told, left = life.told_at, life.left_on
    asked_after = 30 if told and left and (told.date() - left).days >= 30 else 7
    return Outcome(
        quote=quote,
        after_days=asked_after,
        fitted=life.fitted,
        gap_typed=f"{gap / NM_PER_INCH:.2f} in" if gap else "",
        gap_nm=gap,
        different="",
        predicted_nm=shaft.predicted_gap.nm if shaft else None,
        u_nm=round(shaft.u_nm) if shaft else None,
        at=life.told_at or _left(life),
    )


def a_case(life: Life, quote: Quote, number: str) -> Case | None:
    """What is done about a misfit."""
    misfit = life.misfit
    if misfit is None:
        return None
    return Case(
        quote=quote,
        number=number,
        opened_as="no" if misfit.part == "shaft" else "staff",
        state=case_words.DONE if misfit.costs else case_words.OPEN,
        kind=misfit.kind,
        part=misfit.part,
        cause=misfit.cause,
        found=misfit.found,
        evidence="as the customer and the desk put it together",
        opened_at=misfit.at,
        closed_at=misfit.at + timedelta(days=9) if misfit.costs else None,
        payer=case_words.US,
        payer_why="we said it would fit",
    )


def what_a_case_cost(life: Life, case: Case) -> Iterator[CaseCost | CaseEvent]:
    """Its lines and its first event."""
    yield CaseEvent(case=case, what="opened", words="it does not fit", at=case.opened_at)
    for at, (kind, words, amount) in enumerate(life.misfit.costs if life.misfit else ()):
        yield CaseCost(
            case=case, kind=kind, words=words, amount=Decimal(amount), invented=True,
            once=f"season {at}", at=case.opened_at,
        )  # fmt: skip
