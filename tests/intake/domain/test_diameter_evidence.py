"""Which answers count as evidence of the size, and what the tables say of keys."""

from __future__ import annotations

import pytest

from catalog.domain.lengths import inches, mm
from intake.domain.diameter_evidence import NO_EVIDENCE, evidence_of, thread_system
from intake.domain.keys import coupling_key_width, propeller_key_width
from intake.domain.sizes import INCH_SIZES, METRIC_SIZES, SIZES, steps_apart
from tests.given import a_case, a_sheet
from tests.intake.checks.examples.given import tape


def test_a_sheet_without_any_has_none() -> None:
    assert evidence_of(a_sheet()) is NO_EVIDENCE


def test_everything_that_tells_of_the_size_is_taken() -> None:
    found = evidence_of(
        a_sheet(
            thread={"text": "3/4-10", "method": "gauge"},
            taper_two_dia={"large": "1", "small": "0.828", "between": "2 3/4"},
            keyway={"width": "1/4"},
            bearing_id_or_mark=tape("1", "plug"),
            bolts={"count": 4, "size": "3/8-16"},
            coupling_bore={"kind": "straight", "size": "1"},
        )
    )
    assert found.thread is not None
    assert found.thread.text == "3/4-10"
    assert not found.counted
    assert (found.large, found.key, found.bore) == (25_400_000, inches("1/4").nm, 25_400_000)
    assert (found.bearing, found.bearing_u) == (25_400_000, float(inches("0.01").nm))
    assert found.bolts == "inch"


def test_a_thread_without_a_way_was_counted() -> None:
    assert evidence_of(a_sheet(thread={"text": "3/4-10"})).counted


def test_a_tapered_bore_says_nothing_of_the_size() -> None:
    assert evidence_of(a_sheet(coupling_bore={"kind": "taper", "size": "1"})).bore == 0


def test_the_bearing_is_no_witness_of_itself() -> None:
    """Where the shaft was not measured, the size is judged from the bearing alone."""
    sheet = a_sheet(without=("dia_clean",), bearing_id_or_mark=tape("1", "mark"))
    assert evidence_of(sheet) is NO_EVIDENCE
    case = a_case(without=("dia_clean",), bearing_id_or_mark=tape("1", "mark"))
    assert case.size == INCH_SIZES[2]


@pytest.mark.parametrize(
    ("text", "system"),
    [("M10", "mm"), ("3/8-16", "inch"), ("three eighths", ""), ("", "")],
)
def test_bolts_in_free_text_are_read_where_they_read(text: str, system: str) -> None:
    assert thread_system(text) == system


def test_propeller_keys_are_the_tables_and_else_unknown() -> None:
    """SAE J755; of metric ends only 25 and 30 mm are known."""
    known = {size.name: propeller_key_width(size) for size in SIZES if propeller_key_width(size)}
    assert known["1 in"] == inches("1/4")
    assert known["1 3/4 in"] == inches("7/16")
    assert {name: width for name, width in known.items() if name.endswith("mm")} == {
        "25 mm": mm(6),
        "30 mm": mm(8),
    }


def test_coupling_keys_are_the_tables() -> None:
    """ANSI B17.1: 3/16 on 7/8, 3/8 on 1-3/4; ISO 773: 8 on 25 and on 30, 10 on 35."""
    widths = {size.name: coupling_key_width(size) for size in SIZES}
    assert all(widths.values())
    assert (widths["7/8 in"], widths["1 3/4 in"]) == (inches("3/16"), inches("3/8"))
    assert (widths["25 mm"], widths["30 mm"], widths["35 mm"]) == (mm(8), mm(8), mm(10))


def test_a_bearing_measured_near_the_shaft_is_the_shafts() -> None:
    """A bar that just slides in at 0.99 could be 25 mm as well; on a 1 in shaft it is 1 in."""
    assert a_case(bearing_id_or_mark=tape("0.99", "plug")).bearing_size == INCH_SIZES[2]
    assert a_case(bearing_id_or_mark=tape("25 mm", "mark")).bearing_size == METRIC_SIZES[2]
    assert a_case(bearing_id_or_mark=tape("1.06", "caliper")).bearing_size is None


def test_steps_are_counted_inside_one_system() -> None:
    assert steps_apart(INCH_SIZES[2], INCH_SIZES[0]) == 2
    assert steps_apart(INCH_SIZES[2], METRIC_SIZES[2]) is None
