"""Requests by the thousand, for the benches: the newest hundred of every crowd are alike.

A few dozen real requests are received and judged as ever, and so are their first quotes. The rest
are their copies under other names, one every twenty minutes back from now: rows of their own,
written in bulk, sheets and findings by the database itself. Nothing is drawn at random but by the
request's age, so a crowd of 100 is the newest end of a crowd of 100 000. Copies have no paper.
"""

from __future__ import annotations

import copy
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import timedelta
from functools import lru_cache
from itertools import pairwise
from random import Random
from typing import Any

from django.contrib.auth.models import User
from django.db import connection, transaction
from django.utils import timezone

from intake.domain import search_words
from intake.domain.known_by import boat_key, phone_key
from intake.domain.lifecycle import OPEN, Status
from intake.finding import words
from intake.finding.models import NEVER, NO_DAY, RequestLine
from intake.inserts import insert
from intake.models import Boat, CallRecord, Customer, Event, FindingRecord, SheetVersion, Submission
from intake.rows import month_of
from intake.services import receive_submission
from quotes.models import Quote
from quotes.services import issue_quote
from tests.bench import workshop
from tests.bench.filling import fill
from tests.bench.measures import demo_bodies
from tests.given import a_body

AT_ONCE = 2000  # rows of one statement's batch
EVERY = timedelta(minutes=20)
WAIT_NEW, WAIT_OLD = 0.35, 0.03  # of those to be asked: how many still wait, the newest, the rest
NEW = 100
# fmt: off
FIRST = (
    "Arlo", "Bettony", "Corin", "Dunstan", "Elspeth", "Fenn", "Greta", "Hob", "Isolde", "Jory",
    "Keziah",
)
LAST = (
    "Tarpley", "Crumb", "Fenwether", "Muddlewick", "Larkspur", "Kranvik", "Quillwhistle",
    "Pilchard",
)
KINDS = (
    "Heron", "Otter", "Kettle", "Lantern", "Biscuit", "Thimble", "Marigold", "Teasel", "Ladle",
    "Jug",
)
SHADES = ("Blue", "Old", "Small", "Copper", "Quiet", "Merry", "Brown")
# fmt: on


@dataclass(frozen=True)
class Pattern:
    """A real request that others are copies of."""

    submission: Submission
    sheet: SheetVersion
    quote: Quote | None
    words: str

    @property
    def asks(self) -> bool:
        return self.submission.verdict != "release"


def make(number: int, by: User) -> str:
    """Fill an empty shop with so many requests, oldest first; ``by`` took half of them down.

    Returns a reference that every crowd has.
    """
    patterns = _patterns(by)
    ages = range(number - len(patterns) - 1, -1, -1)
    with transaction.atomic():
        _age_patterns(patterns, number)
        with connection.cursor() as cursor:
            cursor.execute(
                "CREATE TEMPORARY TABLE crowd_made (submission_id bigint PRIMARY KEY,"
                " sheet_id bigint, quote_id bigint, month varchar(7), by_id bigint)"
            )
        for start in range(0, len(ages), AT_ONCE):
            _copies(ages[start : start + AT_ONCE], patterns, by)
        _sheets_and_what_hangs_on_them()
        workshop.work()
    if not connection.in_atomic_block:
        _settle()
    return _reference(7)


def _settle() -> None:
    with connection.cursor() as cursor:
        cursor.execute("ANALYZE")
        if connection.vendor == "sqlite":  # else every page is read by way of one huge log
            cursor.execute("PRAGMA wal_checkpoint(TRUNCATE)")


# --- The real ones ------------------------------------------------------------------------


def _patterns(by: User) -> list[Pattern]:
    """Received, judged and quoted by the site's own services."""
    return [_pattern(body, by if at % 2 else None) for at, body in enumerate(_bodies())]


