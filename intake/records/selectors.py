"""What is known beside a sheet: asked on every request, so it is one query for a newcomer.

The other side of a pair costs one query more, what a person has settled on a re-check another.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta
from functools import lru_cache
from typing import Any, NamedTuple

from django.db import connection
from django.utils import timezone

from catalog.domain.lengths import Length
from intake.domain.history import History, Misfit
from intake.domain.known_by import boat_key, contact_keys, email_key, family_key, phone_key
from intake.domain.lifecycle import OPEN, Status
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.models import SheetVersion, Submission
from intake.records.models import ShaftFitted

# A second sheet for the same boat within this time is the same order, sent again.
DUPLICATE_DAYS = 45
# Whoever measured a shaft that did not fit is asked for two routes for so long.
MISFIT_DAYS = 365
_SIDES = ("port", "starboard", "centre")
_MOST = 20  # rows of one kind; a family may have more
_MOST_SISTERS = 60


def history_facts(sheet: Sheet, exclude: Submission | None = None) -> History:
    """What the desk knows beside the sheet, leaving out the submission that is re-checked.

    Other open requests for this boat and contact; the other side of a pair (the same contact,
    boat and job); the last shafts supplied, how they fitted, and those of boats of the same build;
    on a re-check, what a person has asked and had confirmed; the day.
    """
    return _History(sheet, exclude).facts()


class _Row(NamedTuple):
    """A request or a supplied shaft, whichever ``kind`` of fact it is."""

    kind: str
    submission: int
    name: str  # a request's reference, a shaft's alloy
    station: str
    phone: str
    email: str
    boat: str
    month: str
    misfit: bool
    length_nm: int
    diameter_nm: int
    gap_nm: int | None
    off_nm: int | None


class _History:
    """One look-up: the rows of one query, sorted into facts."""

    def __init__(self, sheet: Sheet, exclude: Submission | None) -> None:
        self.sheet = sheet
        self.exclude = exclude
        self.mine = contact_keys(sheet.contact.phone, sheet.contact.email)
        self.boat = boat_key(sheet.boat_name)
        self.rows = self._rows()

    def facts(self) -> History:
        settled = _settled(self.exclude) if self.exclude else frozenset()
        if not self.rows:  # a newcomer, as most are
            return History(settled=settled, today=timezone.localdate())
        boats = self._of("boat")
        sides = _newest_by_station(boats)
        last = sides.get(self.sheet.station)
        sister, side = self._sister()
        return History(
            same_open=tuple(row.name for row in self._of("open")),
            settled=settled,
            last_length=Length(last.length_nm) if last else None,
            fitted_gap=_length(last.gap_nm) if last else None,
            last_diameter=Length(last.diameter_nm) if last else None,
            last_alloy=last.name if last else "",
            last_month=last.month if last else "",
            last_by_side=tuple((name, _as_meant(row)) for name, row in sides.items()),
            misfit=_misfit((*boats, *self._by_this_hand())),
            family_lengths=self._family(),
            sister=sister,
            sister_station=side,
            today=timezone.localdate(),
            fitted_orders=sum(map(_fits, self._of("hand"))),
        )

    def _of(self, kind: str) -> list[_Row]:
        """Rows of this contact, in order; of one submission only what was known last."""
        found: dict[int, _Row] = {}
        for row in self.rows:
            if row.kind == kind and self.mine & contact_keys(row.phone, row.email):
                found.setdefault(row.submission, row)
        return list(found.values())

    def _by_this_hand(self) -> list[_Row]:
        since = f"{timezone.localdate() - timedelta(days=MISFIT_DAYS):%Y-%m}"
        return [row for row in self._of("hand") if row.month >= since]

    def _family(self) -> tuple[Length, ...]:
        """One length for each sister that fits; her newest shaft."""
        newest: dict[tuple[str, str], _Row] = {}
        for row in self.rows:
            if row.kind == "kin" and row.boat != self.boat:
                newest.setdefault((row.boat, row.station), row)
        return tuple(_as_meant(row) for row in newest.values() if not row.misfit)

    def _sister(self) -> tuple[Sheet | None, str]:
        """The other side's current sheet and its side. What cannot be read any more is not known.

        Which side came first does not matter; the newest request of another side counts.
        """
        for row in self._of("pair"):
            current = SheetVersion.objects.filter(submission=row.submission, is_current=True)
            try:
                return read_sheet(current.values_list("body", flat=True)[0]), row.station
            except (SheetErrors, IndexError):
                return None, ""
        return None, ""

    def _rows(self) -> list[_Row]:
        contact, station = self.sheet.contact, self.sheet.station
        phone, email = phone_key(contact.phone), email_key(contact.email)
        family = family_key(self.sheet)
        own = self.exclude.pk if self.exclude else 0
        since = _moment(timezone.now() - timedelta(days=DUPLICATE_DAYS))
        asked: dict[str, Sequence[Any]] = {}
        if self.boat and self.mine:
            asked["open"] = (self.boat, station, since, own)
            asked["boat"] = (self.boat, own)
            if station in _SIDES:
                asked["pair"] = (self.boat, station, self.sheet.job, own)
        if phone:
            asked["phone"] = (phone, own)
        if email:
            asked["email"] = (email, own)
        if family:
            asked["kin"] = (family, own)
        if not asked:
            return []
        with connection.cursor() as cursor:
            cursor.execute(
                _statement(tuple(asked)), [each for told in asked.values() for each in told]
            )
            return [_Row(*row) for row in cursor.fetchall()]


def _newest_by_station(rows: Iterable[_Row]) -> dict[str, _Row]:
    newest: dict[str, _Row] = {}
    for row in rows:
        newest.setdefault(row.station, row)
    return newest


def _fits(row: _Row) -> bool:
    """True where the gap it was fitted with is known, and is a fair one."""
    return row.gap_nm is not None and not row.misfit


def _misfit(rows: Iterable[_Row]) -> Misfit | None:
    """The first that did not fit: of this boat, then of this hand."""
    return next((Misfit(row.station, _length(row.off_nm)) for row in rows if row.misfit), None)


def _as_meant(row: _Row) -> Length:
    """How long the shaft should have been, by the gap it was fitted with where that is known."""
    return Length(row.length_nm - (row.off_nm or 0))


def _length(nm: int | None) -> Length | None:
    return None if nm is None else Length(nm)


def _settled(submission: Submission) -> frozenset[tuple[str, str]]:
    confirmed = submission.calls.filter(outcome="confirmed")
    return frozenset(confirmed.values_list("check_id", "fingerprint"))


def _moment(when: datetime) -> Any:
    """A moment as this database compares it."""
    return connection.ops.adapt_datetimefield_value(when)


_REQUEST = f"""
    id, reference, station, contact_phone, contact_email, boat_key, '' AS month, FALSE AS misfit,
    0 AS length_nm, 0 AS diameter_nm, CAST(NULL AS bigint) AS gap_nm, CAST(NULL AS bigint) AS off_nm
    FROM {Submission._meta.db_table}
