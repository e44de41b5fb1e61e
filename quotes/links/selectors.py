"""Which submission a link leads to, whether the link still holds, and who is to be reminded."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings
from django.db.models import Exists, Max, OuterRef, Q, QuerySet, Subquery
from django.utils import timezone

from intake.domain.lifecycle import Status
from intake.models import Event, Submission
from quotes.domain.lifecycle import QuoteStatus
from quotes.links.digests import token_digest
from quotes.links.models import Mail, NoReminders, OldLink
from quotes.links.post import MAY_HAVE_LEFT
from quotes.models import Quote, QuoteDocument

# Who has been silent for so long is not reminded: a mail out of the blue helps nobody.
_TOO_LATE = timedelta(days=30)
_ON_ITS_WAY = timedelta(minutes=10)  # longer than any server is waited for
_AT_ONCE = 100  # mails of one kind that one sweep asks for


@dataclass(frozen=True, slots=True)
class Found:
    """The submission behind a link, and until when the link holds. ``old``: it holds no more,
    because a newer one took its place."""

    submission: Submission
    until: datetime
    old: bool = False

    @property
    def holds(self) -> bool:
        """Whether the page may be shown."""
        return not self.old and timezone.now() <= self.until


def find_link(token: str) -> Found | None:
    """What a link leads to, in one query while it is a current one; None for a stranger's guess."""
    submission = _dated().filter(token=token).first()
    if submission is not None:
        return Found(submission, _until(submission))
    old = OldLink.objects.filter(digest=token_digest(token)).values_list("submission_id", flat=True)
    submission = _dated().filter(pk__in=old).first()
    return Found(submission, _until(submission), old=True) if submission else None


def link_until(submission: Submission) -> datetime:
    """Until when the current link of a submission holds."""
    return _until(_dated().get(pk=submission.pk))


def _dated() -> QuerySet[Submission]:
    """Submissions with when they last changed, and when their link was last renewed."""
    return Submission.objects.annotate(
        changed_at=_newest(Event), renewed_at=_newest(OldLink)
    ).order_by()


def _newest(model: type[Event] | type[OldLink]) -> Subquery:
    mine = model.objects.filter(submission=OuterRef("pk")).order_by()
    return Subquery(mine.values("submission").annotate(last=Max("at")).values("last"))


def _until(submission: Submission) -> datetime:
    read_along: tuple[datetime | None, ...] = (
        submission.received_at,
        getattr(submission, "changed_at", None),
        getattr(submission, "renewed_at", None),
    )
    newest = max(moment for moment in read_along if moment)
    return newest + timedelta(days=int(settings.LINK_DAYS))


def wants_no_reminders(submission: Submission) -> bool:
    """Whether the customer has switched reminders off."""
    return NoReminders.objects.filter(submission=submission).exists()


def with_mailbox(submission_id: int) -> Submission | None:
    """The submission, if its customer gave an e-mail address."""
    return Submission.objects.filter(pk=submission_id).exclude(contact_email="").first()


def renewed_since(submission: Submission, moment: datetime) -> bool:
    """Whether its link was renewed after that moment."""
    return OldLink.objects.filter(submission=submission, at__gt=moment).exists()


def mail_to_send(mail_id: int) -> Mail | None:
    """A mail nobody has begun to send, with its submission."""
    waiting = Mail.objects.filter(pk=mail_id, sending_at=None, sent_at=None, dropped="")
    return waiting.select_related(
        "submission", "quote__sheet", "quote__submission", "bundle"
    ).first()


def may_have_left(mail: Mail) -> bool:
    """Whether the server, or we ourselves, fell silent while a mail was on its way."""
    if mail.sent_at or mail.dropped:
        return mail.dropped == MAY_HAVE_LEFT
    return mail.sending_at is not None and mail.sending_at < timezone.now() - _ON_ITS_WAY


def sent_once_more(mail: Mail) -> bool:
    """Whether the desk has had it sent again."""
    return Mail.objects.filter(key=again_key(mail)).exists()


def again_key(mail: Mail) -> str:
    """The key of the mail that takes this one's place."""
    return f"again:{mail.pk}:{mail.kind}"


def paper_of(quote: Quote) -> QuoteDocument | None:
    """The paper of a version, as it was made."""
    return QuoteDocument.objects.filter(quote=quote).first()


def to_remind_of_questions() -> list[tuple[int, int]]:
    """Submission and its sheet's number, where a question has waited long enough."""
    since = timezone.now() - timedelta(days=settings.REMIND_OF_QUESTION_DAYS)
    silent = {"changed_at__lte": since, "changed_at__gt": since - _TOO_LATE}
    waiting = _reachable("question").filter(
        status=Status.NEEDS_CALL, sheets__is_current=True, **silent
    )
    return list(waiting.order_by("pk").values_list("pk", "sheets__number")[:_AT_ONCE])


def to_remind_of_quotes() -> list[tuple[int, int]]:
    """Submission and quote where an issued quote has waited long enough and still holds."""
    since = timezone.now() - timedelta(days=settings.REMIND_OF_QUOTE_DAYS)
    waiting = _reachable("quote").filter(
        status=Status.QUOTED,
        quotes__status=QuoteStatus.ISSUED,
        quotes__issued_at__lte=since,
        quotes__issued_at__gt=since - _TOO_LATE,
        quotes__valid_until__gte=timezone.localdate(),
    )
    return list(waiting.order_by("pk").values_list("pk", "quotes__pk")[:_AT_ONCE])


def _reachable(kind: str) -> QuerySet[Submission]:
    """Those with an e-mail address who want reminders and had none of this kind yet.

    One that was dropped (nothing was to be done just then) counts until something changes.
    """
    mails = Mail.objects.filter(kind=kind, submission=OuterRef("pk"))
    had = mails.filter(Q(dropped="") | Q(made_at__gte=OuterRef("changed_at")))
    some = _dated().exclude(contact_email="").filter(no_reminders__isnull=True)
    return some.filter(~Exists(had))


def issued_quote(submission: Submission) -> Quote | None:
    """The quote that waits for an answer and still holds."""
    issued = submission.quotes.filter(status=QuoteStatus.ISSUED)
    waiting = issued.filter(valid_until__gte=timezone.localdate())
    return waiting.select_related("submission", "sheet").first()
