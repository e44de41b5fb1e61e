"""Reading the answers of a body, question by question, each by its shape."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from math import hypot
from typing import Any

from catalog.domain.lengths import Length
from catalog.domain.several import STARTED
from catalog.domain.tape import ReadLength, Unit, read_length
from intake.domain.angles import read_angle
from intake.domain.methods import METHODS, uncertainty_nm
from intake.domain.plates import read_power, read_ratio, read_speed, read_thread
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
from intake.domain.refusals import (
    LONGEST_TEXT,
    NOT_A_VALUE,
    Reader,
    Refused,
    choice,
    listed,
    name_of,
)
from intake.domain.sheet import Reading

STATES = ("cannot_measure", "not_applicable")
_READING = {"text", "method", "start_mark", "again"}


def read_answers(reader: Reader, given: Any, at: str) -> dict[str, dict[str, Any]]:
    """The answers by kind, as the fields of a `Sheet`; what is refused stays with the reader."""
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
        _answer(reader, found, f"{at}.{name_of(slug)}", slug, answer)
    return found


def _answer(reader: Reader, found: dict[str, Any], path: str, slug: str, answer: Any) -> None:
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
        if value is not NOT_A_VALUE:
            found[shelf][slug] = value


def _state(reader: Reader, states: dict[str, str], path: str, slug: str, answer: Any) -> None:
    if answer["state"] not in STATES or len(answer) > 1:
        reader.refuse(path, f"A state stands alone and is {listed(STATES)}.")
    else:
        states[slug] = answer["state"]


def _measured(reader: Reader, path: str, question: Question, answer: Any) -> Any:
    if isinstance(answer, str):
        answer = {"text": answer}
    if not isinstance(answer, Mapping):
        reader.refuse(path, "Give the reading as text, or as text and method.")
        return NOT_A_VALUE
    return reader.take(path, _reading, reader, path, question, answer, question.default_method)


def _reading(
    reader: Reader, path: str, question: Question, answer: Mapping[str, Any], default: str
) -> Any:
    for name in answer:
        if name not in _READING:
            reader.refuse(f"{path}.{name_of(name)}", "This field is not known.")
    method = answer.get("method", default)
    if method not in METHODS:
        raise Refused(f"The method is {listed(METHODS)}.")
    read = _less_start(_read(question, answer.get("text"), reader.unit), answer)
    again = answer.get("again")
    if again is not None:
        if not isinstance(again, Mapping) or "again" in again:
            raise Refused("Give the second reading as text, method and start mark.")
        again = _reading(reader, f"{path}.again", question, again, method)
    return Reading(
        slug=question.slug,
        text=answer["text"],
        method=method,
        length=read.length,
        unit=read.unit,
        unit_written=read.unit_written,
        u_nm=hypot(uncertainty_nm(question.slug, method), read.extra_u_nm),
        doubts=read.doubts,
        start_mark=answer.get("start_mark", "0"),
        again=again,
        mark=read.mark,
    )


def _read(question: Question, text: Any, unit: Unit | None) -> ReadLength:
    if not isinstance(text, str):
        raise Refused('Give the number as text, as the tape showed it: "58 5/8".')
    return read_length(text, unit, question.widest)


def _less_start(read: ReadLength, answer: Mapping[str, Any]) -> ReadLength:
    """What the tape showed less the start mark, with what the mark's own words add."""
    begun = _start(answer.get("start_mark", "0"), read)
    if not begun.length:
        return read
    if any(doubt.startswith(STARTED) for doubt in read.doubts):
        raise Refused("The start mark is in the number too; please give it once.")
    length = read.length - begun.length
    if length.nm < 0:
        raise Refused("The start mark is past what the tape showed; give both as read.")
    extra = hypot(read.extra_u_nm, begun.extra_u_nm)
    doubts = (*read.doubts, *begun.doubts)
    return read._replace(length=length, doubts=doubts, extra_u_nm=extra)


def _start(mark: Any, read: ReadLength) -> ReadLength:
    """The start mark is on the same tape, so it is in the answer's own unit."""
    if not isinstance(mark, str):
        raise Refused('Give the start mark as text, such as "10".')
    return read_length(mark or "0", "in" if read.system == "in" else "mm")


def _chosen(reader: Reader, path: str, question: Question, answer: Any) -> Any:
    return choice(reader, path, answer, CHOICES[question.slug])


def _composite(reader: Reader, path: str, question: Question, answer: Any) -> Any:
    shape = COMPOSITES[question.slug]
    bare = BARE_PART.get(question.slug)
    if bare and not isinstance(answer, Mapping):
        answer = {bare: answer}
    if not isinstance(answer, Mapping):
        reader.refuse(path, f"Give this as an object with {listed(shape)}.")
        return NOT_A_VALUE
    parts: dict[str, Any] = {}
    for name, given in answer.items():
        at = f"{path}.{name_of(name)}"
        if name not in shape:
            reader.refuse(at, "This field is not known.")
            continue
        value = _part(reader, at, shape[name], given, PART_RANGES.get((question.slug, name)))
        if value is not NOT_A_VALUE and given is not None:
            parts[name] = value
    return parts


