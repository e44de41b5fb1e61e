"""What is known beside a sheet: asked on every request, so it is one query for a newcomer.

The other side of a pair costs one query more, what a person has settled on a re-check another.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db import connection
from django.utils import timezone

from catalog.domain.lengths import Length, mm
from intake.domain.batch import BATCH_LENGTHS, Alike
from intake.domain.history import History, Misfit
from intake.domain.kept_history import kept_history
from intake.domain.known_by import boat_key, contact_keys, email_key, family_key, phone_key
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.models import SheetVersion, Submission
from intake.records.beside import SIDES, Row, Who, rows_beside, who_of

# A second sheet for the same boat within this time is the same order, sent again.
DUPLICATE_DAYS = 45
# Whoever measured a shaft that did not fit is asked for two routes for so long.
MISFIT_DAYS = 365
# A batch without an order number is looked for no further back; the limit itself may be less.
_BATCH_DAYS = 90


def history_facts(sheet: Sheet, exclude: Submission | None = None) -> History:
    """What the desk knows beside the sheet, leaving out the submission that is re-checked.

    Other open requests for this boat and contact; the other side of a pair (the same contact,
    boat and job); the last shafts supplied, how they fitted, and those of boats of the same build;
    on a re-check, what a person has asked and had confirmed; the day.
    """
    return _History(sheet, exclude).facts()


def beside(sheet: Sheet, exclude: Submission | None = None) -> Beside:
    """The same with whose request it is, in the same one query."""
    history = _History(sheet, exclude)
    return Beside(history.facts(), history.known(), history.sister_sheet)


def who_asks(sheet: Sheet) -> Known:
    """Whose request it is at this moment, and nothing else."""
    return _History(sheet, None, only=("who_phone", "who_email")).known()


@dataclass(frozen=True, slots=True)
class Known:
    """Which customer and boat a sheet belongs to, by the records there are; None: there is none.

    ``revision`` of the customer as it was looked at; ``learns`` what its record does not tell yet
    and the sheet does.
    """

    customer: int | None = None
    revision: int = 0
    boat: int | None = None
    learns: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Beside:
    """All that is known beside a sheet: facts for the checks, and whose it is.

    ``sister``: the key of the other side's sheet, where the facts hold one.
    """

    facts: History
    known: Known
    sister: int | None = None

    @property
    def kept(self) -> dict[str, Any]:
        """The facts as they are kept with the sheet, to be judged by again."""
        return kept_history(self.facts, self.sister)


def boat_of(submission: Submission) -> int | None:
    """The record of a request's boat at this moment, whatever was read along earlier."""
    rows = Submission.objects.filter(pk=submission.pk).order_by()
    return rows.values_list("boat", flat=True).first()