def _bodies() -> Iterator[dict[str, Any]]:
    yield from (copy.deepcopy(dict(body)) for body in demo_bodies())
    for at in range(1, 8):  # the clean sheet of other boats, and the same an inch out
        boat = {"name": f"Bench {at}", "station": "single"}
        far = {"text": f"{43 + at} 1/8", "method": "rod"}
        old = {"text": f"{47 + at + at % 2}", "method": "tape"}
        yield a_body(
            boat_name_and_station=boat, face_to_strut_aft=far, old_length_face_to_thread=old
        )


def _pattern(body: dict[str, Any], by: User | None) -> Pattern:
    submission = receive_submission(body=body, by=by)
    sheet = submission.current
    quote = None if submission.verdict != "release" else issue_quote(submission_id=submission.pk)
    told = _line(_bare(submission), [], [sheet]).words
    said = " ".join(word for word in told.split() if not word.startswith("f"))
    return Pattern(submission, sheet, quote, said)


def _age_patterns(patterns: Sequence[Pattern], number: int) -> None:
    """They are the oldest."""
    now = timezone.now()
    for age, pattern in enumerate(reversed(patterns), start=number - len(patterns)):
        Submission._default_manager.filter(pk=pattern.submission.pk).update(
            received_at=now - age * EVERY
        )


# --- Their copies -------------------------------------------------------------------------


def _copies(ages: Sequence[int], patterns: Sequence[Pattern], by: User) -> None:
    drawn = [_drawn(age, patterns, by) for age in ages]
    customers = _customers([submission for submission, _, _ in drawn])
    for submission, _pattern, _by in drawn:
        submission.customer = customers[submission.contact_phone]
    boats = _boats([submission for submission, _, _ in drawn])
    for submission, _pattern, _by in drawn:
        submission.boat = boats[_boat_of(submission)]
    _create(Submission, [submission for submission, _, _ in drawn])
    _create(Event, [event for one in drawn for event in _events(*one)])
    _create(RequestLine, [_line_of(*one) for one in drawn])
    with connection.cursor() as cursor:
        cursor.executemany(
            "INSERT INTO crowd_made VALUES (%s, %s, %s, %s, %s)", [_made(*one) for one in drawn]
        )


Drawn = tuple[Submission, Pattern, User | None]


