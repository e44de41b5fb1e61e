"""What is asked of both readers of plates and of answers: (what reads it, what it is given)."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from catalog.domain.lengths import Length
from catalog.domain.tape import Unit
from intake.domain.angles import read_angle
from intake.domain.answers import read_answers
from intake.domain.plates import PlateError, read_power, read_ratio, read_speed, read_thread
from intake.domain.questions import QUESTIONS
from intake.domain.refusals import Reader, Refused
from tests.intake.domain import test_plates as plates
from tests.vectors.tables import rows_of

Said = dict[str, Any]


def power(text: str) -> Said:
    read = read_power(text)
    return {"value": float(read.value), "unit": read.unit}


def thread(text: str) -> Said:
    read = read_thread(text)
    named = {"text": read.text, "system": read.system}
    return {**named, "major": read.major.nm, "pitch": read.pitch}


READERS: Mapping[str, Callable[[str], Said]] = {
    "readPower": power,
    "readSpeed": lambda text: {"value": read_speed(text)},
    "readRatio": lambda text: {"value": float(read_ratio(text))},
    "readThread": thread,
    "readAngle": lambda text: {"value": read_angle(text)},
}


def said(reader: str, text: str) -> Said:
    """What the server reads, in the form in which the browser says it."""
    try:
        return {"understood": True, **READERS[reader](text)}
    except (PlateError, Refused) as error:
        return {"understood": False, "message": str(error)}


_READ: tuple[Callable[..., None], ...] = (
    plates.test_power,
    plates.test_speed,
    plates.test_ratio,
    plates.test_inch_threads,
    plates.test_metric_threads,
)
_ANGLES = ("10", "10 deg", "10,5 degrees", "10.5°", "45", "45.01", "0", "-3", "ten", "7 deg.", "")


def plate_cases() -> list[tuple[str, str]]:
    """Every text of the tests of plates, at every reader; slopes at theirs."""
    texts = [str(row[0]) for test in _READ for row in rows_of(test)]
    texts += [text for _read, text in rows_of(plates.test_nonsense_is_refused_with_an_example)]
    rows = [(reader, text) for text in dict.fromkeys(texts) for reader in READERS]
    return rows + [("readAngle", text) for text in _ANGLES]


_STARTS: tuple[tuple[str, Unit | None, str, str], ...] = (
    ("68 5/8", "in", "face_to_strut_aft", "10"),
    ("68 5/8", "in", "face_to_strut_aft", ""),
    ("68 5/8", "in", "face_to_strut_aft", "about 10"),
    ("1589", None, "face_to_strut_aft", "100"),
    ("1589 mm strong", "in", "face_to_strut_aft", "100"),
    ("9", "in", "face_to_strut_aft", "10"),
    ("10 to 68 5/8", "in", "face_to_strut_aft", "10"),
    ("300", "in", "face_to_strut_aft", "0"),
    ("1", "in", "gap_now", "0"),
    ("19,05", None, "dia_clean", "0"),
    ("5000 mm", None, "gap_now", "1 in"),
)


def start_cases() -> list[tuple[str, Unit | None, str, str]]:
    """Answers with the mark at which the tape was held."""
    return list(_STARTS)


def answered(text: str, unit: Unit | None, slug: str, start: str) -> Said:
    """What the server makes of an answer: its length, or the sentence that refuses it."""
    reader = Reader(unit)
    found = read_answers(reader, {slug: {"text": text, "start_mark": start}}, "answers")
    if reader.errors:
        (sentence,) = reader.errors[f"answers.{slug}"]
        return {"understood": False, "message": sentence}
    reading = found["readings"][slug]
    span = QUESTIONS[slug].plausible(reading.unit)
    possible = span is None or _within(span, reading.length)
    shown = {"nm": reading.length.nm, "doubts": list(reading.doubts), "plausible": possible}
    return {"understood": True, **shown}


def _within(span: tuple[Length, Length], length: Length) -> bool:
    return span[0].nm <= length.nm <= span[1].nm


def span_of(slug: str) -> dict[str, list[int]]:
    """The range of a question as the guided page is given it."""
    question = QUESTIONS[slug]
    spans = {unit: question.plausible(unit) for unit in ("in", "mm")}
    return {unit: [end.nm for end in span] for unit, span in spans.items() if span}