"""
_SHAFT = f"""
    submission_id, alloy, station, phone_key, email_key, boat_key, month, misfit,
    length_nm, diameter_nm, gap_nm, off_nm FROM {ShaftFitted._meta.db_table}
"""
_NEWEST = "AND submission_id <> %s ORDER BY at DESC, id DESC LIMIT"


def _words(statuses: Iterable[Status]) -> str:
    return ", ".join(f"'{status.value}'" for status in sorted(statuses))


_BRANCHES = {
    "open": f"""'open' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station = %s AND received_at >= %s
          AND status IN ({_words(OPEN)}) AND id <> %s ORDER BY received_at LIMIT {_MOST}""",
    "pair": f"""'pair' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station IN {_SIDES} AND station <> %s AND job = %s AND id <> %s
          AND status NOT IN ({_words((Status.WITHDRAWN, Status.DECLINED))})
        ORDER BY received_at DESC, id DESC LIMIT {_MOST}""",
    "boat": f"'boat' AS kind, {_SHAFT} WHERE boat_key = %s {_NEWEST} {_MOST}",
    "phone": f"'hand' AS kind, {_SHAFT} WHERE phone_key = %s {_NEWEST} {_MOST}",
    "email": f"'hand' AS kind, {_SHAFT} WHERE email_key = %s {_NEWEST} {_MOST}",
    "kin": f"'kin' AS kind, {_SHAFT} WHERE family_key = %s {_NEWEST} {_MOST_SISTERS}",
}


@lru_cache(maxsize=64)
def _statement(kinds: tuple[str, ...]) -> str:
    """One statement for all that is asked. Kept: building it anew costs more than its answer."""
    # Made of our own constants alone.
    parts = (f"SELECT * FROM (SELECT {_BRANCHES[kind]}) AS {kind}_rows" for kind in kinds)  # noqa: S608
    return " UNION ALL ".join(parts)
