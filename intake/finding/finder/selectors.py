"""Earlier customers and their boats, from what was typed so far: index look-ups alone."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from django.db.models import Q

from catalog.domain.lengths import Length
from intake.domain.known_by import email_key, phone_key
from intake.domain.lifecycle import OPEN
from intake.domain.search_query import read_names
from intake.domain.search_words import words_of
from intake.domain.spelling import nearness
from intake.finding.match import matching
from intake.models import Boat, ShaftFitted, Submission

MOST, LOOKED_AT = 8, 60
_SHAFTS = 60


@dataclass(frozen=True, slots=True)
class Found:
    """One boat and side of one customer, with her newest request and the shaft she has of us."""

    last: Submission
    boat: Boat | None
    shaft: ShaftFitted | None = None

    @property
    def name(self) -> str:
        """The customer: as the record has it, else as the last request had it."""
        customer = self.last.customer
        return (customer and customer.name) or self.last.contact_name

    @property
    def phone(self) -> str:
        """The number to call."""
        customer = self.last.customer
        return (customer and customer.phone) or self.last.contact_phone

    @property
    def boat_name(self) -> str:
        """The boat: as the record has it, else as the last request had it."""
        return (self.boat and self.boat.name) or self.last.boat_name

    @property
    def side(self) -> str:
        """Which of two shafts; empty for the only one."""
        return "" if self.last.station == "single" else self.last.station

    @property
    def is_open(self) -> bool:
        """Whether her last request is still worked on."""
        return self.last.status in OPEN

    @property
    def supplied(self) -> str:
        """The shaft she has of us, in both systems; empty where none is known."""
        return Length(self.shaft.length_nm).both() if self.shaft else ""


def find(text: str, *, most: int = MOST) -> list[Found]:
    """Who this may be, best first: at most so many boats. Tolerant where few are found exactly."""
    boats = _boats(_requests(matching(read_names(text), limit=LOOKED_AT)))
    if len(boats) < most:
        heard = _requests(matching(read_names(text, tolerant=True), limit=LOOKED_AT))
        near = sorted(_boats(heard), key=lambda found: _far(text, found))
        boats = _boats([found.last for found in (*boats, *near)])
    return _with_shafts(boats[:most])


def _requests(keys: Sequence[int]) -> list[Submission]:
    """These requests, newest first, with the records they belong to."""
    wanted = Submission.objects.filter(pk__in=keys, erased_at=None).order_by("-pk")
    return list(wanted.select_related("customer", "boat__merged_into")) if keys else []


def _boats(requests: Iterable[Submission]) -> list[Found]:
    """Each boat and side once, with the first of her requests."""
    found: dict[object, Found] = {}
    for request in requests:
        boat = request.boat and (request.boat.merged_into or request.boat)
        found.setdefault(_known_as(request, boat), Found(request, boat))
    return list(found.values())


def _known_as(request: Submission, boat: Boat | None) -> object:
    """One boat is one record; where there is none, who asked, what she is called, and the side."""
    if boat:
        return boat.pk
    who = phone_key(request.contact_phone) or email_key(request.contact_email)
    return who or request.contact_name.casefold(), request.boat_key, request.station


def _far(text: str, found: Found) -> int:
    """Letters between what was typed and what she is called, over all words."""
    own = [word for word in words_of(f"{found.name} {found.boat_name}") if not word.isdigit()]
    return sum(min((_near(word, mine) for mine in own), default=9) for word in words_of(text))


_near = lru_cache(maxsize=20_000)(nearness)  # the same few names, again with every letter


def _with_shafts(boats: Sequence[Found]) -> list[Found]:
    """The newest shaft of each, in one query."""
    wanted = Q()
    for found in boats:
        wanted |= _shafts_of(found)
    shafts = ShaftFitted.objects.filter(wanted).order_by("-at", "-pk")[:_SHAFTS] if wanted else ()
    return [Found(one.last, one.boat, _newest(one, shafts)) for one in boats]


def _shafts_of(found: Found) -> Q:
    last = found.last
    if found.boat:
        return Q(boat=found.boat)
    own = Q(submission=last)
    if phone := phone_key(last.contact_phone):
        own |= Q(phone_key=phone[:64], boat_key=last.boat_key, station=last.station)
    return own


def _newest(found: Found, shafts: Iterable[ShaftFitted]) -> ShaftFitted | None:
    for shaft in shafts:
        if found.boat and shaft.boat_id == found.boat.pk:
            return shaft
        if not found.boat and _is_hers(found.last, shaft):
            return shaft
    return None


def _is_hers(last: Submission, shaft: ShaftFitted) -> bool:
    same = (shaft.boat_key, shaft.station) == (last.boat_key, last.station)
    by_phone = same and shaft.phone_key == phone_key(last.contact_phone)[:64]
    return shaft.submission_id == last.pk or bool(by_phone and shaft.phone_key)
