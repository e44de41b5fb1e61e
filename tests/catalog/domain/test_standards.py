"""The tables: every value with unit, source and confidence; no misprint comes through."""

from __future__ import annotations

from decimal import Decimal

import pytest

from catalog.domain import standards
from catalog.domain.lengths import inches, mm
from catalog.domain.standards import Confidence, StandardError, StandardValue

EVERY = [value for name in standards.TITLES for value in standards.table(name)]
HEADING = "subject,quantity,value,unit,standard,source,confidence,note"


@pytest.mark.parametrize("name", standards.TITLES)
def test_every_table_reads(name: str) -> None:
    assert len(standards.table(name)) > 5
    assert standards.table(name) is standards.table(name)


@pytest.mark.parametrize("value", EVERY, ids=lambda v: f"{v.table}-{v.subject}-{v.quantity}")
def test_every_value_says_unit_source_and_confidence(value: StandardValue) -> None:
    assert value.unit
    assert value.source
    assert value.standard
    assert (value.confidence is Confidence.GAP) == (value.value == "")


def test_the_words_for_people() -> None:
    assert "verify before metal is cut" in Confidence.MEMORY.words
    assert len({confidence.words for confidence in Confidence}) == 4


def test_a_value_as_length_and_number() -> None:
    taper = standards.value("j755_shaft_ends", "1-1/8 in", "taper_length_C")
    assert taper.length == inches("3 1/8")
    assert taper.number == Decimal("3.125")
    key = standards.value("iso773_din6885_keys", "over 22 to 30 mm", "key_width")
    assert key.length == mm(8)
    words = standards.value("j755_shaft_ends", "1 in", "taper_rate")
    with pytest.raises(ValueError, match="not a length"):
        _ = words.length
    with pytest.raises(ValueError, match="not a number"):
        _ = words.number


def test_what_is_not_there_is_not_invented() -> None:
    with pytest.raises(KeyError):
        standards.table("no_such_table")
    with pytest.raises(KeyError):
        standards.value("j755_shaft_ends", "2-1/4 in", "taper_length_C")


def test_the_worst_confidence_counts() -> None:
    by_confidence = {value.confidence: value for value in EVERY}
    assert standards.worst(by_confidence.values()) is Confidence.GAP
    two = (by_confidence[Confidence.SEEN], by_confidence[Confidence.ARITHMETIC])
    assert standards.worst(two) is Confidence.ARITHMETIC


@pytest.mark.parametrize(
    "row",
    [
        "1 in,length,2,,SAE J755,a table,seen,",
        "1 in,length,2,in,SAE J755,,seen,",
        "1 in,length,2,in,SAE J755,a table,,",
        "1 in,length,2,in,SAE J755,a table,certain,",
        "1 in,length,,in,SAE J755,a table,seen,",
        "1 in,length,2,in,SAE J755,a table,gap,",
        ",length,2,in,SAE J755,a table,seen,",
        "1 in,length",
    ],
)
def test_a_row_that_leaves_something_out_is_refused(row: str) -> None:
    with pytest.raises(StandardError, match="trade_facts"):
        standards.read_table("trade_facts", [HEADING, row])


def test_least_above_most_is_refused() -> None:
    rows = ["a,size_min,2,in,s,s,seen,", "a,size_max,1,in,s,s,seen,"]
    with pytest.raises(StandardError, match="2 is more than 1"):
        standards.read_table("trade_facts", [HEADING, *rows])
