"""Choosing another metal or an option: a new row, and a new version of the quote."""

from __future__ import annotations

from collections.abc import Collection
from datetime import timedelta

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from intake.jobs import enqueue
from intake.models import SheetVersion, Submission
from intake.selectors import fresh_sheet
from intake.services import Overtaken
from quotes import selectors
from quotes.choosing.models import Choice as ChoiceRow
from quotes.choosing.selectors import OnOffer, chosen_for, newest, on_offer_beside
from quotes.domain.alloys import bars_for, own_alloy
from quotes.domain.choice import Choice
from quotes.domain.chosen import key_words
from quotes.domain.kept_choice import kept_choice
from quotes.domain.lifecycle import OPEN, TOO_LATE, QuoteError, QuoteStatus
from quotes.domain.order import alloy_words
from quotes.ending.services import hold_sheet
from quotes.models import Quote
from quotes.services import requote

WHY = "the metal or what goes with it was chosen anew"
_NO_QUOTE = "There is no quote yet; we send it to you as soon as it is made."
_CLOSED = (QuoteStatus.ACCEPTED, QuoteStatus.CANCELLED)
# A server that is killed between choice and price: the job makes the price then.
_LATER = timedelta(minutes=1)


class NotOffered(QuoteError):
    """What was ticked cannot be had on this sheet. ``sentences``: one for each thing."""

    def __init__(self, sentences: tuple[str, ...]) -> None:
        super().__init__(" ".join(sentences))
        self.sentences = sentences


def choose(
    *,
    submission: Submission,
    alloy: str,
    options: Collection[str],
    version: int | None = None,
    by: User | None = None,
    name: str = "",
    told_from: str = "",
) -> Quote | None:
    """Choose a metal ("" or the sheet's own: as on the sheet) and what goes with it.

    What was issued is replaced by a new version with the new price; the same choice again changes
    nothing. ``version``: the quote that was looked at (None: none was). ``by``: staff; without it
    the customer did, ``name`` and ``told_from`` say who and from where.

    Raises NotOffered for what is not on offer, QuoteError where the quote is answered or has run
    out, Overtaken where it changed meanwhile. Answers the quote that stands, None before there is
    one.
    """
    sheet, wanted = fresh_sheet(submission), _Wanted(alloy, frozenset(options), by)
    row, quote = _written(sheet, wanted, version, name, told_from)
    if row is None or quote is None or quote.status not in OPEN:
        return quote
    return price_anew(row, by)


def price_anew(row: ChoiceRow, by: User | None) -> Quote:
    """A new version for a choice. Where the quote was answered meanwhile, the choice is undone."""
    try:
        return requote(row.submission_id, by, WHY)
    except QuoteError:
        _take_back(row)
        raise


class _Wanted:
    """What somebody asks for, as typed."""

    def __init__(self, alloy: str, options: frozenset[str], by: User | None) -> None:
        self.alloy, self.options, self.by = alloy, options, by

    def read(self, shown: OnOffer) -> Choice:
        """The choice, where all of it is on offer. Raises NotOffered."""
        tickable = {offer.key for offer in shown.offers() if offer.tickable}
        wrong = [
            f"This is not on offer for this boat: {key_words(key, shown.stock)}."
            for key in sorted(self.options - tickable)
        ]
        alloy, why = self._alloy(shown)
        if why:
            wrong.insert(0, why)
        if wrong:
            raise NotOffered(tuple(wrong))
        return Choice(alloy, self.options)

    def _alloy(self, shown: OnOffer) -> tuple[str, str]:
        """The metal besides the sheet's own, and why it cannot be had."""
        shaft = shown.order.shaft
        if not self.alloy or (shaft and self.alloy == own_alloy(shaft, shown.body)):
            return "", ""
        if shaft is None or self.alloy not in bars_for(shaft, shown.stock):
            return "", f"This metal is not on offer for this boat: {alloy_words(self.alloy[:12])}."
        judged = shown.judged(self.alloy)
        held = judged.stops or (judged.barred and self.by is None)
        return self.alloy, judged.barred if held else ""


@transaction.atomic
def _written(
    sheet: SheetVersion, wanted: _Wanted, version: int | None, name: str, told_from: str
) -> tuple[ChoiceRow | None, Quote | None]:
    """The row that is to be priced, None where there is nothing to do; and the quote as it stands.

    Holds the sheet, so a second click, a yes and a correction at the same moment wait.
    """
    hold_sheet(sheet)
    quote = selectors.latest_quote(sheet.submission)
    _require_open(quote, wanted.by)
    shown = on_offer_beside(sheet, quote)
    choice, standing = wanted.read(shown), chosen_for(sheet.submission_id, shown)
    if choice == standing.choice and not standing.dropped:
        is_priced = quote is None or kept_choice(quote.inputs) == choice
        return None if is_priced else newest(sheet.submission_id), quote
    if version is not None and (quote is None or quote.version != version):
        raise Overtaken
    row = ChoiceRow.objects.create(
        submission=sheet.submission,
        sheet=sheet,
        alloy=choice.alloy,
        options=sorted(choice.options),
        by=wanted.by,
        name=name[:300],
        told_from=told_from[:200],
    )
    if quote is not None and quote.status in OPEN:
        _price_it_later(row)
    return row, quote


def _require_open(quote: Quote | None, by: User | None) -> None:
    """Staff may choose for whatever is not agreed; the customer for what can be answered."""
    if quote is not None and quote.status in _CLOSED:
        raise QuoteError(TOO_LATE[QuoteStatus(quote.status)])
    if by is None:
        if quote is None:
            raise QuoteError(_NO_QUOTE)
        if quote.status != QuoteStatus.ISSUED or _run_out(quote):
            raise QuoteError(TOO_LATE[QuoteStatus(quote.status)])


def _run_out(quote: Quote) -> bool:
    return quote.valid_until is None or quote.valid_until < timezone.localdate()


def _price_it_later(row: ChoiceRow) -> None:
    due = timezone.now() + _LATER
    enqueue(kind="price_choice", payload={"choice_id": row.pk}, key=f"choice:{row.pk}", due=due)


@transaction.atomic
def _take_back(row: ChoiceRow) -> None:
    """It came too late: what was agreed on stands, and is what holds from here on."""
    sheet = fresh_sheet(row.submission)
    hold_sheet(sheet)
    quote, last = selectors.latest_quote(row.submission), newest(row.submission_id)
    if quote is None or last is None or last.pk != row.pk:
        return
    agreed = kept_choice(quote.inputs)
    ChoiceRow.objects.create(
        submission=row.submission,
        sheet=sheet,
        alloy=agreed.alloy,
        options=sorted(agreed.options),
        by=row.by,
        told_from="came too late",
    )


def forget_choices(submissions: Collection[int]) -> None:
    """Blank who chose and from where, in the caller's transaction; what was chosen stays."""
    ChoiceRow.objects.filter(submission__in=submissions).update(name="", told_from="")
