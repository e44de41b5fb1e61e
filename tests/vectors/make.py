"""Writes what both readers must read: ``python -m tests.vectors.make`` after a change of either.

``lengths.json`` and ``plates.json`` hold what the server's reader says today. That it is right is
the business of the tests of the reader and of its second reader; that the browser says the same is
tests/browser/test_reader_js.py.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from catalog.domain.tape import LengthError, Plausible, Unit, read_length
from tests.vectors.cases import RANGES, cases
from tests.vectors.plates import answered, plate_cases, said, span_of, start_cases

HERE = Path(__file__).parent
LENGTHS, PLATES = HERE / "lengths.json", HERE / "plates.json"


# What is said of a length that is read, in the order of its row; and of one that is refused.
READ = ("nm", "unit", "unitWritten", "doubts", "mark", "extraU", "inch", "mm", "both", "spoken")
REFUSED = ("message", "suggestions")


def read(text: str, unit: Unit | None, plausible: Plausible | None) -> dict[str, Any]:
    """What the server reads, in the form in which the browser says it."""
    try:
        found = read_length(text, unit, plausible)
    except LengthError as error:
        suggestions = list(error.suggestions)
        return {"understood": False, "message": error.message, "suggestions": suggestions}
    length = found.length
    return {
        "understood": True,
        "nm": length.nm,
        "unit": found.unit,
        "unitWritten": found.unit_written,
        "doubts": list(found.doubts),
        "mark": found.mark.nm if found.mark else None,
        "extraU": found.extra_u_nm,
        "inch": length.inch_text,
        "mm": length.mm_text,
        "both": length.both(),
        "spoken": found.spoken,
    }


def lengths() -> str:
    """The file of lengths, one case a line: text, unit of the tape, range, what is said of it."""
    ranges = {name: [end.nm for end in span] if span else None for name, span in RANGES.items()}
    rows = ([*case, *_row(read(case[0], case[1], RANGES[case[2]]))] for case in cases())
    return f'{{"ranges": {_line(ranges)},\n"cases": [\n{_lines(rows)}\n]}}\n'


def _row(said: dict[str, Any]) -> list[Any]:
    return [said[name] for name in (READ if said["understood"] else REFUSED)]


def kept_lengths() -> Iterator[tuple[str, Unit | None, str, dict[str, Any]]]:
    """The cases of the file: text, unit of the tape, name of a range, what is said of it."""
    for text, unit, span, *row in json.loads(LENGTHS.read_text())["cases"]:
        names = READ if len(row) == len(READ) else REFUSED
        yield text, unit, span, {"understood": names is READ, **dict(zip(names, row, strict=True))}


def plates() -> str:
    """The file of plates and of answers with a start mark."""
    spans = {slug: span_of(slug) for _text, _unit, slug, _start in start_cases()}
    read_rows = ([*case, said(*case)] for case in plate_cases())
    answers = ([*case, answered(*case)] for case in start_cases())
    return (
        f'{{"ranges": {_line(spans)},\n"plates": [\n{_lines(read_rows)}\n],\n'
        f'"answers": [\n{_lines(answers)}\n]}}\n'
    )


def _lines(rows: Iterable[Any]) -> str:
    return ",\n".join(map(_line, rows))


def _line(row: Any) -> str:
    return json.dumps(row, ensure_ascii=True)  # a lone half of a character has no UTF-8


def main() -> None:
    LENGTHS.write_text(lengths())
    PLATES.write_text(plates())


if __name__ == "__main__":
    main()
