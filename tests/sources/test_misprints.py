"""Eleven misprints found in public sources (data/source_errors_found.csv), one test each.

Those that are values are put into a table and refused by the loader (1, 3, 5, 6, 7, 10); those that
are formulas are shown to give another result than our code and the worked example (2, 4); 8 and 9
check a source against a source, and say so; 11 is no misprint of one value but a quarrel of many.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pressfit
import pytest

from catalog.domain import standards
from catalog.domain.lengths import inches
from catalog.domain.standards import StandardValue
from catalog.domain.standards.validation import faults
from catalog.domain.strength import bearing_span_inches, required_diameter_inches
from catalog.domain.units import shaft_mass
from tests.sources.vectors import rows, sizing

Wrong = Callable[[StandardValue], StandardValue]


def _misprinted(name: str, wrong: Wrong) -> list[str]:
    values = standards.table(name)
    assert faults(name, values) == []
    changed = [wrong(value) for value in values]
    assert changed != list(values)
    return faults(name, changed)


def _at(subject: str, quantity: str, printed: str) -> Wrong:
    def wrong(value: StandardValue) -> StandardValue:
        here = (value.subject, value.quantity) == (subject, quantity)
        return replace(value, value=printed) if here else value

    return wrong


def test_all_eleven_are_here() -> None:
    assert len(rows("source_errors_found")) == 11


def test_1_a_density_of_304_with_a_digit_wrong() -> None:
    found = _misprinted("shaft_materials", _at("S30400", "density", "0.206"))
    assert any("no shaft metal weighs 0.206" in fault for fault in found)


def test_2_a_formula_with_weight_for_density() -> None:
    """Given the 2.9 lb of a foot of bar in place of 0.304 lb/in³, our span misses T5."""
    printed = 3 * 12 + 5
    a_foot = float(shaft_mass(inches(1), inches(12), Decimal("0.304")))
    assert bearing_span_inches(inches(1), 2000, 16e6, 0.304) == pytest.approx(printed, abs=0.5)
    assert bearing_span_inches(inches(1), 2000, 16e6, a_foot) < printed - 12
    assert sizing("T5")["expected"] == "3 ft 5 in"


def test_3_four_thirds_printed_as_one_and_a_quarter() -> None:
    assert _refused("4/3 = 1.25")
    assert not _refused("4/3 = 1.333")


def test_4_an_exponent_of_a_third_printed_as_0_33() -> None:
    """Our cube root gives the worked example; the exponent as printed misses it."""
    right = required_diameter_inches(403, 3, 70_000, 1050)
    wrong = (321_000 * 403 * 3 / (70_000 * 1050)) ** 0.33
    assert right == pytest.approx(1.74133, abs=0.00001)
    assert wrong != pytest.approx(1.74133, abs=0.001)


def test_5_a_lost_sign() -> None:
    assert _refused("0.039/+0")
    assert not _refused("-0.039/+0")
    assert not _refused("+5/-0")


def test_6_nut_rows_shifted_by_one_size() -> None:
    heights = {v.subject: v for v in standards.table("unc_threads_b18_2_2_nuts")}
    smaller = dict(zip(list(heights)[1:], heights, strict=False))

    def shifted(value: StandardValue) -> StandardValue:
        if value.subject not in ("1-1/4-7 UNC", "1-1/2-6 UNC") or "nut" not in value.quantity:
            return value
        other = standards.value(value.table, smaller[value.subject], value.quantity)
        return replace(value, value=other.value)

    found = _misprinted("unc_threads_b18_2_2_nuts", shifted)
    assert any("1-1/4-7 UNC hex_nut_height" in fault for fault in found)
    assert any("1-1/2-6 UNC hex_nut_height" in fault for fault in found)


def test_7_a_row_that_is_less_than_both_neighbours() -> None:
    found = _misprinted("iso773_din6885_keys", _at("over 30 to 38 mm", "hub_depth", "2.3"))
    assert any("less than its neighbour" in fault for fault in found)


def test_8_two_columns_under_each_others_headings() -> None:
    """30/16.3 is 1.84 by the worked example (T9): 16.3 is the divisor of stainless.

    A check of one printed table against the example printed with it: no code of ours takes a
    shaft's size from its propeller's.
    """
    stainless, bronze = 16.3, 14
    assert 30 / stainless == pytest.approx(float(sizing("T9")["expected"]), abs=0.005)
    assert 30 / bronze != pytest.approx(float(sizing("T9")["expected"]), abs=0.005)


def test_9_f9_of_the_uncorrected_print() -> None:
    """ISO 286-2:1988 printed -185; with Corrigendum 1:2006 it is -186 = -(56 + 130).

    A check of our row of check values against the package: no code of ours computes an ISO fit.
    """
    (row,) = (row for row in rows("iso286_vectors") if row["class_or_fit"] == "f9")
    shaft = pressfit.fit("H9/f9", float(row["size_mm"]))
    assert (int(row["low"]), int(row["high"])) == (shaft.shaft_ei_um, shaft.shaft_es_um)
    assert shaft.shaft_ei_um == -(56 + 130)


def test_10_a_thirty_second_printed_as_0_030() -> None:
    found = _misprinted("bearing_rules", _at("rule of thumb", "renew at", "1/32 = 0.030"))
    assert any("differ" in fault for fault in found)
    assert Fraction(1, 32) == Fraction("0.03125")


def test_11_clearances_that_contradict_each_other_are_no_constant() -> None:
    """For one shaft of 1 in our table holds sources more than ten times apart, each with its name.

    So no value of it may be used as the running clearance; a desk that wants one sets its own.
    """
    clearances = [v for v in standards.table("bearing_rules") if "clearance" in v.quantity]
    at_an_inch = [
        Fraction(re.findall(r"\d*\.\d+", v.value)[0])
        for v in clearances
        if "per inch" in v.value or "at 1 in" in v.value
    ]
    assert len(at_an_inch) >= 3
    assert max(at_an_inch) >= 10 * min(at_an_inch)
    assert len({v.source for v in clearances}) > 3


def _refused(printed: str) -> list[str]:
    row = standards.table("trade_facts")[0]
    return faults("trade_facts", [replace(row, value=printed)])


@pytest.mark.parametrize(
    ("name", "subject", "quantity", "printed"),
    [
        ("j755_shaft_ends", "1 in", "taper_length_C", "2.25"),
        ("j755_shaft_ends", "1-1/4 in", "small_end_dia_max", "1.302"),
        ("j755_shaft_ends", "7/8 in", "hub_bore_small_end_dia", "0.771"),
        ("j755_shaft_ends", "2 in", "thread_length_G", "2.562"),
        ("j755_shaft_ends", "2 in", "extension_beyond_taper_H", "2.5"),
        ("ansi_b4_1_interference", "1.19-1.58 in FN1", "shaft_min", "9.0"),
        ("keys_b17_1_vs_j755", "1 in", "S_printed", "0.895"),
        ("inch_metric_traps", "25 mm v 1 in", "difference", "+0.400"),
        ("safety_factors", "average yachts", "sf_min", "3.1"),
        ("shaft_materials", "S20910", "density_metric", "7998"),
        ("ansi_b17_1_key_vs_shaft", "over 7/8 to 1-1/4 in", "square_key", "1/8"),
        ("j755_shaft_ends", "1 in", "taper_length_C", "two"),
    ],
)
def test_other_slips_of_the_pen_are_refused_too(
    name: str, subject: str, quantity: str, printed: str
) -> None:
    assert _misprinted(name, _at(subject, quantity, printed))
