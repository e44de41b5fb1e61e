"""Reading a body: the one door by which form, desk and API turn answers into a `Sheet`.

The body is the API's JSON object, kept as typed for ever. Whatever cannot be read is refused with
one sentence at its path; unknown fields are refused, never ignored; all errors come at once.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from typing import Any

from catalog.domain.lengths import Length, LengthError, ReadLength, Unit, read_length
from intake.domain.methods import METHODS, uncertainty_nm
from intake.domain.plates import PlateError, read_power, read_ratio, read_speed, read_thread
from intake.domain.questions import (
    BARE_PART,
    CHANGED_CHOICES,
    CHOICES,
    COMPOSITES,
    ELSEWHERE,
    PART_RANGES,
    QUESTIONS,
    Question,
)
from intake.domain.sheet import Contact, Reading, Sheet, SheetErrors

CHANNELS = ("form", "phone", "email", "paper", "api")
UNITS = ("in", "mm")
WANTS = ("shaft", "coupling", "bearing")
ROLES = ("owner", "yard", "crew", "surveyor")
USES = ("pleasure", "work", "passenger")
STATES = ("cannot_measure", "not_applicable")
_TOP = {"channel", "tape_unit", "wants", "contact", "answers", "job", "alloy", "use"}
_READING = {"text", "method", "start_mark", "again"}
_PHONE = re.compile(r"[\d\s()+./-]{1,40}")
_EMAIL = re.compile(r"[^@\s]+@[^@\s.]+(\.[^@\s.]+)+")
_ALLOY = re.compile(r"[A-Z]\d{5}|\d\.\d{4}")
_LONGEST_TEXT = 300
_NOT_A_VALUE = object()


class _Refused(ValueError):
    """One answer cannot be read; the message is its sentence."""


class _Reader:
    """Collects what can be read and every sentence about what cannot."""

    def __init__(self, unit: Unit | None) -> None:
        self.unit = unit
        self.errors: dict[str, list[str]] = {}

    def refuse(self, path: str, sentence: str) -> None:
        self.errors.setdefault(path, []).append(sentence)

    def take(self, path: str, read: Callable[..., Any], *given: Any) -> Any:
        """What ``read`` makes of it, or _NOT_A_VALUE with its sentence kept."""
        try:
            return read(*given)
        except LengthError as error:
            self.refuse(path, _with_suggestions(error))
        except (_Refused, PlateError) as error:
            self.refuse(path, str(error))
        return _NOT_A_VALUE


def read_sheet(
    body: Mapping[str, Any], *, contact_needed: bool = False, sister_allowed: bool = False
) -> Sheet:
    """Turn a body into a sheet, or raise `SheetErrors` with a sentence for every bad answer.

    ``contact_needed``: the request will be stored, so somebody must be reachable (a finding says
    so, for a number to ring may be had later). ``sister_allowed``: the other side of a pair may
    travel along.
    """
    if not isinstance(body, Mapping):
        raise SheetErrors({"": ["Send one JSON object."]})
    unit = body.get("tape_unit")
    reader = _Reader(unit if unit in UNITS else None)
    known = _TOP | {"sister"} if sister_allowed else _TOP
    for name in body:
        if name not in known:
            reader.refuse(_name(name), "This field is not known.")
    if unit is not None and unit not in UNITS:
        reader.refuse("tape_unit", _one_of((*UNITS, "null")))
    answers = _answers(reader, body.get("answers", {}), "answers")
    sheet = Sheet(
        channel=_choice(reader, "channel", body.get("channel", "api"), CHANNELS),
        tape_unit=reader.unit,
        wants=_wants(reader, body.get("wants")),
        contact=_contact(reader, body.get("contact", {})),
        contact_needed=contact_needed,
        job=_text_at(reader, "job", body.get("job", ""), 40),
        alloy=_alloy(reader, body.get("alloy", "")),
        use=_choice(reader, "use", body["use"], USES) if "use" in body else "",
        **answers,
    )
    if "sister" in body and sister_allowed:
        _sister(reader, body["sister"])
    if reader.errors:
        raise SheetErrors(reader.errors)
    return sheet


def _sister(reader: _Reader, given: Any) -> None:
    if not isinstance(given, Mapping) or set(given) - {"station", "answers"}:
        reader.refuse("sister", "Give the other side as station and answers.")
        return
    _choice(reader, "sister.station", given.get("station"), ("port", "starboard", "centre"))
    _answers(reader, given.get("answers", {}), "sister.answers")


def _answers(reader: _Reader, given: Any, at: str) -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = {
        "readings": {},
        "choices": {},
        "parts": {},
        "lists": {},
        "states": {},
    }
    if not isinstance(given, Mapping):
        reader.refuse(at, "Give the answers as one object, question by question.")
        return found
    for slug, answer in given.items():
        _answer(reader, found, f"{at}.{_name(slug)}", slug, answer)
    return found


def _answer(reader: _Reader, found: dict[str, Any], path: str, slug: str, answer: Any) -> None:
    question = QUESTIONS.get(slug)
    if question is None:
        reader.refuse(path, "This question is not known.")
    elif question.kind == "elsewhere":
        reader.refuse(path, f"Give this as {ELSEWHERE[slug]}.")
    elif isinstance(answer, Mapping) and "state" in answer:
        _state(reader, found["states"], path, slug, answer)
    else:
        shelf, read = _SHAPES[question.kind]
        value = read(reader, path, question, answer)
        if value is not _NOT_A_VALUE:
            found[shelf][slug] = value


def _state(reader: _Reader, states: dict[str, str], path: str, slug: str, answer: Any) -> None:
    if answer["state"] not in STATES or len(answer) > 1:
        reader.refuse(path, f"A state stands alone and is {_listed(STATES)}.")
    else:
        states[slug] = answer["state"]


def _measured(reader: _Reader, path: str, question: Question, answer: Any) -> Any:
    if isinstance(answer, str):
        answer = {"text": answer}
    if not isinstance(answer, Mapping):
        reader.refuse(path, "Give the reading as text, or as text and method.")
        return _NOT_A_VALUE
    return reader.take(path, _reading, reader, path, question, answer, question.default_method)


def _reading(
    reader: _Reader, path: str, question: Question, answer: Mapping[str, Any], default: str
) -> Any:
    for name in answer:
        if name not in _READING:
            reader.refuse(f"{path}.{_name(name)}", "This field is not known.")
    method = answer.get("method", default)
    if method not in METHODS:
        raise _Refused(f"The method is {_listed(METHODS)}.")
    read = _read(question, answer.get("text"), reader.unit)
    start = answer.get("start_mark", "0")
    length = read.length - _start(start, read)
    if length.nm < 0:
        raise _Refused("The start mark is past what the tape showed; give both as read.")
    again = answer.get("again")
    if again is not None:
        if not isinstance(again, Mapping) or "again" in again:
            raise _Refused("Give the second reading as text, method and start mark.")
        again = _reading(reader, f"{path}.again", question, again, method)
    return Reading(
        slug=question.slug,
        text=answer["text"],
        method=method,
        length=length,
        unit=read.unit,
        unit_written=read.unit_written,
        u_nm=uncertainty_nm(question.slug, method),
        doubts=read.doubts,
        start_mark=start,
        again=again,
    )


def _read(question: Question, text: Any, unit: Unit | None) -> ReadLength:
    if not isinstance(text, str):
        raise _Refused('Give the number as text, as the tape showed it: "58 5/8".')
    return read_length(text, unit, question.widest)


def _start(mark: Any, read: ReadLength) -> Length:
    """The start mark is on the same tape, so it is in the answer's own unit."""
    if mark in ("0", ""):
        return Length(0)
    if not isinstance(mark, str):
        raise _Refused('Give the start mark as text, such as "10".')
    return read_length(mark, "in" if read.unit in ("in", "ft") else "mm").length


