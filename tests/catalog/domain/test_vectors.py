"""What the browser's reader is held to is what the server reads today."""

from __future__ import annotations

import json
from typing import Any

from tests.vectors import make
from tests.vectors.cases import RANGES, cases
from tests.vectors.plates import answered, plate_cases, said, start_cases

STALE = "stale: run python -m tests.vectors.make, then tests/browser/test_reader_js.py"


def _kept(path: Any) -> Any:
    return json.loads(path.read_text())


def test_every_kept_length_is_read_so() -> None:
    rows = list(make.kept_lengths())
    assert len(rows) >= 1500
    for text, unit, span, read in rows:
        assert make.read(text, unit, RANGES[span]) == read, (text, unit, span)


def test_every_kept_plate_and_answer_is_read_so() -> None:
    kept = _kept(make.PLATES)
    for reader, text, read in kept["plates"]:
        assert said(reader, text) == read, (reader, text)
    for *given, read in kept["answers"]:
        assert answered(*given) == read, given


def test_the_kept_cases_are_those_of_today() -> None:
    plates = _kept(make.PLATES)
    assert [row[:3] for row in make.kept_lengths()] == cases(), STALE
    assert [tuple(row[:2]) for row in plates["plates"]] == plate_cases(), STALE
    assert [tuple(row[:4]) for row in plates["answers"]] == start_cases(), STALE
    assert make.LENGTHS.read_text() == make.lengths(), STALE
    assert make.PLATES.read_text() == make.plates(), STALE


def test_the_kept_cases_hold_every_kind() -> None:
    rows = list(make.kept_lengths())
    read = [row[3] for row in rows if row[3]["understood"]]
    refused = [row[3] for row in rows if not row[3]["understood"]]
    assert len(read) > 1000
    assert len(refused) > 400
    assert {one["unit"] for one in read} == {"in", "ft", "mm", "cm", "m"}
    assert len({one["message"] for one in refused}) >= 20
    assert sum(one["extraU"] > 0 for one in read) > 100
    assert sum(len(one["doubts"]) > 1 for one in read) > 20
    assert {one["mark"] is None for one in read} == {True, False}