class _History:
    """One look-up: the rows of one query, sorted into facts."""

    def __init__(
        self, sheet: Sheet, exclude: Submission | None, only: tuple[str, ...] = ()
    ) -> None:
        self.sheet = sheet
        self.only = only
        self.exclude = exclude
        self.mine = contact_keys(sheet.contact.phone, sheet.contact.email)
        self.boat = boat_key(sheet.boat_name)
        self.sister_sheet: int | None = None
        self.rows = self._rows()

    def facts(self) -> History:
        settled = _settled(self.exclude) if self.exclude else frozenset()
        if not self.rows:  # a newcomer, as most are
            return History(settled=settled, today=timezone.localdate())
        boats = self._of_the_boat()
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
            batch=self._batch(),
        )

    def known(self) -> Known:
        """By the number first, then by the address."""
        for row in self.rows:
            if row.kind == "who":
                who = who_of(row)
                return Known(who.customer, who.revision, who.boat, self._learns(who))
        return Known()

    def _learns(self, who: Who) -> frozenset[str]:
        contact = self.sheet.contact
        empty = {
            "name": bool(who.is_nameless and contact.name),
            "phone": bool(not who.phone and phone_key(contact.phone)),
            "email": bool(not who.email and email_key(contact.email)),
        }
        return frozenset(name for name, is_empty in empty.items() if is_empty)

    def _of(self, kind: str) -> list[Row]:
        """Rows of this contact, in order; of one submission only what was known last."""
        found: dict[int, Row] = {}
        for row in self.rows:
            if row.kind == kind and self.mine & contact_keys(row.phone, row.email):
                found.setdefault(row.submission, row)
        return list(found.values())

    def _of_the_boat(self) -> list[Row]:
        """Shafts of this boat, newest first: those of its records, and those of its name.

        Records that were merged may tell one shaft of two sides; the side that is asked for counts.
        """
        found = [row for row in self.rows if row.kind == "record"] + self._of("boat")
        mine = self.sheet.station
        by_time = sorted(found, key=lambda row: (-row.row, row.station != mine))
        newest: dict[int, Row] = {}
        for row in by_time:
            newest.setdefault(row.submission, row)
        return list(newest.values())

    def _batch(self) -> tuple[Alike, ...]:
        """Other boats that are asked for at the same time, by what was measured on each."""
        mine = _measured(self.sheet)
        names = {row.submission: row for row in self.rows if row.kind == "batch"}
        if not mine or not names:
            return ()
        sheets = SheetVersion.objects.filter(submission__in=names, is_current=True)
        told = sheets.order_by("-submission").values_list(
            "submission", "readings", "submission__received_at"
        )
        today = timezone.localdate()
        return tuple(
            Alike(
                names[pk].name,
                _same(mine, readings),
                0 if self.sheet.job else (today - timezone.localdate(at)).days,
            )
            for pk, readings, at in told
        )

    def _by_this_hand(self) -> list[Row]:
        since = f"{timezone.localdate() - timedelta(days=MISFIT_DAYS):%Y-%m}"
        return [row for row in self._of("hand") if row.month >= since]

    def _family(self) -> tuple[Length, ...]:
        """One length for each sister that fits; her newest shaft."""
        newest: dict[tuple[str, str], Row] = {}
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
                self.sister_sheet, body = current.values_list("pk", "body")[0]
                return read_sheet(body), row.station
            except (SheetErrors, IndexError):
                return None, ""
        return None, ""

    def _rows(self) -> list[Row]:
        contact, station = self.sheet.contact, self.sheet.station
        phone, email = phone_key(contact.phone), email_key(contact.email)
        family = family_key(self.sheet)
        own = self.exclude.pk if self.exclude else 0
        now = timezone.now()
        since = _moment(now - timedelta(days=DUPLICATE_DAYS))
        long_ago = _moment(now - timedelta(days=_BATCH_DAYS))
        asked: dict[str, Sequence[Any]] = {}
        for by, key in (("phone", phone), ("email", email)):
            if key:
                asked[f"who_{by}"] = (self.boat, station or "", key)
            if key and self.boat:
                asked[f"record_{by}"] = (key, self.boat, own)
                asked[f"batch_{by}"] = (key, self.sheet.job or "", long_ago, self.boat, own)
        if self.boat and self.mine:
            asked["open"] = (self.boat, station, since, own)
            asked["boat"] = (self.boat, own)
            if station in SIDES:
                asked["pair"] = (self.boat, station, self.sheet.job, own)
        if phone:
            asked["phone"] = (phone, own)
        if email:
            asked["email"] = (email, own)
        if family:
            asked["kin"] = (family, own)
        if self.only:
            asked = {kind: told for kind, told in asked.items() if kind in self.only}
        return rows_beside(asked)


def _newest_by_station(rows: Iterable[Row]) -> dict[str, Row]:
    newest: dict[str, Row] = {}
    for row in rows:
        newest.setdefault(row.station, row)
    return newest


def _measured(sheet: Sheet) -> dict[str, int]:
    """What was measured on this boat alone, in nanometres."""
    return {
        slug: sheet.readings[slug].length.nm for slug in BATCH_LENGTHS if slug in sheet.readings
    }


def _same(mine: Mapping[str, int], readings: Mapping[str, Any]) -> tuple[str, ...]:
    """The answers that are the same length to the nanometre."""
    return tuple(
        slug for slug, nm in mine.items() if slug in readings and mm(readings[slug]["mm"]).nm == nm
    )


def _fits(row: Row) -> bool:
    """True where the gap it was fitted with is known, and is a fair one."""
    return row.gap_nm is not None and not row.misfit


def _misfit(rows: Iterable[Row]) -> Misfit | None:
    """The first that did not fit: of this boat, then of this hand."""
    return next((Misfit(row.station, _length(row.off_nm)) for row in rows if row.misfit), None)


def _as_meant(row: Row) -> Length:
    """How long the shaft should have been, by the gap it was fitted with where that is known."""
    return Length(row.length_nm - (row.off_nm or 0))


def _length(nm: int | None) -> Length | None:
    return None if nm is None else Length(nm)


def _settled(submission: Submission) -> frozenset[tuple[str, str]]:
    settled = submission.calls.filter(outcome__in=("confirmed", "overridden"))
    return frozenset(settled.values_list("check_id", "fingerprint"))


def _moment(when: datetime) -> Any:
    """A moment as this database compares it."""
    return connection.ops.adapt_datetimefield_value(when)