def _chosen(reader: _Reader, path: str, question: Question, answer: Any) -> Any:
    return _choice(reader, path, answer, CHOICES[question.slug])


def _composite(reader: _Reader, path: str, question: Question, answer: Any) -> Any:
    shape = COMPOSITES[question.slug]
    bare = BARE_PART.get(question.slug)
    if bare and not isinstance(answer, Mapping):
        answer = {bare: answer}
    if not isinstance(answer, Mapping):
        reader.refuse(path, f"Give this as an object with {_listed(shape)}.")
        return _NOT_A_VALUE
    parts: dict[str, Any] = {}
    for name, given in answer.items():
        at = f"{path}.{_name(name)}"
        if name not in shape:
            reader.refuse(at, "This field is not known.")
            continue
        value = _part(reader, at, shape[name], given, PART_RANGES.get((question.slug, name)))
        if value is not _NOT_A_VALUE and given is not None:
            parts[name] = value
    return parts


def _part(
    reader: _Reader,
    path: str,
    shape: str | tuple[str, ...],
    given: Any,
    plausible: tuple[Length, Length] | None,
) -> Any:
    if given is None:
        return None
    if isinstance(shape, tuple):
        return _choice(reader, path, given, shape)
    if shape == "length":
        return reader.take(path, _part_length, given, reader.unit, plausible)
    if shape == "method":
        return _choice(reader, path, given, METHODS)
    return reader.take(path, _PARTS[shape], given)


