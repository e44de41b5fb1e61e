"""Storing the season, all of it or none. No mail leaves, and no work is left for later."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime, timedelta
from itertools import islice
from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from catalog.models import Part
from catalog.selectors import stock
from intake.customers.models import Boat, Customer
from intake.domain.known_by import boat_key, email_key, phone_key, phone_tail
from intake.domain.verdict import Call
from intake.limit_sets.selectors import current_limits
from intake.models import (
    CallRecord,
    Event,
    FindingRecord,
    QuestionWording,
    SheetVersion,
    Submission,
)
from quotes.cases.models import Case, CaseCost, CaseEvent, CaseSeries
from quotes.demo.season import orders, rows
from quotes.demo.season.asking import CONFUSING, fixed_on, requests
from quotes.demo.season.lives import Life, live
from quotes.insight.keeping.services import count_everything
from quotes.making import worked_out
from quotes.models import AuditCall, NumberSeries, Outcome, Quote
from quotes.selectors import rates
from quotes.sending.models import Shipment
from quotes.shop.models import ShopMove, ShopOrder
from quotes.stock.models import Hold
from quotes.stock.services import hold_for

_CHUNK = 250


def is_there(seed: int) -> bool:
    """Whether this season was loaded before."""
    return Submission.objects.filter(idempotency_key__startswith=f"season {seed} ").exists()


def load_season(*, seed: int, how_many: int, by: Mapping[str, User]) -> int:
    """Store so many requests of the last eighteen months, and count them; how many there are.

    One transaction: a load that is killed leaves nothing. Loaded before, nothing is done (0).
    """
    if is_there(seed):
        return 0
    now, shelf, limits = timezone.now(), stock(), current_limits()
    asked = requests(seed, how_many, timezone.localtime(now), shelf)
    lives = (live(one, shelf, limits, now) for one in asked)
    with transaction.atomic():
        store = _Store(seed, by)
        done = sum(store.add(some) for some in _chunks(life for life in lives if life is not None))
        store.close()
        _word_the_question(fixed_on(seed, how_many, timezone.localtime(now)), by["percival"])
    count_everything()
    return done


def _word_the_question(at: datetime, by: User) -> None:
    """The confusing question was put right on that day, as the manager may find out."""
    QuestionWording.objects.create(
        slug=CONFUSING,
        number=QuestionWording.objects.filter(slug=CONFUSING).count() + 1,
        ask="From the machined face of the gearbox flange to the strut's after end: how far?",
        reason="people took the distance from the back of the flange",
        adopted_by=by,
        adopted_at=at,
    )


def _chunks(lives: Iterable[Life]) -> Iterator[list[Life]]:
    every = iter(lives)
    while some := list(islice(every, _CHUNK)):
        yield some


class _Store:
    """Writes lives chunk by chunk, keeping who is known and which numbers were given."""

    def __init__(self, seed: int, by: Mapping[str, User]) -> None:
        self.seed, self.by = seed, by
        self.customers: dict[str, int] = {}
        self.boats: dict[tuple[int, str, str], int] = {}
        self.numbers = Counter(dict(NumberSeries.objects.values_list("year", "last")))
        self.cases = Counter(dict(CaseSeries.objects.values_list("year", "last")))
        self.parts = dict(Part.objects.values_list("code", "pk"))

    def add(self, lives: list[Life]) -> int:
        """One chunk, in a score of statements."""
        submissions = [rows.a_submission(life, self.seed) for life in lives]
        for life, submission in zip(lives, submissions, strict=True):
            submission.customer_id = self._customer(life)
            submission.boat_id = self._boat(submission)
        Submission.objects.bulk_create(submissions)
        maud = self.by["maud"]
        sheets = [
            list(rows.sheets_of(life, submission, maud))
            for life, submission in zip(lives, submissions, strict=True)
        ]
        SheetVersion.objects.bulk_create([one for some in sheets for one in some])
        found = zip(submissions, sheets, strict=True)
        FindingRecord.objects.bulk_create(
            [row for submission, some in found for row in rows.findings_of(submission, some)]
        )
        every = list(zip(lives, submissions, sheets, strict=True))
        CallRecord.objects.bulk_create(
            [row for told in every for row in rows.calls_of(*told, self.by)]
        )
        AuditCall.objects.bulk_create(
            [one for life, submission, _ in every if (one := self._audit(life, submission))]
        )
        quotes = self._quotes(every)
        Event.objects.bulk_create(
            [
                event
                for life, submission, _ in every
                for event in rows.events_of(life, submission, _number(quotes.get(submission.pk)))
            ]
        )
        self._orders([(life, quotes[one.pk]) for life, one, _ in every if one.pk in quotes])
        return len(lives)

    def close(self) -> None:
        """Numbers go on after the ones that were given."""
        for year, last in self.numbers.items():
            NumberSeries.objects.update_or_create(year=year, defaults={"last": last})
        for year, last in self.cases.items():
            CaseSeries.objects.update_or_create(year=year, defaults={"last": last})

    # --- Who --------------------------------------------------------------------------

    def _customer(self, life: Life) -> int:
        person = life.asked.person
        key = phone_key(person.phone)
        if key not in self.customers:
            row, _made = Customer.objects.get_or_create(
                known_by=key,
                defaults={
                    "name": person.name,
                    "phone": person.phone,
                    "email": person.email,
                    "role": person.role,
                    "phone_key": key,
                    "email_key": email_key(person.email),
                    "phone_tail": phone_tail(key),
                    "made_at": life.asked.at,
                    "active_at": life.asked.at,
                },
            )
            self.customers[key] = row.pk
        return self.customers[key]

    def _boat(self, submission: Submission) -> int:
        customer = submission.customer_id or 0
        key = (customer, boat_key(submission.boat_name), submission.station)
        if key not in self.boats:
            row, _made = Boat.objects.get_or_create(
                customer_id=customer,
                boat_key=key[1],
                station=key[2],
                defaults={"name": submission.boat_name},
            )
            self.boats[key] = row.pk
        return self.boats[key]

    def _audit(self, life: Life, submission: Submission) -> AuditCall | None:
        """One in twenty of what nothing held was called about at random."""
        if life.versions[0].verdict.verdict != Call.RELEASE or life.asked.index % 20:
            return None
        wrong = bool(life.asked.customer.mistakes)
        cause = life.asked.customer.kind if wrong else ""
        return AuditCall(
            submission=submission,
            chosen_at=life.asked.at,
            outcome="wrong" if wrong else "right",
            cause="X" if cause.startswith("Z-") or cause == "double" else cause,
            by=self.by["iolo"],
            at=life.asked.at + timedelta(days=2),
        )

    # --- Orders -----------------------------------------------------------------------

    def _quotes(self, every: list[tuple[Life, Submission, list[SheetVersion]]]) -> dict[int, Quote]:
        made, currency = [], rates().currency
        for life, submission, sheets in every:
            if life.quoted_at is None:
                continue
            year = life.quoted_at.year
            self.numbers[year] += 1
            number = f"Q-{year}-{self.numbers[year]:06d}"
            found = worked_out(sheets[-1], {})
            quote = orders.a_quote(life, submission, sheets[-1], found, number)
            quote.currency = currency
            made.append(quote)
        Quote.objects.bulk_create(made)
        return {quote.submission_id: quote for quote in made}

    def _orders(self, made: list[tuple[Life, Quote]]) -> None:
        sent = [(life, quote) for life, quote in made if life.left_on]
        self._shop(sent)
        Shipment.objects.bulk_create(
            [orders.a_shipment(*told, self.by["bronagh"]) for told in sent]
        )
        heard = [(life, quote) for life, quote in sent if life.told_at and life.fitted]
        Outcome.objects.bulk_create([orders.an_outcome(*told) for told in heard])
        self._cases(heard)
        for life, quote in made:
            if life.answer == "accepted" and not life.left_on:
                hold_for(quote)

    def _shop(self, sent: list[tuple[Life, Quote]]) -> None:
        steps = [orders.shop_of(*told, self.by["bronagh"]) for told in sent]
        ShopOrder.objects.bulk_create([order for order, _ in steps])
        ShopMove.objects.bulk_create([move for _, moves in steps for move in moves])
        bars = [bar for told in sent if (bar := orders.bar_of(*told, self.parts))]
        _keep([piece for piece, _, _ in bars])
        for piece, left, _ in bars:
            if left is not None:
                left.cut_from = piece
        _keep([left for _, left, _ in bars if left is not None])
        for piece, left, hold in bars:
            hold.piece, hold.remnant = piece, left
        Hold.objects.bulk_create([hold for _, _, hold in bars])

    def _cases(self, heard: list[tuple[Life, Quote]]) -> None:
        made = []
        for life, quote in heard:
            if life.misfit is None:
                continue
            year = life.misfit.at.year
            self.cases[year] += 1
            case = orders.a_case(life, quote, f"C-{year}-{self.cases[year]:04d}")
            if case is not None:
                made.append((life, case))
        Case.objects.bulk_create([case for _, case in made])
        lines: list[Any] = [row for told in made for row in orders.what_a_case_cost(*told)]
        CaseCost.objects.bulk_create([row for row in lines if isinstance(row, CaseCost)])
        CaseEvent.objects.bulk_create([row for row in lines if isinstance(row, CaseEvent)])


def _keep(pieces: list[Any]) -> None:
    if pieces:
        type(pieces[0]).objects.bulk_create(pieces)


def _number(quote: Quote | None) -> str:
    return quote.number if quote else ""
