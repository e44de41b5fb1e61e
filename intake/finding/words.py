"""The line of one request: what it is sorted by, and all its words."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from catalog.domain.lengths import Length
from intake.desk_words import CHOICES
from intake.domain import search_words as words
from intake.domain.causes import CAUSES
from intake.domain.lifecycle import OPEN, Status
from intake.finding.models import NEVER, NO_BOAT, NO_DAY, RequestLine
from intake.models import CallRecord, SheetVersion, Submission
from intake.rows import month_of

RANKS = {"stop": 0, "ask": 1, "release": 2}
NOBODY = "0"
# Says how, not what: on every sheet, so nobody is found by it.
_HOW = frozenset({"method", "state", "station", "kind", "shape", "is", "in", "start_mark"})

More = Callable[[Sequence[int]], Mapping[int, Iterable[str]]]
_more: list[More] = []


def also_found_by(texts: More) -> More:
    """Register what a room to the right knows requests by: keys of submissions -> texts."""
    _more.append(texts)
    return texts


def more_texts(keys: Sequence[int]) -> Mapping[int, list[str]]:
    """What the other rooms know these requests by."""
    found: dict[int, list[str]] = {key: [] for key in keys}
    for texts in _more:
        for key, told in texts(keys).items():
            found[key] += told
    return found


def line_of(submission: Submission, more: Iterable[str] = ()) -> RequestLine:
    """The line of a request that came with its sheets, calls and events."""
    last = max(submission.events.all(), key=lambda event: (event.at, event.pk), default=None)
    line = RequestLine(
        submission_id=submission.pk,
        status=submission.status,
        rank=RANKS[submission.verdict],
        channel=submission.channel,
        month=month_of(submission.received_at),
        last_by_id=last.by_id if last else None,
        needed=_needed(submission),
        waiting=submission.received_at if submission.status == Status.NEEDS_CALL else NEVER,
        boat=submission.boat_key or NO_BOAT,
    )
    line.words = words.document((*filters_of(line), *_found_by(submission, more)))
    return line


def filters_of(line: RequestLine) -> Iterator[str]:
    """What lists filter by, as words: two filters at once are one look-up."""
    yield words.filtered("s", line.status)
    yield words.filtered("v", str(line.rank))
    yield words.filtered("c", line.channel)
    yield words.filtered("m", line.month)
    yield words.filtered("b", str(line.last_by_id or NOBODY))


def _needed(submission: Submission) -> Any:
    """A day counts while there is something to do: what is done is not late."""
    return (submission.status in OPEN and submission.needed_by) or NO_DAY


def _found_by(submission: Submission, more: Iterable[str]) -> Iterator[str]:
    yield from words.plain(submission.reference)
    if submission.erased_at:  # who it was is forgotten; that there was a request is not
        return
    yield from _of_people(submission)
    for text in (*_texts(submission), *more):
        yield from words.plain(text)
    for call in submission.calls.all():
        for text in _of_call(call):
            yield from words.plain(text)
    for sheet in sorted(submission.sheets.all(), key=lambda sheet: -sheet.number):
        yield from _of_sheet(sheet)


def _of_people(submission: Submission) -> Iterator[str]:
    customer, boat = submission.customer, submission.boat
    phones, people = [submission.contact_phone], [submission.contact_name, submission.boat_name]
    if customer:
        phones, people = [*phones, customer.phone], [*people, customer.name]
    if boat:
        people = [*people, boat.name]
    for phone in dict.fromkeys(phones):
        yield from words.phones(phone)
    for name in dict.fromkeys(people):
        yield from words.names(name)
        yield from words.plain(name)
    for code in (submission.reference, submission.job):
        yield from words.codes(code)


def _texts(submission: Submission) -> Iterator[str]:
    yield from (submission.contact_email, submission.contact_phone, submission.contact_role)
    yield from (submission.job, "" if submission.station == "single" else submission.station)
    if submission.customer:
        yield submission.customer.email


def _of_call(call: CallRecord) -> Iterator[str]:
    yield from (call.check_id, call.said_by, call.note)
    for code in filter(None, (call.cause, *call.contributing)):
        yield from (code, CAUSES.get(code, ""))


# --- A sheet ------------------------------------------------------------------------------


def _of_sheet(sheet: SheetVersion) -> Iterator[str]:
    for reading in sheet.readings.values():
        yield from _of_reading(reading)
    cut = (sheet.outcome.get("shaft") or {}).get("cut_length")
    if cut:
        yield from words.lengths(_length(cut["mm"]))
    for text in _typed(sheet.body.get("answers", {})):
        yield from words.typed(text)
        yield from words.plain(text)
    for part in sheet.outcome.get("parts") or ():
        yield from words.plain(part["code"])
    for finding in sheet.outcome.get("findings") or ():
        yield from words.plain(finding["check"])


def _of_reading(reading: Mapping[str, Any]) -> Iterator[str]:
    yield from words.lengths(_length(reading["mm"]))
    if again := reading.get("again"):
        yield from _of_reading(again)


def _length(mm_text: str) -> Length:
    """A stored length is a decimal of six places: millimetres, exact."""
    return Length(int(mm_text.replace(".", "")))


def _typed(answers: Mapping[str, Any]) -> Iterator[str]:
    """Every text of the answers but what was chosen from a list."""
    for slug, answer in answers.items():
        if not (isinstance(answer, str) and slug in CHOICES):
            yield from _strings(answer)


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, Mapping):
        for name, inner in value.items():
            if name not in _HOW:
                yield from _strings(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from _strings(inner)
    elif isinstance(value, str | int) and not isinstance(value, bool):
        yield str(value)
