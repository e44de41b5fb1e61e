"""Erasing here who a customer was. Amounts, dates, what was quoted and how it fitted stay."""

from __future__ import annotations

from collections.abc import Sequence

from intake.models import Job
from quotes.bundles.services import forget_bundles
from quotes.cases.privacy.services import forget_cases
from quotes.choosing.services import forget_choices
from quotes.insight.audit.services import forget_audit_calls
from quotes.insight.gathering.services import gather
from quotes.links.models import Mail, NoReminders, OldLink
from quotes.models import CutSheet, Quote, QuoteDocument
from quotes.outcomes.models import Outcome
from quotes.payments.services import forget_payments
from quotes.shop.privacy.services import forget_shafts
from quotes.terms.services import forget_terms


def forget_requests(submissions: Sequence[int]) -> None:
    """Names and free words are blanked; papers, mails and links go. In the caller's transaction.

    Invoices and credit notes stay whole: the law of many places has them kept for years.
    """
    forget_terms(submissions)
    forget_choices(submissions)
    forget_shafts(submissions)
    forget_audit_calls(submissions)
    quotes = Quote.objects.filter(submission__in=submissions)
    quotes.update(accepted_by="", accepted_from="", declined_reason="", ended_why="", terms_note="")
    forget_bundles(submissions)
    forget_payments(submissions)
    Outcome.objects.filter(quote__in=quotes).update(different="")
    forget_cases(list(quotes.order_by().values_list("pk", flat=True)))
    QuoteDocument.objects.filter(quote__in=quotes).delete()
    CutSheet.objects.filter(quote__in=quotes).delete()
    for rows in (Mail, NoReminders, OldLink):
        rows.objects.filter(submission__in=submissions).delete()
    for pk in submissions:  # what was typed to ask for a new link, as a digest
        Job.objects.filter(kind="renew_link", key__startswith=f"renew_link:{pk}:").delete()
    gather(submissions)  # facts hold reasons, which are free words of the desk
