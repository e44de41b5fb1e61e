"""Drawing a cut sheet once; and moving a shaft from stage to stage, each step once."""

from __future__ import annotations

import hashlib
from collections.abc import Callable

from django.conf import settings
from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.urls import reverse
from django.utils import timezone, translation
from django.utils.formats import date_format

from intake.inserts import insert
from intake.models import SheetVersion, Submission
from intake.selectors import current_sheet
from intake.services import Overtaken
from quotes.domain.cut_facts import CutFacts
from quotes.domain.cut_words import NO_PIECE, CutRow, cut_facts
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.shop_stages import DONE, WORDS, Stage, before, step_back
from quotes.inspecting.selectors import may_not_leave
from quotes.making import order_of
from quotes.models import Quote
from quotes.passport.services import make_passport
from quotes.selectors import latest_quote, rates
from quotes.shop import selectors
from quotes.shop.models import CutSheet, DeskWord, ShopMove, ShopOrder
from quotes.shop.standing import why_not
from quotes.shop.waiting import coupling_awaited, saw_stopped
from quotes.stock import services as stock
from quotes.stock.selectors import held_for

Finish = Callable[[], CutSheet]
RING = "Ring the desk before correcting anything."
LONGEST_WHY = 400


def facts_of(quote: Quote) -> CutFacts:
    """What the cut sheet of an accepted quote says."""
    address = reverse("cut-sheet", args=[quote.submission.reference])
    row = CutRow(
        shop=rates().name,
        number=quote.number,
        version=quote.version,
        sheet_number=quote.sheet.number,
        reference=quote.submission.reference,
        accepted=_day(quote),
        piece=piece_words(quote),
        desk_word=_word(quote),
        address=f"{str(settings.SITE_URL).rstrip('/')}{address}",
    )
    return cut_facts(row, quote.sheet.body, quote.sheet.outcome, order_of(quote))


def piece_words(quote: Quote) -> str:
    """Bar, remnant, heat, place and certificate as the rack holds them."""
    held = held_for(quote)
    if held is None or held.state == "given_back":
        return NO_PIECE
    told = (
        held.piece_words,
        f"heat {held.heat}" if held.heat else "",
        f"at {held.place}" if held.place else "",
        f"certificate {held.certificate}" if held.certificate else "",
    )
    return ", ".join(filter(None, told))


def _word(quote: Quote) -> str:
    """The desk's own word where no table gives a dimension, with whose it is."""
    said = selectors.desk_word(quote)
    if said is None:
        return ""
    return f"{said.words} ({said.by.get_full_name() or said.by.get_username()})"


def _day(quote: Quote) -> str:
    if quote.accepted_at is None:
        return "on a day not kept"
    with translation.override("en"):
        return date_format(timezone.localdate(quote.accepted_at), "DATE_FORMAT")


def paper(facts: CutFacts) -> bytes:
    """The page itself."""
    from quotes.paper.cut_sheet import cut_sheet_pdf  # here: a start needs no printer

    return cut_sheet_pdf(facts)


def prepare_cut_sheet(*, quote_id: int) -> Finish | None:
    """Draw in two steps for a job: the page now, the row in the closure.

    None where there is nothing to keep: it is kept already, the accepted sheet no longer holds,
    or something on it is not known, so that it is no sheet to cut from.
    """
    quote = selectors.accepted_quote(quote_id)
    if quote is None or selectors.is_drawn(quote):
        return None
    submission = quote.submission
    if why_not(submission, current_sheet(submission), latest_quote(submission), quote):
        return None
    facts = facts_of(quote)
    if not facts.cuttable:
        return None
    pdf = paper(facts)
    return lambda: _keep(quote, pdf)


def draw_cut_sheet(*, quote_id: int) -> CutSheet | None:
    """Draw and keep at once, where the job has not. Raises Overtaken where the sheet changed."""
    finish = prepare_cut_sheet(quote_id=quote_id)
    return finish() if finish else None


@transaction.atomic
def _keep(quote: Quote, pdf: bytes) -> CutSheet:
    """Locks as everywhere: sheet, then quote. Two at once: the first one's page is the page."""
    if not SheetVersion.objects.filter(pk=quote.sheet_id, is_current=True).update(is_current=True):
        raise Overtaken
    accepted = Quote.objects.filter(pk=quote.pk, status=QuoteStatus.ACCEPTED)
    if not accepted.update(status=QuoteStatus.ACCEPTED):
        raise Overtaken
    kept, _new = CutSheet.objects.get_or_create(
        quote=quote, defaults={"content": pdf, "sha256": hashlib.sha256(pdf).hexdigest()}
    )
    return kept


# --- From stage to stage --------------------------------------------------------------


class Stopped(Exception):
    """Nothing may be done with this shaft now; ``reasons`` are sentences for the shop."""

    def __init__(self, *reasons: str) -> None:
        super().__init__(" ".join(reasons))
        self.reasons = reasons