def _part_length(
    given: Any, unit: Unit | None, plausible: tuple[Length, Length] | None = None
) -> Length:
    if not isinstance(given, str):
        raise _Refused('Give the number as text, as the tape showed it: "58 5/8".')
    return read_length(given, unit, plausible).length


def _count(given: Any) -> int:
    if isinstance(given, str) and given.strip().isascii() and given.strip().isdigit():
        given = int(given.strip()[:6])
    if isinstance(given, bool) or not isinstance(given, int) or not 0 <= given <= 10_000:
        raise _Refused("Give a whole number, such as 2.")
    return given


def _yes_no(given: Any) -> bool:
    if not isinstance(given, bool):
        raise _Refused("Give true or false.")
    return given


def _text(given: Any) -> str:
    if isinstance(given, int) and not isinstance(given, bool):
        given = str(given)
    if not isinstance(given, str) or len(given) > _LONGEST_TEXT or "\x00" in given:
        raise _Refused(f"Give this as text of at most {_LONGEST_TEXT} characters.")
    return given.strip()


def _day(given: Any) -> date:
    try:
        return date.fromisoformat(given) if len(given) == len("2026-01-31") else _no_day()
    except (TypeError, ValueError):
        return _no_day()


def _no_day() -> date:
    raise _Refused("Give the day as year-month-day, such as 2026-04-13.")


def _plate(read: Callable[[str], Any]) -> Callable[[Any], Any]:
    return lambda given: read(_text(given)[:40])


_PARTS: dict[str, Callable[[Any], Any]] = {
    "text": _text,
    "count": _count,
    "yes_no": _yes_no,
    "date": _day,
    "power": _plate(read_power),
    "speed": _plate(read_speed),
    "ratio": _plate(read_ratio),
    "thread": _plate(read_thread),
}


def _list(reader: _Reader, path: str, question: Question, answer: Any) -> Any:
    if isinstance(answer, str):
        answer = [answer]
    if not isinstance(answer, (list, tuple)) or len(answer) > 20:
        reader.refuse(path, "Give this as a list.")
        return _NOT_A_VALUE
    read = _LISTED[question.slug]
    items = [read(reader, f"{path}.{number}", item) for number, item in enumerate(answer)]
    return _NOT_A_VALUE if _NOT_A_VALUE in items else tuple(items)


def _changed(reader: _Reader, path: str, item: Any) -> Any:
    return _choice(reader, path, item, CHANGED_CHOICES)


def _support(reader: _Reader, path: str, item: Any) -> Any:
    if not isinstance(item, Mapping) or set(item) != {"what", "from_face"}:
        reader.refuse(path, "Give each support as what and from_face.")
        return _NOT_A_VALUE
    where = reader.take(f"{path}.from_face", _part_length, item["from_face"], reader.unit)
    what = reader.take(f"{path}.what", _text, item["what"])
    return _NOT_A_VALUE if _NOT_A_VALUE in (where, what) else (what, where)


