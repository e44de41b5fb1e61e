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


def rows_beside(asked: Mapping[str, Sequence[Any]]) -> list[Row]:
    """What is found of each kind that is asked for, with what each is asked by."""
    if not asked:
        return []
    with connection.cursor() as cursor:
        cursor.execute(_statement(tuple(asked)), [each for told in asked.values() for each in told])
        return [Row(*row) for row in cursor.fetchall()]


_CUSTOMER, _BOAT = Customer._meta.db_table, Boat._meta.db_table
_REQUEST = f"""
    id, reference, station, contact_phone, contact_email, boat_key, '' AS month, FALSE AS misfit,
    0 AS length_nm, 0 AS diameter_nm, CAST(NULL AS bigint) AS gap_nm,
    CAST(NULL AS bigint) AS off_nm, id AS row_id
    FROM {Submission._meta.db_table}
"""
_OF_SHAFT = """month, misfit, length_nm, diameter_nm, gap_nm, off_nm, id AS row_id"""
_SHAFT = f"""
    submission_id, alloy, station, phone_key, email_key, boat_key, {_OF_SHAFT}
    FROM {ShaftFitted._meta.db_table}
"""
_NEWEST = "AND submission_id <> %s ORDER BY at DESC, id DESC LIMIT"
# A customer as the record that counts: id, revision, number and address it is known by; which of
# them are still empty; the record of this boat and side, where there is one.
_WHO = f"""
    root.id, '' AS name, '' AS station, root.phone_key, root.email_key, '' AS boat, '' AS month,
    root.name = '' AS misfit, root.revision AS length_nm, 0 AS diameter_nm,
    COALESCE(boat.merged_into_id, boat.id) AS gap_nm, CAST(NULL AS bigint) AS off_nm, 0 AS row_id
    FROM {_CUSTOMER} AS told JOIN {_CUSTOMER} AS root
      ON root.id = COALESCE(told.merged_into_id, told.id)
    LEFT JOIN {_BOAT} AS boat
      ON boat.customer_id = root.id AND boat.boat_key = %s AND boat.station = %s
"""
# An empty key is nobody's.
_THESE = f"""
    (SELECT COALESCE(merged_into_id, id) FROM {_CUSTOMER}
     WHERE (phone_key = %s AND phone_key <> '') OR (email_key = %s AND email_key <> ''))
"""  # noqa: S608


def _words(statuses: Iterable[Status]) -> str:
    return ", ".join(f"'{status.value}'" for status in sorted(statuses))


# Made of our own constants alone.
_BRANCHES = {
    "who": f"""'who' AS kind, {_WHO} WHERE told.phone_key = %s AND told.phone_key <> ''""",
    "address": f"""'address' AS kind, {_WHO}
        WHERE told.email_key = %s AND told.email_key <> '' ORDER BY told.id LIMIT 1""",
    "open": f"""'open' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station = %s AND received_at >= %s
          AND status IN ({_words(OPEN)}) AND id <> %s ORDER BY received_at LIMIT {_MOST}""",
    "pair": f"""'pair' AS kind, {_REQUEST}
        WHERE boat_key = %s AND station IN {SIDES} AND station <> %s AND job = %s AND id <> %s
          AND status NOT IN ({_words((Status.WITHDRAWN, Status.DECLINED))})
        ORDER BY received_at DESC, id DESC LIMIT {_MOST}""",
    "batch": f"""'batch' AS kind, {_REQUEST}
        WHERE customer_id IN {_THESE} AND job = %s AND received_at >= %s
          AND boat_key <> '' AND boat_key <> %s AND status IN ({_words(OPEN)}) AND id <> %s
        ORDER BY id DESC LIMIT {MOST_OF_A_BATCH}""",
    "boat": f"'boat' AS kind, {_SHAFT} WHERE boat_key = %s {_NEWEST} {_MOST}",
    # What counts for this boat's records, under whatever name it was typed then.
    "record": f"""'record' AS kind, submission_id, alloy, known.station, phone_key, email_key,
        fitted.boat_key, {_OF_SHAFT.replace("id AS", "fitted.id AS")}
        FROM {ShaftFitted._meta.db_table} AS fitted
        JOIN (SELECT COALESCE(merged_into_id, id) AS root, station FROM {_BOAT}
              WHERE boat_key = %s AND customer_id IN {_THESE}) AS known
          ON fitted.boat_id = known.root
        WHERE submission_id <> %s ORDER BY at DESC, fitted.id DESC LIMIT {_MOST}""",  # noqa: S608
    "phone": f"'hand' AS kind, {_SHAFT} WHERE phone_key = %s {_NEWEST} {_MOST}",
    "email": f"'hand' AS kind, {_SHAFT} WHERE email_key = %s {_NEWEST} {_MOST}",
    "kin": f"'kin' AS kind, {_SHAFT} WHERE family_key = %s {_NEWEST} {_MOST_SISTERS}",
}


@lru_cache(maxsize=64)
def _statement(kinds: tuple[str, ...]) -> str:
    """One statement for all that is asked. Kept: building it anew costs more than its answer."""
    parts = (f"SELECT * FROM (SELECT {_BRANCHES[kind]}) AS {kind}_rows" for kind in kinds)  # noqa: S608
    return " UNION ALL ".join(parts)
