"""What became of the accepted quotes of a crowd: made, sent, invoiced, told of; metal and prices.

Of the newest hundred requests some shafts still wait and some customers are silent; whatever is
older has left and was heard of. So the work at hand is the same in every crowd, only what is done
grows. Every statement here copies rows in the database, however many.
"""

from __future__ import annotations

from datetime import timedelta

from django.utils import timezone

from catalog.models import Part
from catalog.pieces.models import BAR, Piece
from catalog.prices.models import PartPrice
from quotes.cases.models import Case
from quotes.inspecting.models import Inspection
from quotes.invoices.models import Invoice, InvoicedQuote
from quotes.outcomes.models import Outcome
from quotes.payments.models import Payment
from quotes.receiving.models import OwnPart
from quotes.sending.models import Shipment
from quotes.shop.models import ShopOrder
from quotes.stock.models import HELD, SHAFT, TAKEN, TO_ORDER, Hold
from tests.bench.filling import fill

_AGE = "((SELECT max(id) FROM intake_submission) - s.id)"  # how many came after it
_NEW = f"{_AGE} < 100"
_WAITS = f"({_NEW} AND {_AGE} %% 3 = 0)"  # for its bar
_SENT = f"NOT ({_NEW} AND {_AGE} %% 3 < 2)"
_SILENT = f"({_NEW} AND {_AGE} %% 3 = 2)"
HERE = f"NOT {_SENT}"
HEARD = f"{_SENT} AND NOT {_SILENT}"
_ACCEPTED = (
    "quotes_quote AS q JOIN intake_submission AS s ON s.id = q.submission_id"
    " WHERE q.status = 'accepted'"
)
_BY, _ON = "(SELECT min(id) FROM auth_user)", "DATE(s.received_at)"
_INCH = 25_400_000
_LONG_AGO = timedelta(days=40)


def work() -> None:
    """Everything, a statement or two for each table."""
    _made()
    _sent()
    _put_right()
    _paid()
    _rack()
    _held()


def _made() -> None:
    begun, stage = (
        f"{_ACCEPTED} AND NOT {_WAITS}",
        f"CASE WHEN {_SENT} THEN 'shipped' ELSE 'sawn' END",
    )
    fill(ShopOrder, begun, quote_id="q.id", stage=stage, since="s.received_at")
    fill(
        Inspection,
        begun,
        quote_id="q.id",
        number="1",
        length_nm=f"{40 * _INCH}",
        u_nm="100000",
        verdict=f"CASE WHEN {_AGE} %% 5 = 1 THEN 'fail' ELSE 'pass' END",
        by_id=_BY,
        at="s.received_at",
    )


def _sent() -> None:
    day = timezone.localdate() - _LONG_AGO
    fill(
        Shipment,
        f"{_ACCEPTED} AND {_SENT}",
        quote_id="q.id",
        day=f"CASE WHEN {_SILENT} THEN DATE('{day}') ELSE {_ON} END",
        heard=HEARD,
        weight_lb="12.5",
        carrier="'Bench'",
        by_id=_BY,
        at="s.received_at",
    )
    heard = f"{_ACCEPTED} AND {HEARD}"
    fill(Outcome, heard, quote_id="q.id", after_days="7", fitted="'yes'", at="s.received_at")


def _put_right() -> None:
    """Three closed cases of each of some orders; of the newest that are begun one is open too."""
    case = {"quote_id": "q.id", "opened_as": "'shift'", "opened_at": "s.received_at"}
    three = "(SELECT 1 AS nth UNION ALL SELECT 2 UNION ALL SELECT 3) AS n"
    some = f"{three}, {_ACCEPTED} AND NOT {_WAITS} AND ({_NEW} OR {_AGE} %% 3 = 0)"
    done = {"state": "'done'", "cause": "'misread'", "closed_at": "s.received_at"}
    fill(Case, some, number="'K-' || s.reference || n.nth", **done, **case)
    begun = f"{_ACCEPTED} AND {_NEW} AND NOT {_WAITS}"
    fill(Case, begun, number="'K-' || s.reference || 'a'", **case)
    fill(
        OwnPart,
        f"{_ACCEPTED} AND ({_WAITS} OR NOT {_NEW})",
        quote_id="q.id",
        what="'coupling'",
        awaited_since=_ON,
        received_on=f"CASE WHEN {_NEW} THEN NULL ELSE {_ON} END",
    )


def _paid() -> None:
    fill(
        Invoice,
        f"{_ACCEPTED} ORDER BY q.id",
        number="'I-' || s.reference",
        kind="'invoice'",
        issued_on=_ON,
        net="q.total - q.tax",
        tax="q.tax",
        total="q.total",
        to_pay="q.total",
        nonce="'i' || q.id",
        by_id=_BY,
        at="s.received_at",
    )
    of = "quotes_invoice AS i JOIN quotes_quote AS q ON i.nonce = 'i' || q.id"
    fill(InvoicedQuote, of, invoice_id="i.id", quote_id="q.id")
    fill(
        Payment,
        f"{_ACCEPTED} AND NOT {_WAITS}",
        quote_id="q.id",
        kind="'payment'",
        amount="q.total",
        day=_ON,
        how="'bank'",
        nonce="'p' || q.id",
        by_id=_BY,
        at="s.received_at",
    )


def _bar() -> Part:
    return Part._default_manager.filter(kind=BAR).order_by("pk")[0]


def _rack() -> None:
    """Fifty bars stand in it; one is gone for every request; prices of every week."""
    bar, long = _bar(), f"{144 * _INCH}"
    like = {"part_id": f"{bar.pk}", "kind": "'bar'", "length_nm": long, "came_at": "s.received_at"}
    fill(Piece, f"intake_submission AS s WHERE {_AGE} < 50", free_nm=long, **like)
    gone = {"free_nm": "0", "gone_at": "s.received_at", "gone_why": "'sawn'"}
    fill(Piece, "intake_submission AS s", **gone, **like)
    fill(
        PartPrice,
        "intake_submission AS s",
        code=f"'{bar.code}'",
        number="1000 + s.id",
        price=f"{bar.price}",
        from_day=_ON,
        made_at="s.received_at",
    )


def _held() -> None:
    bar = _bar()
    state = f"CASE WHEN {_SENT} THEN '{TAKEN}' WHEN {_WAITS} THEN '{TO_ORDER}' ELSE '{HELD}' END"
    fill(
        Hold,
        _ACCEPTED,
        quote_id="q.id",
        line=f"'{SHAFT}'",
        what="'bar'",
        part_code=f"'{bar.code}'",
        system=f"'{bar.system}'",
        diameter_nm=f"{bar.diameter_nm}",
        alloy=f"'{bar.alloy}'",
        needed_nm=f"{45 * _INCH}",
        state=state,
        at="s.received_at",
    )