def _band(reader: _Reader, path: str, item: Any) -> Any:
    if not isinstance(item, (list, tuple)) or len(item) != 2:
        reader.refuse(path, "Give each band as where it starts and where it stops.")
        return _NOT_A_VALUE
    ends = [reader.take(path, _part_length, end, reader.unit) for end in item]
    return _NOT_A_VALUE if _NOT_A_VALUE in ends else tuple(ends)


_LISTED = {"changed_since_shaft": _changed, "supports": _support, "polished_bands": _band}


def _a_day(reader: _Reader, path: str, _question: Question, answer: Any) -> Any:
    day = reader.take(path, _day, answer)
    return day if day is _NOT_A_VALUE else (day,)


_SHAPES: dict[str, tuple[str, Callable[..., Any]]] = {
    "measured": ("readings", _measured),
    "choice": ("choices", _chosen),
    "composite": ("parts", _composite),
    "list": ("lists", _list),
    "day": ("lists", _a_day),
}


def _choice(reader: _Reader, path: str, given: Any, choices: tuple[str, ...]) -> Any:
    if isinstance(given, str) and given in choices:
        return given
    reader.refuse(path, _one_of(choices))
    return _NOT_A_VALUE


def _wants(reader: _Reader, given: Any) -> tuple[str, ...]:
    if not isinstance(given, (list, tuple)) or not given or not all(w in WANTS for w in given):
        reader.refuse("wants", f"Say what is wanted: a list of {_listed(WANTS)}.")
        return ()
    return tuple(want for want in WANTS if want in given)


def _contact(reader: _Reader, given: Any) -> Contact:
    if not isinstance(given, Mapping):
        reader.refuse("contact", "Give the contact as name, phone, email and role.")
        return Contact()
    for name in given:
        if name not in ("name", "phone", "email", "role"):
            reader.refuse(f"contact.{_name(name)}", "This field is not known.")
    role = given.get("role") or ""
    return Contact(
        name=_text_at(reader, "contact.name", given.get("name") or "", _LONGEST_TEXT),
        phone=_phone(reader, given.get("phone") or ""),
        email=_email(reader, given.get("email") or ""),
        role=_choice(reader, "contact.role", role, ROLES) if role else "",
    )


def _phone(reader: _Reader, given: Any) -> str:
    digits = sum(letter.isdigit() for letter in given) if isinstance(given, str) else 0
    if given and not (isinstance(given, str) and _PHONE.fullmatch(given) and 7 <= digits <= 15):
        reader.refuse(
            "contact.phone", "A phone number has 7 to 15 digits, such as +1 202 555 0100."
        )
        return ""
    return given.strip() if given else ""


def _email(reader: _Reader, given: Any) -> str:
    fits = isinstance(given, str) and len(given) <= 254 and _EMAIL.fullmatch(given.strip())
    if given and not fits:
        reader.refuse("contact.email", "An e-mail address looks like name@example.org.")
        return ""
    return given.strip() if given else ""


def _alloy(reader: _Reader, given: Any) -> str:
    if given and not (isinstance(given, str) and _ALLOY.fullmatch(given)):
        reader.refuse("alloy", "Name the alloy by UNS or EN number, such as S20910 or 1.4462.")
        return ""
    return given or ""


def _text_at(reader: _Reader, path: str, given: Any, longest: int) -> str:
    if not isinstance(given, str) or len(given) > longest or "\x00" in given:
        reader.refuse(path, f"Give this as text of at most {longest} characters.")
        return ""
    return given.strip()


def _with_suggestions(error: LengthError) -> str:
    if not error.suggestions:
        return str(error)
    return f"{error} For example: {' or '.join(error.suggestions)}."


def _one_of(choices: tuple[str, ...]) -> str:
    return f"This is {_listed(choices)}."


def _listed(words: Any) -> str:
    *most, last = list(words)
    return f"{', '.join(most)} or {last}" if most else str(last)


def _name(given: Any) -> str:
    return str(given)[:60]
