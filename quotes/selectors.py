"""What is read of quotes: one question answered each, in a constant number of queries."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from intake.models import Job, Photo, SheetVersion, Submission
from intake.photos.selectors import MOST_PHOTOS
from quotes.domain.choice import Choice
from quotes.domain.kept_choice import kept_choice
from quotes.domain.lifecycle import OPEN, QuoteStatus
from quotes.domain.rates import Rates
from quotes.links.models import Mail
from quotes.models import Quote, QuoteDocument
from quotes.rate_sets.selectors import rates_on


def rates(day: date | None = None) -> Rates:
    """The desk's own rules of price in force on a day; None is today."""
    return rates_on(day)


def latest_quote(submission: Submission) -> Quote | None:
    """The newest version of this submission's quote, whatever became of it."""
    return submission.quotes.order_by("-version").first()


def is_latest(quote: Quote | None, submission: Submission) -> bool:
    """Whether this is the newest version there is at this moment; None: whether there is none."""
    newest = Quote.objects.filter(submission_id=submission.pk).order_by("-version")
    return newest.values_list("pk", flat=True).first() == (quote.pk if quote else None)


_MOST_VERSIONS = 50


def quotes_of(submission: Submission) -> list[Quote]:
    """All versions of this submission's quote, the newest first."""
    return list(submission.quotes.order_by("-version")[:_MOST_VERSIONS])


def accepted_quotes(submission: Submission) -> list[Quote]:
    """The quotes of this submission that are accepted, each with the sheet it rests on."""
    accepted = submission.quotes.filter(status=QuoteStatus.ACCEPTED)
    return list(accepted.select_related("submission", "sheet").order_by("pk"))


def has_standing(submission: Submission) -> bool:
    """Whether anything offered to this submission waits for an answer, or was accepted.

    Whoever holds the sheet may rely on it: nothing is issued or accepted meanwhile.
    """
    standing = [*open_statuses(), QuoteStatus.ACCEPTED.value]
    return submission.quotes.filter(status__in=standing).exists()


def standing_inputs(quote: Quote | None) -> dict[str, Any]:
    """What a quote was made from, if it stands: offered or accepted. {} for any other."""
    stands = quote is not None and quote.status in (QuoteStatus.ISSUED, QuoteStatus.ACCEPTED)
    return quote.inputs if quote is not None and stands else {}


def choice_kept(quote: Quote) -> Choice:
    """The choice a quote was priced with."""
    return kept_choice(quote.inputs)


def quote_version(submission: Submission, version: int) -> Quote | None:
    """One version of this submission's quote."""
    return submission.quotes.filter(version=version).first()


def quote_of_sheet(sheet: SheetVersion) -> Quote | None:
    """The newest quote made from this sheet version that was not put aside."""
    mine = Quote.objects.filter(sheet=sheet).exclude(status=QuoteStatus.REPLACED)
    return mine.order_by("-version").first()


def making_failed(sheet: SheetVersion) -> bool:
    """Whether the job that makes this sheet's quote has given up and waits for a person."""
    return Job.objects.filter(key=f"issue_quote:{sheet.pk}", dead=True).exists()


def offer_key(quote: Quote) -> str:
    """The key of the mail with which this version goes out; once for each time it is issued."""
    return f"offer:{quote.pk}:{quote.version}"


def offer_mail(quote: Quote) -> Mail | None:
    """The mail with which a quote goes out, whatever became of it."""
    return Mail.objects.filter(key=offer_key(quote)).first()


def next_version(submission_id: int) -> int:
    """The version the next quote of this submission gets."""
    versions = Quote.objects.filter(submission_id=submission_id)
    last = versions.order_by("-version").values_list("version", flat=True).first()
    return (last or 0) + 1


def fresh_quote(pk: int) -> Quote:
    """The quote as it stands now, with its submission and sheet."""
    return Quote.objects.select_related("submission", "sheet").get(pk=pk)


@dataclass(frozen=True, slots=True)
class QuoteState:
    """Where a quote stands now."""

    status: str
    valid_until: date | None


def quote_state(pk: int) -> QuoteState:
    """The quote's status as the database has it at this moment."""
    status, day = Quote.objects.values_list("status", "valid_until").get(pk=pk)
    return QuoteState(status, day)


def due_to_lapse(pk: int) -> Quote | None:
    """The quote, if it still waits for an answer."""
    waiting = Quote.objects.filter(pk=pk, status=QuoteStatus.ISSUED)
    return waiting.select_related("submission").first()


def document(submission: Submission, version: int) -> QuoteDocument | None:
    """The paper of one version, if there is one."""
    papers = QuoteDocument.objects.filter(quote__submission=submission, quote__version=version)
    return papers.select_related("quote").first()


def small_photos(submission_id: int) -> list[tuple[bytes, str]]:
    """The customer's photos as small JPEGs, each with the answer it was taken for.

    Nothing is left aside: what is to be read blind is read before anything is quoted.
    """
    photos = Photo.objects.filter(submission_id=submission_id).order_by("pk")
    rows = photos.values_list("small", "question")[:MOST_PHOTOS]
    return [(bytes(small), question) for small, question in rows]


def open_statuses() -> list[str]:
    """Statuses of a quote that a newer one puts aside."""
    return [status.value for status in OPEN]


def job_facts(submission_id: int) -> tuple[Submission, SheetVersion] | None:
    """A submission and its current sheet, or None when it is gone."""
    sheets = SheetVersion.objects.filter(submission_id=submission_id, is_current=True)
    sheet = sheets.select_related("submission").first()
    return (sheet.submission, sheet) if sheet else None