def _part(
    reader: Reader,
    path: str,
    shape: str | tuple[str, ...],
    given: Any,
    plausible: tuple[Length, Length] | None,
) -> Any:
    if given is None:
        return None
    if isinstance(shape, tuple):
        return choice(reader, path, given, shape)
    if shape == "length":
        return reader.take(path, _part_length, given, reader.unit, plausible)
    if shape == "method":
        return choice(reader, path, given, METHODS)
    return reader.take(path, _PARTS[shape], given)


def _part_length(
    given: Any, unit: Unit | None, plausible: tuple[Length, Length] | None = None
) -> Length:
    if not isinstance(given, str):
        raise Refused('Give the number as text, as the tape showed it: "58 5/8".')
    read = read_length(given, unit, plausible)
    if read.extra_u_nm:  # no part of an answer has a place for it
        raise Refused("Give the nearest mark alone here, as one plain number.")
    return read.length


def _count(given: Any) -> int:
    if isinstance(given, str) and given.strip().isascii() and given.strip().isdigit():
        given = int(given.strip()[:6])
    if isinstance(given, bool) or not isinstance(given, int) or not 0 <= given <= 10_000:
        raise Refused("Give a whole number, such as 2.")
    return given


def _yes_no(given: Any) -> bool:
    if not isinstance(given, bool):
        raise Refused("Give true or false.")
    return given


def _text(given: Any) -> str:
    if isinstance(given, int) and not isinstance(given, bool):
        given = str(given)
    if not isinstance(given, str) or len(given) > LONGEST_TEXT or "\x00" in given:
        raise Refused(f"Give this as text of at most {LONGEST_TEXT} characters.")
    return given.strip()


def _day(given: Any) -> date:
    try:
        return date.fromisoformat(given) if len(given) == len("2026-01-31") else _no_day()
    except (TypeError, ValueError):
        return _no_day()


def _no_day() -> date:
    raise Refused("Give the day as year-month-day, such as 2026-04-13.")


def _plate(read: Callable[[str], Any]) -> Callable[[Any], Any]:
    return lambda given: read(_text(given))


_PARTS: dict[str, Callable[[Any], Any]] = {
    "text": _text,
    "count": _count,
    "yes_no": _yes_no,
    "date": _day,
    "power": _plate(read_power),
    "speed": _plate(read_speed),
    "ratio": _plate(read_ratio),
    "thread": _plate(read_thread),
    "angle": _plate(read_angle),
}


def _list(reader: Reader, path: str, question: Question, answer: Any) -> Any:
    if isinstance(answer, str):
        answer = [answer]
    if not isinstance(answer, (list, tuple)) or len(answer) > 20:
        reader.refuse(path, "Give this as a list.")
        return NOT_A_VALUE
    read = _LISTED[question.slug]
    items = [read(reader, f"{path}.{number}", item) for number, item in enumerate(answer)]
    return NOT_A_VALUE if NOT_A_VALUE in items else tuple(items)


def _changed(reader: Reader, path: str, item: Any) -> Any:
    return choice(reader, path, item, CHANGED_CHOICES)


def _support(reader: Reader, path: str, item: Any) -> Any:
    if not isinstance(item, Mapping) or set(item) != {"what", "from_face"}:
        reader.refuse(path, "Give each support as what and from_face.")
        return NOT_A_VALUE
    where = reader.take(f"{path}.from_face", _part_length, item["from_face"], reader.unit)
    what = reader.take(f"{path}.what", _text, item["what"])
    return NOT_A_VALUE if NOT_A_VALUE in (where, what) else (what, where)


def _band(reader: Reader, path: str, item: Any) -> Any:
    if not isinstance(item, (list, tuple)) or len(item) != 2:
        reader.refuse(path, "Give each band as where it starts and where it stops.")
        return NOT_A_VALUE
    ends = [reader.take(path, _part_length, end, reader.unit) for end in item]
    return NOT_A_VALUE if NOT_A_VALUE in ends else tuple(ends)


_LISTED = {"changed_since_shaft": _changed, "supports": _support, "polished_bands": _band}


def _a_day(reader: Reader, path: str, _question: Question, answer: Any) -> Any:
    day = reader.take(path, _day, answer)
    return day if day is NOT_A_VALUE else (day,)


_SHAPES: dict[str, tuple[str, Callable[..., Any]]] = {
    "measured": ("readings", _measured),
    "choice": ("choices", _chosen),
    "composite": ("parts", _composite),
    "list": ("lists", _list),
    "day": ("lists", _a_day),
}
