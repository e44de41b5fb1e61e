"""One request's records become its facts. Reads nothing and writes nothing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Any

from django.utils import timezone

from intake.domain.known_by import family_of
from intake.domain.lifecycle import Status
from intake.models import CallRecord, FindingRecord, SheetVersion
from intake.rows import month_of
from quotes.cases.models import Case
from quotes.domain import case_words
from quotes.domain.cost_model import CostModel
from quotes.domain.happened import answers, mistakes
from quotes.domain.happened.lacking import lacking
from quotes.domain.happened.waits import CUSTOMER, DESK, MACHINE, Moment, waits
from quotes.insight.gathering.selectors import Records
from quotes.insight.models import BarFact, FlagFact, MismatchFact, RequestFact
from quotes.models import Quote

_LONGEST_REASON = 120
_SPOKE = ("corrected", "confirmed", "cannot_measure", "overridden")  # a question was put to them
_REFUTED = ("confirmed", "cannot_measure", "overridden")


@dataclass(frozen=True)
class Facts:
    """What is stored of one request."""

    request: RequestFact
    flags: list[FlagFact] = field(default_factory=list)
    mismatches: list[MismatchFact] = field(default_factory=list)
    bars: list[BarFact] = field(default_factory=list)


def facts_of(records: Records, costs: CostModel) -> Facts:
    """Everything that is counted of one request; repeats are found later, among all."""
    request = _request(records)
    flags = [_flag(records, request, row) for row in records.findings]
    mismatches = [
        *_on_calls(records, request, costs),
        *_on_audit(records, request, costs),
        *_on_cases(records, request),
    ]
    at_entry = any(_is_own_correction(records, row) for row in records.findings)
    places = [mistakes.CAUGHT[one.found] for one in mismatches] + ["entry"] * at_entry
    request.caught = mistakes.first_caught(places)
    return Facts(request, flags, mismatches, [_bar(request, hold) for hold in records.holds])


def _under(request: RequestFact, month: str = "") -> dict[str, Any]:
    """The circumstances of a request, for another fact of it."""
    names = ("channel", "method", "layout", "role", "parts")
    return {name: getattr(request, name) for name in names} | {"month": month or request.month}


# --- The request ----------------------------------------------------------------------


def _request(records: Records) -> RequestFact:
    submission, first = records.submission, records.first_sheet
    now = records.sheets[-1]
    hull = (first.body.get("answers") or {}).get("hull_built_by_year")
    hull = hull if isinstance(hull, Mapping) else {}
    machine, desk, customer = _waits(records)
    return RequestFact(
        submission_id=submission.pk,
        month=month_of(submission.received_at),
        channel=submission.channel,
        method=answers.method_of(first.readings)[:20],
        layout=answers.layout_of(first.body)[:20],
        role=submission.contact_role,
        parts=answers.parts_letters(first.body),
        received_at=submission.received_at,
        customer=submission.customer_id,
        family=family_of(hull.get("builder"), hull.get("length")),
        rules_version=first.rules_version,
        first_verdict=first.verdict,
        flags=len(records.findings),
        calls=len(records.calls),
        answered=answers.answered(first.body),
        machine_seconds=machine,
        desk_seconds=desk,
        customer_seconds=customer,
        over=sorted({_reason(call) for call in records.calls if call.outcome == "overridden"}),
        lacking=lacking(now.body, now.readings, now.outcome),
        **_audited(records),
        **_sent(records),
    )


def _audited(records: Records) -> dict[str, Any]:
    """Whether it was drawn for an audit call; None as its answer while there is none."""
    told = {"right": False, "wrong": True}
    return {
        "audited": bool(records.audits),
        "audit_wrong": next((told.get(one.outcome) for one in records.audits), None),
    }


def _waits(records: Records) -> tuple[int, int, int] | tuple[None, None, None]:
    issued = [quote.issued_at for quote in records.quotes if quote.issued_at]
    if not issued:
        return None, None, None
    moments = [Moment(event.at, _WAITS_FOR.get(event.new_status, DESK)) for event in records.events]
    tried = (call.at for call in records.calls if call.outcome == "not_reached")
    moments += [Moment(at, CUSTOMER) for at in tried]
    return waits(records.submission.received_at, min(issued), moments)


_WAITS_FOR = {Status.READY.value: MACHINE, Status.NEEDS_CALL.value: DESK}


def _sent(records: Records) -> dict[str, Any]:
    """What became of the order that left."""
    quote = records.shipped
    if quote is None:
        return {}
    day = quote.shipment.day
    return {
        "shipped_on": day,
        "shipped_month": f"{day:%Y-%m}",
        "stated_fit": _stated(records, quote),
        "z": _z(records, quote),
        "fits": _fits(records, quote),
    }


def _stated(records: Records, quote: Quote) -> float | None:
    """What was said as it left: by the numbers as made, or else by the sheet it was quoted on."""
    made = [one.fit for one in records.inspections if one.quote_id == quote.pk]
    if made and made[-1] is not None:
        return made[-1]
    sheets = (sheet for sheet in records.sheets if sheet.pk == quote.sheet_id)
    return next((sheet.fit_probability for sheet in sheets), None)


def _z(records: Records, quote: Quote) -> float | None:
    for told in reversed(records.outcomes):
        if told.quote_id == quote.pk and told.gap_nm is not None and told.u_nm:
            return (told.gap_nm - (told.predicted_nm or 0)) / told.u_nm
    return None


def _fits(records: Records, quote: Quote) -> bool | None:
    """True without rework, False with it, None where nobody has told."""
    if any(_is_misfit(case) for case in records.cases if case.quote_id == quote.pk):
        return False
    told = [one.fitted for one in records.outcomes if one.quote_id == quote.pk]
    return told[-1] == "yes" if told else None


def _is_misfit(case: Case) -> bool:
    """A case that turned out to be none, or fits though not as predicted, is no misfit."""
    if case.opened_as == case_words.NO_MISFIT and not case.kind:
        return False
    return case.found in ("", "at_fitting") and case.state != case_words.WITHOUT


# --- Flags ----------------------------------------------------------------------------


def _flag(records: Records, request: RequestFact, row: FindingRecord) -> FlagFact:
    calls = [call for call in records.calls if call.check_id == row.check_id]
    over = [_reason(call) for call in calls if call.outcome == "overridden"]
    return FlagFact(
        fact=request,
        check_id=row.check_id,
        answer=row.answer,
        asked=any(call.outcome in _SPOKE for call in calls),
        was_right=_was_right(records, row, calls),
        over=over[-1] if over else "",
        **_under(request),
    )


def _was_right(records: Records, row: FindingRecord, calls: list[CallRecord]) -> bool | None:
    """By the first sheet after it that it holds no more; else by what was said on calls."""
    settled = _settled(records, row)
    if settled is not None:
        return _moved_by(records, row, settled)
    return False if any(call.outcome in _REFUTED for call in calls) else None


def _is_own_correction(records: Records, row: FindingRecord) -> bool:
    """Whether the customer alone put right what it was about, without a call."""
    settled = _settled(records, row)
    if settled is None or settled.made_by_id is not None:
        return False
    return _moved_by(records, row, settled)


def _settled(records: Records, row: FindingRecord) -> SheetVersion | None:
    """The first sheet after it that this check holds no more."""
    raised = _raised(records, row)
    later = (sheet for sheet in records.sheets if sheet.number > raised.number)
    return next((one for one in later if row.check_id not in answers.holding(one.outcome)), None)


def _raised(records: Records, row: FindingRecord) -> SheetVersion:
    return next(sheet for sheet in records.sheets if sheet.pk == row.sheet_id)


def _moved_by(records: Records, row: FindingRecord, settled: SheetVersion) -> bool:
    raised = _raised(records, row)
    slugs = answers.holding(raised.outcome).get(row.check_id, (row.answer,))
    return _differs(slugs, raised, settled)


def _differs(slugs: tuple[str, ...], before: SheetVersion, after: SheetVersion) -> bool:
    sides = [{"body": one.body, "readings": one.readings} for one in (before, after)]
    codes = [answers.part_codes(one.outcome) for one in (before, after)]
    lost = bool(codes[0]) and codes[0] != codes[1]
    return lost or answers.moved(slugs, *sides)


def _reason(call: CallRecord) -> str:
    """Why it was released over, as one line; free words of the desk, shortened."""
    return " ".join(call.note.split())[:_LONGEST_REASON] or "no reason written down"


# --- Mistakes -------------------------------------------------------------------------


def _on_calls(records: Records, request: RequestFact, costs: CostModel) -> list[MismatchFact]:
    """Numbers that were corrected on a call, each once for its answer."""
    corrected = {call.answer: call for call in records.calls if call.outcome == "corrected"}
    shares = _split(costs.call * len(records.calls), len(corrected))
    return [
        MismatchFact(
            fact=request,
            on=timezone.localdate(call.at),
            cause=call.cause or mistakes.UNKNOWN,
            found="before_quote",
            born=mistakes.born_at(call.cause),
            answer=call.answer,
            cost=share,
            fired=bool(call.check_id),
            **_under(request, month_of(call.at)),
        )
        for call, share in zip(corrected.values(), shares, strict=True)
    ]


def _on_audit(records: Records, request: RequestFact, costs: CostModel) -> list[MismatchFact]:
    """A mistake nothing had held, found by a call at random."""
    return [
        MismatchFact(
            fact=request,
            on=timezone.localdate(call.at),
            cause=call.cause or mistakes.UNKNOWN,
            found="before_quote",
            born=mistakes.born_at(call.cause),
            answer=call.answer,
            cost=costs.call,
            **_under(request, month_of(call.at)),
        )
        for call in records.audits
        if call.outcome == "wrong" and call.at
    ]


def _split(amount: Decimal, parts: int) -> list[Decimal]:
    """Money in equal whole cents; what is left over goes to the first."""
    if not parts:
        return []
    cents = int(amount * 100)
    each, rest = divmod(cents, parts)
    return [Decimal(each + (at < rest)) / 100 for at in range(parts)]


def _on_cases(records: Records, request: RequestFact) -> list[MismatchFact]:
    return [
        _on_case(request, case, records.booked.get(case.pk, Decimal(0)))
        for case in records.cases
        if case.state != case_words.WITHOUT
        and not (case.opened_as == case_words.NO_MISFIT and not case.kind)
    ]


def _on_case(request: RequestFact, case: Case, booked: Decimal) -> MismatchFact:
    cause = case.cause or mistakes.UNKNOWN
    return MismatchFact(
        fact=request,
        on=timezone.localdate(case.opened_at),
        cause=cause,
        found=case.found or "at_fitting",
        born=case.born or mistakes.born_at(cause),
        answer=mistakes.answer_of(cause),
        cost=booked,
        fired=bool(case.fired),
        overridden=bool(case.overridden),
        what=_part_of(case),
        case=case,
        **_under(request, month_of(case.opened_at)),
    )


def _part_of(case: Case) -> str:
    """The code of the part it is about, as the sheet of its quote chose it; "" for a shaft."""
    outcome: Any = case.quote.sheet.outcome
    codes = (p["code"] for p in outcome.get("parts") or () if p["kind"] == case.part)
    return next(codes, "")[:40]


# --- Bars -----------------------------------------------------------------------------


def _bar(request: RequestFact, hold: Any) -> BarFact:
    kept = hold.remnant.length_nm if hold.remnant else 0
    return BarFact(
        hold=hold,
        fact=request,
        month=month_of(hold.at),
        part_code=hold.part_code,
        size=f"{hold.diameter.both()} {hold.alloy}".strip()[:60],
        used_nm=hold.needed_nm or 0,
        kept_nm=kept,
        dropped_nm=max(hold.piece.length_nm - (hold.needed_nm or 0) - kept, 0),
    )
