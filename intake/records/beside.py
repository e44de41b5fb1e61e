"""The one statement that asks all that is known beside a sheet, and its rows.

Which branches it has depends on what the sheet tells; none, where it tells nothing of anybody.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from typing import Any, NamedTuple

from django.db import connection

from intake.customers.models import Boat, Customer
from intake.domain.lifecycle import OPEN, Status
from intake.models import Submission
from intake.records.models import ShaftFitted

SIDES = ("port", "starboard", "centre")
_MOST = 20  # rows of one kind; a family may have more
_MOST_SISTERS = 60
MOST_OF_A_BATCH = 12


class Row(NamedTuple):
    """A request, a supplied shaft or a customer, whichever ``kind`` of fact it is."""

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
    row: int


class Who(NamedTuple):
    """A customer's record: what it knows already, and the record of the boat that is asked for."""

    customer: int
    revision: int
    boat: int | None
    phone: str
    email: str
    is_nameless: bool


def who_of(row: Row) -> Who:
    """A row of kind "who". One statement has one set of columns: it borrows those of a shaft."""
    return Who(row.submission, row.length_nm, row.gap_nm, row.phone, row.email, bool(row.misfit))


def rows_beside(asked: Mapping[str, Sequence[Any]]) -> list[Row]:
    """What is found of each kind that is asked for, with what each is asked by."""
    if not asked:
        return []
    with connection.cursor() as cursor:
        cursor.execute(_statement(tuple(asked)), [each for told in asked.values() for each in told])
        return [Row(*row) for row in cursor.fetchall()]


_CUSTOMER, _BOAT = Customer._meta.db_table, Boat._meta.db_table
_SUBMISSION, _FITTED = Submission._meta.db_table, ShaftFitted._meta.db_table
_REQUEST_OF = """
    id, reference, station, contact_phone, contact_email, boat_key, '' AS month, FALSE AS misfit,
    0 AS length_nm, 0 AS diameter_nm, CAST(NULL AS bigint) AS gap_nm,
    CAST(NULL AS bigint) AS off_nm, id AS row_id
"""
_REQUEST = f"{_REQUEST_OF} FROM {_SUBMISSION}"
_OF_SHAFT = """month, misfit, length_nm, diameter_nm, gap_nm, off_nm, id AS row_id"""
_SHAFT = f"""
    submission_id, alloy, station, phone_key, email_key, boat_key, {_OF_SHAFT}
    FROM {_FITTED}
"""
_NEWEST = "AND submission_id <> %s ORDER BY at DESC, id DESC LIMIT"
# The customer who has this number or this address, as the record that counts. (A cross join is
# read from left to right: from the one customer to what is theirs.)
_ROOT = "COALESCE(told.merged_into_id, told.id)"
_BY = {
    "phone": "told.phone_key = %s",
    "email": "told.email_key = %s",
}
# In the columns that `who_of` reads: id, revision, number and address it is known by; whether its
# name is still empty; the record of this boat and side, where there is one.
_WHO = f"""
    root.id, '' AS name, '' AS station, root.phone_key, root.email_key, '' AS boat, '' AS month,
    root.name = '' AS misfit, root.revision AS length_nm, 0 AS diameter_nm,
    COALESCE(boat.merged_into_id, boat.id) AS gap_nm, CAST(NULL AS bigint) AS off_nm, 0 AS row_id
    FROM {_CUSTOMER} AS told JOIN {_CUSTOMER} AS root ON root.id = {_ROOT}
    LEFT JOIN {_BOAT} AS boat
      ON boat.customer_id = root.id AND boat.boat_key = %s AND boat.station = %s
"""


def _words(statuses: Iterable[Status]) -> str:
    return ", ".join(f"'{status.value}'" for status in sorted(statuses))


def _theirs(by: str) -> dict[str, str]:
    """What is asked of one customer's records: by their number, or by their address."""
    return {
        f"who_{by}": f"'who' AS kind, {_WHO} WHERE {_BY[by]} ORDER BY told.id LIMIT 1",
        # What counts for this boat's records, under whatever name it was typed then.
        f"record_{by}": f"""'record' AS kind, submission_id, alloy, boat.station,
            fitted.phone_key, fitted.email_key, fitted.boat_key,
            {_OF_SHAFT.replace("id AS", "fitted.id AS")}
            FROM {_CUSTOMER} AS told
            CROSS JOIN {_BOAT} AS boat CROSS JOIN {_FITTED} AS fitted
            WHERE {_BY[by]} AND boat.customer_id = {_ROOT} AND boat.boat_key = %s
              AND fitted.boat_id = COALESCE(boat.merged_into_id, boat.id)
              AND submission_id <> %s""",
        # (The status is hidden from the planner: what is open is much, what is theirs is little.)
        f"batch_{by}": f"""'batch' AS kind, {_REQUEST_OF.replace(" id", " request.id")}
            FROM {_CUSTOMER} AS told CROSS JOIN {_SUBMISSION} AS request
            WHERE {_BY[by]} AND request.customer_id = {_ROOT} AND job = %s AND received_at >= %s
              AND boat_key <> '' AND boat_key <> %s
              AND status || '' IN ({_words(OPEN)}) AND request.id <> %s
            ORDER BY request.id DESC LIMIT {MOST_OF_A_BATCH}""",
    }


# Made of our own constants alone.
_BRANCHES = {
    **_theirs("phone"),
    **_theirs("email"),
    "open": f"""'open' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station = %s AND received_at >= %s
          AND status IN ({_words(OPEN)}) AND id <> %s ORDER BY received_at LIMIT {_MOST}""",
    "pair": f"""'pair' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station IN {SIDES} AND station <> %s AND job = %s AND id <> %s
          AND status NOT IN ({_words((Status.WITHDRAWN, Status.DECLINED))})
        ORDER BY received_at DESC, id DESC LIMIT {_MOST}""",
    "boat": f"'boat' AS kind, {_SHAFT} WHERE boat_key = %s {_NEWEST} {_MOST}",
    "phone": f"'hand' AS kind, {_SHAFT} WHERE phone_key = %s {_NEWEST} {_MOST}",
    "email": f"'hand' AS kind, {_SHAFT} WHERE email_key = %s {_NEWEST} {_MOST}",
    "kin": f"'kin' AS kind, {_SHAFT} WHERE family_key = %s {_NEWEST} {_MOST_SISTERS}",
}


@lru_cache(maxsize=64)
def _statement(kinds: tuple[str, ...]) -> str:
    """One statement for all that is asked. Kept: building it anew costs more than its answer.

    Without the blanks that are for readers, because Django looks at each sign of it each time.
    """
    parts = (f"SELECT * FROM (SELECT {_BRANCHES[kind]}) AS {kind}_rows" for kind in kinds)  # noqa: S608
    return " ".join(" UNION ALL ".join(parts).split())