def hold(quote: Quote) -> None:
    """Lock sheet, quote and request, in that order, while what was accepted still stands.

    Inside the caller's transaction. Raises Stopped with the reasons where it does not stand.
    """
    _lock(quote)
    if reasons := selectors.standing_now(quote):
        raise Stopped(*reasons)


def hold_parts(quote: Quote) -> None:
    """The same for an order of parts alone."""
    _lock(quote)
    if reasons := selectors.order_stands_not(quote):
        raise Stopped(*reasons)


def _lock(quote: Quote) -> None:
    SheetVersion.objects.filter(pk=quote.sheet_id, is_current=True).update(is_current=True)
    Quote.objects.filter(pk=quote.pk).update(status=F("status"))
    Submission.objects.filter(pk=quote.submission_id).update(status=F("status"))


@transaction.atomic
def move_on(*, quote: Quote, to: Stage, by: User) -> bool:
    """A shaft has come to its next stage; pressed twice it is written once: False the second time.

    Raises Stopped where the acceptance no longer stands or something is missing for the step,
    Overtaken where the shaft stands elsewhere by now.
    """
    hold(quote)
    missing = missing_for(quote, to)
    if missing:
        raise Stopped(*missing)
    if not step(quote, before(to), to, by):
        return False
    if to == Stage.SAWN:
        make_passport(quote)
        stock.take(quote, by)
    return True


@transaction.atomic
def take_back(*, quote: Quote, seen: Stage, by: User, why: str) -> bool:
    """A wrong press is taken back, with its reason. A bar that is sawn stays sawn.

    Raises Stopped where nothing can be taken back or no reason is given.
    """
    to = step_back(seen)
    if to is None:
        raise Stopped(f"A shaft that is {WORDS[seen]} cannot be taken back a step.")
    if not why.strip():
        raise Stopped("Please write why the step is taken back.")
    hold(quote)
    return step(quote, seen, to, by, why)


@transaction.atomic
def call_off(*, quote: Quote, by: User, why: str) -> bool:
    """The desk calls an order off, with its reason; what is held for it is free again.

    It may be called off whether or not its acceptance still stands. One that has left cannot.
    """
    if not why.strip():
        raise Stopped("Please write why it is called off.")
    SheetVersion.objects.filter(pk=quote.sheet_id).update(is_current=F("is_current"))
    Quote.objects.filter(pk=quote.pk).update(status=F("status"))
    stage = selectors.stage_of(quote)
    if stage == Stage.SHIPPED:
        raise Stopped("It has left us; it cannot be called off.")
    if stage == Stage.CANCELLED or not step(quote, stage, Stage.CANCELLED, by, why):
        return False
    stock.give_back(quote)
    return True


@transaction.atomic
def give_word(*, quote: Quote, by: User, words: str) -> None:
    """The desk says what no table gives, so that the shaft may be cut by its word.

    Raises Stopped where nothing is missing, nothing is said, or the sheet is drawn already.
    """
    if not words.strip():
        raise Stopped("Please write the dimensions that are missing, each with its unit.")
    hold(quote)
    if selectors.is_drawn(quote) or selectors.stage_of(quote) != Stage.WAITING:
        raise Stopped("The cut sheet is drawn already. Put it aside and quote the shaft anew.")
    if not facts_of(quote).not_known:
        raise Stopped("Nothing is missing on this cut sheet.")
    DeskWord.objects.create(quote=quote, by=by, words=words.strip()[:LONGEST_WHY])


def step(quote: Quote, was: Stage, now: Stage, by: User, why: str = "") -> bool:
    """One move and its line, inside the caller's transaction. False: it was made already.

    Raises Overtaken where the shaft stands at neither of the two.
    """
    insert(ShopOrder(quote=quote), unless_there=True)
    order = ShopOrder.objects.filter(quote=quote)
    if not order.filter(stage=was).update(stage=now, since=timezone.now()):
        if order.filter(stage=now).exists():
            return False
        raise Overtaken
    row = order.get()
    ShopMove.objects.create(order=row, was=was, now=now, by=by, why=why.strip()[:LONGEST_WHY])
    if (was in DONE) != (now in DONE):
        Quote.objects.filter(pk=quote.pk).update(is_here=now not in DONE)
    return True


def missing_for(quote: Quote, to: Stage) -> tuple[str, ...]:
    """What must be done before this step; empty where nothing is."""
    if to == Stage.SAWN:
        facts = facts_of(quote)
        unknown = () if facts.cuttable else (f"Not known: {'; '.join(facts.not_known)}. {RING}",)
        return (*unknown, *saw_stopped(quote))
    if to == Stage.INSPECTED:
        return (*may_not_leave(quote), *coupling_awaited(quote))
    if to in (Stage.PACKED, Stage.SHIPPED):
        return may_not_leave(quote)
    return ()
