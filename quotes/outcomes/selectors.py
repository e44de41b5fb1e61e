"""Whether the customer is to be asked how it fitted, what was told, and who has told nothing."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery
from django.utils import timezone

from catalog.domain.lengths import Length
from intake.models import Submission
from quotes.calendar.selectors import calendar
from quotes.cases.models import Case
from quotes.checks.outcomes import it_was_told_how_it_fitted
from quotes.domain.case_words import DONE, NO_MISFIT, STANDS_OPEN
from quotes.domain.fitted import ASKED_AFTER, Expected, asked_after, expected, next_answer
from quotes.domain.lead import lead_days, working_days_after
from quotes.domain.lifecycle import QuoteStatus
from quotes.inspecting.models import Inspection
from quotes.links.models import Mail
from quotes.making import order_of
from quotes.models import Quote
from quotes.outcomes.models import NotYetFitted, Outcome
from quotes.selectors import rates
from quotes.sending.selectors import shipped_on

PAGE = 25
KINDS = tuple(f"fitted_{after}" for after in ASKED_AFTER)  # of mails
_AT_ONCE = 100  # mails of one kind that one sweep asks for
# Who has been silent for so long is not written to: the counter rings.
_TOO_LATE = timedelta(days=30)


def leaves_on(quote: Quote) -> date | None:
    """The day the parts should leave us, in working days after the yes; None without one."""
    if quote.accepted_at is None:
        return None
    order = order_of(quote)
    accepted = timezone.localtime(quote.accepted_at).date()
    return working_days_after(accepted, lead_days(order, rates()), calendar())


# --- One order ------------------------------------------------------------------------


def asked_now(quote: Quote) -> int:
    """After how many days it is asked about now; 0 where it is too early, or all was told.

    The clock starts on the day it really left us. While a misfit is being put right nobody is
    asked; where it is made anew, the new one is asked about.
    """
    sent = shipped_on(quote) if quote.status == QuoteStatus.ACCEPTED else None
    days = (timezone.localdate() - sent).days if sent else None
    if not asked_after(days, frozenset(), put_off=False):
        return 0
    if quote.cases.filter(_BEING_PUT_RIGHT).exists():
        return 0
    return asked_after(days, told_after(quote), put_off=_is_put_off(quote))


def has_gap(quote: Quote | None) -> bool:
    """Whether a shaft is in this order: parts alone fit or do not, and leave no gap."""
    return quote is not None and order_of(quote).shaft is not None


def is_asked(mail: Mail) -> bool:
    """Whether what a mail asks is still to be asked as it leaves."""
    return mail.quote is not None and mail.kind == f"fitted_{asked_now(mail.quote)}"


def answer_after(quote: Quote) -> int:
    """Under which of the times an answer is kept that comes by itself, as on the phone; 0 where it
    has not left us or all is told."""
    sent = shipped_on(quote) if quote.status == QuoteStatus.ACCEPTED else None
    if sent is None:
        return 0
    return next_answer((timezone.localdate() - sent).days, told_after(quote))


def told_after(quote: Quote) -> frozenset[int]:
    """After how many days it was told how it fitted."""
    return frozenset(one.after_days for one in outcomes_of(quote))


def outcomes_of(quote: Quote) -> list[Outcome]:
    """What was told so far."""
    return list(quote.outcomes.all())


def last_told(quote: Quote) -> Outcome | None:
    """The newest of them."""
    return Outcome.objects.filter(quote=quote).order_by("-after_days", "-pk").first()


def put_offs_of(quote: Quote) -> list[NotYetFitted]:
    """Each time that somebody said it was not in the boat yet, newest first."""
    return list(quote.not_yet_fitted.all())


def _is_put_off(quote: Quote) -> bool:
    newest = quote.not_yet_fitted.values_list("ask_on", flat=True).first()
    return newest is not None and newest > timezone.localdate()


def expected_of(quote: Quote, without: Case | None = None) -> Expected | None:
    """The gap it should leave, from the length as it was made where that is known.

    What was changed since counts: a shaft that was shortened is shorter, and its gap is expected
    from the one that was told then. ``without``: leave this case's own change out.
    """
    return expected_for([quote], [without] if without else []).get(quote.pk)


def expected_for(quotes: Sequence[Quote], without: Sequence[Case] = ()) -> dict[int, Expected]:
    """The same for several orders, by quote, in two queries; without those that predict no gap."""
    changes = _changes_of(quotes, without)
    made = {one.quote_id: one for one in _inspections_of(quotes)}  # the newest comes last
    found = {}
    for quote in quotes:
        foreseen = _as_made(quote, made.get(quote.pk))
        if foreseen is not None:
            found[quote.pk] = _changed(foreseen, changes.get(quote.pk, []))
    return found


def _changed(foreseen: Expected, changes: Sequence[Case]) -> Expected:
    for case in changes:
        told = Length(case.gap_nm) if case.gap_nm is not None else None
        foreseen = foreseen.after(case.kind, Length(case.by_nm or 0), told)
    return foreseen


def _as_made(quote: Quote, seen: Inspection | None) -> Expected | None:
    stack = quote.sheet.outcome.get("stack") or {}
    shaft = order_of(quote).shaft if seen else None
    left = shaft.left_long if shaft else Length(0)  # faced off by the yard before it was fitted
    found = expected(stack, Length(seen.length_nm) - left if seen else None)
    if found is None or seen is None or seen.gap_nm is None:
        return found
    return replace(found, gap=Length(seen.gap_nm), u=Length(seen.u_nm))


def _inspections_of(quotes: Sequence[Quote]) -> QuerySet[Inspection]:
    return Inspection.objects.filter(quote__in=quotes).order_by("number")


def _changes_of(quotes: Sequence[Quote], without: Sequence[Case]) -> dict[int, list[Case]]:
    """Finished shortenings and spacers, in the order they were done."""
    done = Case.objects.filter(quote__in=quotes, state=DONE, kind__in=("shorten", "spacer"))
    some = done.filter(by_nm__isnull=False).exclude(pk__in=[case.pk for case in without])
    changes: dict[int, list[Case]] = defaultdict(list)
    for case in some.order_by("closed_at", "pk"):
        changes[case.quote_id].append(case)
    return changes


def order_to_ask_about(submission: Submission) -> Quote | None:
    """The newest order of this request that has left us."""
    sent = submission.quotes.filter(status=QuoteStatus.ACCEPTED, shipment__isnull=False)
    return sent.select_related("submission", "sheet").order_by("-version").first()


# --- Asking by mail -------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Due:
    """A mail that is to be written: of which order, its kind and its key."""

    quote: Quote
    kind: str
    key: str


_BEING_PUT_RIGHT = ~Q(opened_as=NO_MISFIT) & (Q(state__in=STANDS_OPEN) | Q(kind="remake"))


def due_to_ask() -> list[Due]:
    """Whom to ask by mail now: a week and a month after it was sent, and on days they named."""
    today = timezone.localdate()
    found = [due for after in ASKED_AFTER for due in _on_time(after, today)]
    return found + _on_a_named_day(today)


def _on_time(after: int, today: date) -> list[Due]:
    newest = today - timedelta(days=after)
    oldest = today - timedelta(days=ASKED_AFTER[-1]) if after < ASKED_AFTER[-1] else None
    kind = f"fitted_{after}"
    quotes = _reachable().filter(
        shipment__day__lte=newest,
        shipment__day__gt=oldest or newest - _TOO_LATE,
        not_yet_fitted=None,
    )
    told = Outcome.objects.filter(quote=OuterRef("pk"), after_days__gte=after)
    had = Mail.objects.filter(quote=OuterRef("pk"), kind=kind)
    some = quotes.filter(~Exists(told), ~Exists(had)).order_by("pk")[:_AT_ONCE]
    return [Due(quote, kind, f"{kind}:{quote.pk}") for quote in some]


def _on_a_named_day(today: date) -> list[Due]:
    """Those who said "not yet" and named a day: it has come, and nobody has asked since."""
    newest = NotYetFitted.objects.filter(quote=OuterRef("pk")).order_by("-at", "-pk")
    had = Mail.objects.filter(
        quote=OuterRef("pk"), kind__in=KINDS, made_at__date__gte=OuterRef("ask_on")
    )
    named = NotYetFitted.objects.filter(ask_on__lte=today, ask_on__gt=today - _TOO_LATE)
    quotes = _reachable().annotate(ask_on=Subquery(newest.values("ask_on")[:1]))
    quotes = quotes.filter(
        pk__in=named.values("quote"), ask_on__lte=today, ask_on__gt=today - _TOO_LATE
    )
    some = quotes.filter(~Exists(had)).prefetch_related("outcomes").order_by("pk")[:_AT_ONCE]
    return [due for quote in some if (due := _named(quote, today)) is not None]


def _named(quote: Quote, today: date) -> Due | None:
    days = (today - quote.shipment.day).days
    after = asked_after(days, told_after(quote), put_off=False)
    day = quote.ask_on  # type: ignore[attr-defined]
    kind = f"fitted_{after}"
    return Due(quote, kind, f"{kind}:{quote.pk}:{day}") if after else None


def _reachable() -> QuerySet[Quote]:
    """Sent orders whose customers gave an address and want reminders."""
    return (
        _sent()
        .filter(submission__no_reminders__isnull=True)
        .exclude(submission__contact_email="")
        .filter(~Exists(Case.objects.filter(_BEING_PUT_RIGHT, quote=OuterRef("pk"))))
    )


_NOT_ACCEPTED = sorted(set(QuoteStatus) - {QuoteStatus.ACCEPTED})


def _sent() -> QuerySet[Quote]:
    # Not "is accepted": SQLite would begin with every quote that ever was, by its status.
    sent = Quote.objects.filter(shipment__isnull=False).exclude(status__in=_NOT_ACCEPTED)
    return sent.select_related("submission", "shipment")


# --- Silence --------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SilentPage:
    """Some orders of which nothing was heard, longest sent first; ``after``: the key the next page
    begins behind, None where there is none."""

    quotes: Sequence[Quote]
    after: int | None


def nothing_heard(after: int | None = None, size: int = PAGE) -> SilentPage:
    """Sent more than 30 days ago, no answer, and no later day was named: to be rung."""
    today = timezone.localdate()
    limit = it_was_told_how_it_fitted.limits.after_days
    quotes = _silent(today).filter(
        shipment__heard=False, shipment__day__lt=today - timedelta(days=limit)
    )
    if after is not None:
        quotes = quotes.filter(_behind(after))
    found = list(quotes.order_by("shipment__day", "pk")[: size + 1])
    return SilentPage(found[:size], found[size - 1].pk if len(found) > size else None)


def _silent(today: date) -> QuerySet[Quote]:
    later = NotYetFitted.objects.filter(quote=OuterRef("pk"), ask_on__gt=today)
    cases = Case.objects.filter(_BEING_PUT_RIGHT, quote=OuterRef("pk"))
    return _sent().filter(~Exists(later), ~Exists(cases), outcomes=None)


def _behind(key: int) -> Q:
    """Sent after that one; a key nobody has begins behind nothing."""
    day = Quote.objects.filter(pk=key).values_list("shipment__day", flat=True).first()
    if day is None:
        return Q(pk__isnull=False)
    later = Q(shipment__day__gt=day) | Q(shipment__day=day, pk__gt=key)
    return later & Q(shipment__day__gte=day)  # which an index can be read from


@dataclass(frozen=True, slots=True)
class Coverage:
    """Of the orders sent in some days: how many answered, and said "not yet" without more since."""

    sent: int
    answered: int
    not_yet: int

    @property
    def silent(self) -> int:
        """Of whom nothing was heard: neither success nor failure."""
        return self.sent - self.answered - self.not_yet


def coverage(first: date, last: date) -> Coverage:
    """Answers for the orders sent from ``first`` to ``last``, both days included."""
    sent = _sent().filter(shipment__day__range=(first, last)).order_by()
    answered = sent.filter(Exists(Outcome.objects.filter(quote=OuterRef("pk"))))
    put_off = Exists(NotYetFitted.objects.filter(quote=OuterRef("pk")))
    return Coverage(sent.count(), answered.count(), sent.filter(put_off, outcomes=None).count())
