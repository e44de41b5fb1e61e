"""Writing down what was measured, who stands by it, and what the desk lets go."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction

from catalog.domain.stock import Kind
from intake.inserts import insert
from intake.services import Overtaken
from quotes.domain.as_made import Accepted, Made, accepted
from quotes.domain.as_made_read import BOXES, LONGEST, read_as_made
from quotes.domain.as_made_verdict import Judged, Verdict, judge
from quotes.domain.shop_stages import Stage
from quotes.inspecting import selectors
from quotes.inspecting.models import Inspection, Release, Signature
from quotes.making import order_of
from quotes.models import Quote
from quotes.shop.selectors import stage_of
from quotes.shop.services import Stopped, hold

LONGEST_WHY = 400
Do = Callable[[], bool]
# A shaft may be measured from the moment it is made, and again until it is in its tube.
_MEASURED_AT = frozenset({Stage.MADE, Stage.INSPECTED})


@dataclass(frozen=True, slots=True)
class Looked:
    """What the numbers say, whether they are stored or not."""

    made: Made
    judged: Judged


def promised(quote: Quote) -> Accepted:
    """What the accepted sheet of a quote promises of its shaft."""
    order = order_of(quote)
    fitted = order.coupling_comes or any(part.kind == Kind.COUPLING for part in order.parts)
    left = order.shaft.left_long if order.shaft else None
    # One that is left long has no faced coupling yet: the yard fits and faces it.
    return accepted(quote.sheet.outcome["stack"], has_coupling=fitted and not left, left_long=left)


def look(*, quote: Quote, typed: Mapping[str, str]) -> Looked:
    """What the typed numbers would say. Nothing is stored. Raises NotRead."""
    wanted = promised(quote)
    made = Made(wanted, read_as_made(typed, wanted))
    return Looked(made, judge(made))


def keep_inspection(*, quote: Quote, typed: Mapping[str, str], seen: int, by: User) -> Inspection:
    """Store one inspection: what was typed and what it says now. Sent twice it is stored once.

    ``seen``: the number of the newest inspection the page showed, 0 where there was none. Raises
    NotRead; Stopped where the shaft is not to be inspected now; Overtaken where somebody else
    has inspected it since.
    """
    looked = look(quote=quote, typed=typed)
    with transaction.atomic():
        hold(quote)
        _require_stage(quote)
        last = selectors.newest(quote)
        if (last.number if last else 0) != seen:
            return _same(last, typed, seen, by)
        row = _row(quote, looked, typed, seen + 1, by)
        if not insert(row, unless_there=True):
            raise Overtaken
        return row


def _require_stage(quote: Quote) -> None:
    stage = stage_of(quote)
    if stage not in _MEASURED_AT:
        words = "is not made yet" if stage in (Stage.WAITING, Stage.SAWN) else "has gone on"
        raise Stopped(f"This shaft {words}, so there is nothing to inspect.")


def _same(last: Inspection | None, typed: Mapping[str, str], seen: int, by: User) -> Inspection:
    """A second click of the same person on the same numbers; anything else was overtaken."""
    if last and last.number == seen + 1 and last.by_id == by.pk and last.typed == kept(typed):
        return last
    raise Overtaken


def kept(typed: Mapping[str, str]) -> dict[str, str]:
    """The boxes with something in them, as typed."""
    boxes = {box: typed.get(box, "").strip()[:LONGEST] for box in (*BOXES, "tool")}
    return {box: text for box, text in boxes.items() if text}


def _row(
    quote: Quote, looked: Looked, typed: Mapping[str, str], number: int, by: User
) -> Inspection:
    made, judged = looked.made, looked.judged
    small, gap = made.made.small_end, made.gap
    return Inspection(
        quote=quote,
        number=number,
        typed=kept(typed),
        length_nm=made.made.length.nm,
        small_end_nm=small.nm if small else None,
        gap_nm=gap.nm if gap is not None else None,
        u_nm=made.u.nm,
        fit=made.fit,
        verdict=judged.verdict.value,
        found=[{"check": one.check, "words": one.words, "ask": one.ask} for one in judged.found],
        advice=[*judged.advice, *judged.notes],
        by=by,
    )


@transaction.atomic
def sign(*, quote: Quote, number: int, by: User) -> bool:
    """A second person signs the newest inspection; signed already, nothing changes: False.

    Raises Stopped where it is one's own, Overtaken where a newer one was made since.
    """
    hold(quote)
    last = _newest(quote, number)
    if last.by_id == by.pk:
        raise Stopped("Your own inspection is signed by somebody else.")
    return insert(Signature(inspection=last, by=by), unless_there=True)


@transaction.atomic
def release(*, quote: Quote, number: int, by: User, why: str) -> bool:
    """The desk lets a shaft go that says "ring the desk", with its reason; once.

    Raises Stopped where it passed, or is to be shortened or scrapped, or no reason is given.
    """
    if not why.strip():
        raise Stopped("Please write why it may go, and what the customer was told.")
    hold(quote)
    last = _newest(quote, number)
    if last.verdict == Verdict.PASS:
        raise Stopped("This inspection passed; it needs no release.")
    if last.verdict != Verdict.RING:
        raise Stopped("This shaft is shortened and inspected again, or scrapped. It is not let go.")
    return insert(Release(inspection=last, by=by, why=why.strip()[:LONGEST_WHY]), unless_there=True)


def _newest(quote: Quote, number: int) -> Inspection:
    last = selectors.newest(quote)
    if last is None or last.number != number:
        raise Overtaken
    return last
