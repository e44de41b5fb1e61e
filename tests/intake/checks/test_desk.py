"""Parcels, weights and parts that cannot be of one boat, grade by grade."""

from __future__ import annotations

import pytest

from intake.checks.desk import pounds_of
from tests.given import a_case, fired, judged
from tests.intake.checks.examples.desk import METRIC_TAPER, TWO_INCH, as_long_as, sent_to
from tests.intake.checks.examples.given import PASS_THROUGH, tape


@pytest.mark.parametrize(
    ("strut", "old", "words"),
    [
        ("39 1/4", "44 1/8", "longer than 48 in"),
        ("63 1/4", "68 1/8", "longer than 72 in"),
        ("99 1/4", "104 1/8", "longer than 108 in"),
    ],
)
def test_a_tube_is_told_by_the_class_it_left(strut: str, old: str, words: str) -> None:
    verdict = judged(**as_long_as(strut, old, **sent_to("depot")))
    told = [found.message for found in verdict.findings if found.check == "parcel-length"]
    assert [words in message for message in told] == [True]


def test_a_metric_tube_has_metric_classes() -> None:
    metric = {
        "top": {"tape_unit": "mm", "wants": ["shaft"]},
        "without": ("tail_to_thread",),
        "dia_clean": tape("25", "caliper"),
        "hub_length": tape("60", "caliper"),
        "gap_now": tape("19", "rule"),
    }
    long = judged(**metric, **as_long_as("993", "1100", **sent_to("yard")))
    told = [found.message for found in long.findings if found.check == "parcel-length"]
    assert [m.startswith("The tube is longer than 1200 mm") for m in told] == [True]
    short = judged(**metric, **as_long_as("988", "1095", **sent_to("yard")))
    assert "parcel-length" not in fired(short)


def test_a_home_is_told_once_of_a_long_tube() -> None:
    long = fired(judged(**as_long_as("63 1/4", "68 1/8", **sent_to("home"))))
    assert long.get("long-parcel-address") == "note"
    assert "parcel-length" not in long
    assert "long-parcel-address" not in fired(
        judged(**as_long_as("63 1/4", "68 1/8", **sent_to("yard")))
    )


def test_nobody_is_told_of_parcels_before_an_address() -> None:
    assert "parcel-length" not in fired(judged())


def test_a_heavy_tube_is_not_for_a_home() -> None:
    heavy = {**TWO_INCH, **as_long_as("47", "55 7/8", **sent_to("home"))}
    assert fired(judged(**heavy)).get("long-parcel-address") == "note"


def test_a_pass_through_travels_whole() -> None:
    """Tube and bar have the front end in them: 59 1/4 in and nearly 4 more."""
    case = a_case(**PASS_THROUGH, forward_datum="gearbox_back")
    assert case.overall is not None
    assert case.cut is not None
    assert pounds_of(case) == pytest.approx(0.2238 * case.overall.in_inches, rel=0.001)
    assert case.overall > case.cut


def test_a_heavier_shaft_goes_on_a_pallet() -> None:
    heavy = judged(**{**TWO_INCH, **as_long_as("70", "78 7/8")})
    told = [found.message for found in heavy.findings if found.check == "weight"]
    assert [message.endswith("it goes on a pallet.") for message in told] == [True]


@pytest.mark.parametrize(
    ("place", "fires"),
    [
        ({"in": "strut", "struts": 0}, True),
        ({"in": "strut", "struts": 1}, False),
        ({"in": "strut"}, False),
        ({"in": "hull", "struts": 0}, False),
    ],
)
def test_a_strut_bearing_needs_a_strut(place: dict[str, object], fires: bool) -> None:
    assert ("impossible-combo" in fired(judged(bearing_place=place))) is fires


def test_a_strut_that_was_measured_is_there() -> None:
    none = {"bearing_place": {"in": "hull", "struts": 0}}
    assert fired(judged(**none, strut_barrel=tape("2", "rule")))["impossible-combo"] == "stop"


def test_a_combination_holds_the_parts_it_is_of() -> None:
    taper = judged(**METRIC_TAPER, thread={"text": "3/4-10"})
    strut = judged(bearing_place={"in": "strut", "struts": 0})
    assert [f.holds for f in taper.findings if f.check == "impossible-combo"] == [("shaft",)]
    held = [f.holds for f in strut.findings if f.check == "impossible-combo"]
    assert held == [("shaft", "bearing")]