def _drawn(age: int, patterns: Sequence[Pattern], by: User) -> Drawn:
    """The request of this age: always the same."""
    draw = Random(age)
    pattern, at = draw.choice(patterns), timezone.now() - age * EVERY
    person = draw.randrange(age // 2 + 40)
    submission = copy.copy(pattern.submission)
    submission._state = copy.copy(submission._state)
    submission.pk, submission._state.adding = None, True
    submission.reference, submission.token = _reference(age), f"crowd-{age:037d}"
    submission.received_at = at
    submission.status = _status(pattern, age, draw)
    submission.contact_name = f"{FIRST[person % 11]} {LAST[person % 8]}"
    submission.contact_phone = f"+1 555 {person // 10000:03d} {person % 10000:04d}"
    submission.contact_email = f"crowd-{person}@example.org"
    submission.boat_name = f"{SHADES[person % 7]} {KINDS[draw.randrange(2) and person % 10]}"
    submission.boat_key = boat_key(submission.boat_name)
    submission.idempotency_key, submission.to_index = "", False
    _when_to_call(submission, draw)
    return submission, pattern, by if draw.random() < 0.5 else None


def _reference(age: int) -> str:
    signs = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
    found = ""
    for _place in range(6):
        age, rest = divmod(age, len(signs))
        found = signs[rest] + found
    return f"FG-{found}"


def _status(pattern: Pattern, age: int, draw: Random) -> str:
    waits = draw.random() < (WAIT_NEW if age < NEW else WAIT_OLD)
    if pattern.asks and (waits or (age % 3 == 0 and age < NEW)):
        return Status.NEEDS_CALL.value
    if pattern.asks and draw.random() < 0.3:
        return Status.WITHDRAWN.value
    choices = (Status.QUOTED, Status.ACCEPTED, Status.DECLINED, Status.LAPSED)
    return draw.choices(choices, (2, 5, 2, 3) if age > 20 * NEW else (6, 4, 1, 0))[0].value


def _when_to_call(submission: Submission, draw: Random) -> None:
    """As the pattern's own, from its own time on; what no longer waits has none."""
    waits = submission.status == Status.NEEDS_CALL
    since = submission.received_at if waits else None
    if hasattr(submission, "waits_since"):
        submission.waits_since = since
    submission.call_by = since and since + timedelta(hours=draw.choice((4, 8, 24, 48)))
    submission.not_before = None
    submission.needed_by = submission.received_at.date() + timedelta(days=draw.randrange(5, 60))


def _customers(submissions: Sequence[Submission]) -> dict[str, Customer]:
    """One for each number, the known ones and new ones."""
    phones = {submission.contact_phone: submission for submission in submissions}
    known = Customer._default_manager.filter(phone__in=phones)
    found = {customer.phone: customer for customer in known}
    new = [_customer(phones[phone]) for phone in phones if phone not in found]
    _create(Customer, new)
    return found | {customer.phone: customer for customer in new}


def _customer(submission: Submission) -> Customer:
    key = phone_key(submission.contact_phone)
    more = {"known_by": key, "phone_tail": key[-8:], "active_at": submission.received_at}
    columns = {field.name for field in Customer._meta.concrete_fields}
    return Customer(
        name=submission.contact_name,
        phone=submission.contact_phone,
        email=submission.contact_email,
        role=submission.contact_role,
        phone_key=key,
        email_key=submission.contact_email,
        made_at=submission.received_at,
        **{name: value for name, value in more.items() if name in columns},
    )


Key = tuple[int, str, str]


def _boat_of(submission: Submission) -> Key:
    return submission.customer_id or 0, submission.boat_key, submission.station


def _boats(submissions: Sequence[Submission]) -> dict[Key, Boat]:
    """One for each customer, name and side."""
    wanted = {_boat_of(submission): submission for submission in submissions}
    owners = {owner for owner, _key, _side in wanted}
    known = Boat._default_manager.filter(customer__in=owners)
    found = {(boat.customer_id, boat.boat_key, boat.station): boat for boat in known}
    new = [
        Boat(
            customer_id=key[0],
            name=submission.boat_name,
            boat_key=key[1],
            station=key[2],
            made_at=submission.received_at,
        )
        for key, submission in wanted.items()
        if key not in found
    ]
    _create(Boat, new)
    return found | {(boat.customer_id, boat.boat_key, boat.station): boat for boat in new}


def _events(submission: Submission, pattern: Pattern, by: User | None) -> Iterator[Event]:
    """What became of it: received, then asked about or ready, then where it stands."""
    steps = ["received", "needs_call" if pattern.asks else "ready", submission.status]
    for at, (old, new) in enumerate(pairwise(steps)):
        if old != new:
            when = submission.received_at + at * timedelta(hours=3)
            yield Event(
                submission=submission,
                by=by,
                at=when,
                old_status=old,
                new_status=new,
                reason="bench",
            )


def _line_of(submission: Submission, pattern: Pattern, by: User | None) -> RequestLine:
    """As the site would write it; what many have in common is worked out once."""
    month = month_of(submission.received_at)
    alike = (pattern.submission.pk, submission.status, month, by.pk if by else 0)
    if alike not in _lines:
        _lines[alike] = _line(_bare(submission), list(_events(submission, pattern, by)), [])
    line = copy.copy(_lines[alike])
    line._state = copy.copy(line._state)
    line.submission_id = submission.pk
    line.boat, line.needed = submission.boat_key, submission.needed_by or line.needed
    if submission.status not in OPEN:
        line.needed = NO_DAY
    if line.waiting != NEVER:
        line.waiting = submission.received_at
    line.words = " ".join(dict.fromkeys(_all_words(line.words, submission, pattern)))
    return line


_lines: dict[tuple[Any, ...], RequestLine] = {}


def _all_words(common: str, submission: Submission, pattern: Pattern) -> Iterator[str]:
    phone, reference = submission.contact_phone, submission.reference
    yield from (word for word in common.split() if word.startswith("f"))
    yield from (*search_words.codes(reference), *search_words.plain(reference))
    yield from (*search_words.phones(phone), *search_words.plain(phone))
    for name in (submission.contact_name, submission.boat_name):
        yield from _of_a_name(name).split()
    yield from pattern.words.split()


@lru_cache(maxsize=1000)
def _of_a_name(name: str) -> str:
    """Its words; there are only so many names, and working them out takes long."""
    return " ".join((*search_words.names(name), *search_words.plain(name)))


def _bare(submission: Submission) -> Submission:
    """The same request of nobody."""
    bare = copy.copy(submission)
    bare._state = copy.copy(submission._state)
    bare._state.fields_cache = {}
    bare.contact_name = bare.contact_phone = bare.contact_email = bare.boat_name = ""
    bare.customer = bare.boat = None
    return bare


def _line(submission: Submission, events: list[Event], sheets: list[SheetVersion]) -> RequestLine:
    """The line of a request that was not read from the database."""
    for at, event in enumerate(events):
        event.pk = at
    read_along = {
        "events": _as_read(Event, events),
        "sheets": _as_read(SheetVersion, sheets),
        "calls": _as_read(CallRecord, []),
    }
    submission._prefetched_objects_cache = read_along  # type: ignore[attr-defined]
    line = words.line_of(submission)
    del submission._prefetched_objects_cache  # type: ignore[attr-defined]
    return line


def _as_read(model: Any, rows: list[Any]) -> Any:
    """Rows as the database would have given them."""
    read = model._default_manager.all()
    read._result_cache = rows
    return read


def _made(submission: Submission, pattern: Pattern, by: User | None) -> tuple[Any, ...]:
    quoted = submission.status not in (Status.NEEDS_CALL, Status.WITHDRAWN) and pattern.quote
    quote = pattern.quote.pk if quoted and pattern.quote else None
    month = month_of(submission.received_at)
    return submission.pk, pattern.sheet.pk, quote, month, by.pk if by else None


def _create(model: Any, rows: list[Any]) -> None:
    """Insert new rows; row by row where that needs no way to a server."""
    if connection.vendor == "sqlite" and model is not RequestLine:
        for row in rows:
            insert(row)
    else:
        model._default_manager.bulk_create(rows, batch_size=AT_ONCE)


# --- What the database copies by itself ---------------------------------------------------

_SUBMISSION = "crowd_made AS m JOIN intake_submission AS s ON s.id = m.submission_id"


def _sheets_and_what_hangs_on_them() -> None:
    fill(
        SheetVersion,
        f"{_SUBMISSION} JOIN intake_sheetversion AS t ON t.id = m.sheet_id",
        like="t",
        submission_id="s.id",
        made_at="s.received_at",
        made_by_id="m.by_id",
    )
    new = f"{_SUBMISSION} JOIN intake_sheetversion AS v ON v.submission_id = s.id"
    fill(
        FindingRecord,
        f"{new} JOIN intake_findingrecord AS t ON t.sheet_id = m.sheet_id",
        like="t",
        sheet_id="v.id",
        month="m.month",
    )
    fill(
        CallRecord,
        f"{new} JOIN intake_findingrecord AS f ON f.sheet_id = v.id"
        " WHERE f.position = 0 AND f.severity <> 'note' AND s.status <> 'needs_call'",
        submission_id="s.id",
        sheet_id="v.id",
        check_id="f.check_id",
        answer="f.answer",
        question_as_asked="f.question",
        outcome="'confirmed'",
        said_by="s.contact_name",
        month="m.month",
        channel="s.channel",
        by_id="m.by_id",
        at="s.received_at",
    )
    fill(
        Quote,
        f"{new} JOIN quotes_quote AS t ON t.id = m.quote_id",
        like="t",
        submission_id="s.id",
        sheet_id="v.id",
        number="'C-' || s.reference",
        status="CASE s.status WHEN 'quoted' THEN 'issued' ELSE s.status END",
        made_at="s.received_at",
        issued_at="s.received_at",
        accepted_at="CASE s.status WHEN 'accepted' THEN s.received_at END",
        is_here=f"s.status <> 'accepted' OR {workshop.HERE}",
    )
