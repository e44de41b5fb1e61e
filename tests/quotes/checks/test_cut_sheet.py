"""``cutsheet-chain``: a chain that is off refuses the paper and says which station."""

from __future__ import annotations

from dataclasses import replace

import pytest

from catalog.domain.lengths import Length, inches
from intake.domain.verdict import Severity
from quotes.checks import CHECKS, the_chain_adds_up
from quotes.domain.stations import Chain, Station, chain
from tests.quotes.stacks import a_stack

AT_THE_LIMIT, BEYOND = inches("0.005"), inches("0.005") + Length(1)
EDITED = {
    "large": "Large end of the taper",
    "small": "Small end of the taper",
    "nut": "Nut face",
    "thread": "End of the threads",
    "tip": "Tip of the cotter-pin nose",
    "bearing_aft": "Bearing, aft end",
}


def moved(made: Chain, key: str, by: Length) -> Chain:
    """The chain with one station edited."""

    def edit(one: Station) -> Station:
        return replace(one, x=one.x + by) if one.key == key and one.x is not None else one

    return replace(made, stations=tuple(map(edit, made.stations)))


@pytest.mark.parametrize("key", EDITED)
def test_an_edited_station_is_named(key: str) -> None:
    made = chain(a_stack(), bearing=inches(2))
    assert the_chain_adds_up.found(moved(made, key, AT_THE_LIMIT)) == ()
    for by in (BEYOND, -BEYOND):
        found = the_chain_adds_up.found(moved(made, key, by))
        assert any(key in one.answers for one in found)
        assert any(EDITED[key] in one.message for one in found)


@pytest.mark.parametrize(
    ("fact", "station"),
    [
        ("taper_length", "Large end"),
        ("nut_standoff", "End of the threads"),
        ("nose", "Tip of the cotter-pin nose"),
        ("length", "overall"),
        ("overall", "overall"),
    ],
)
def test_a_stored_fact_that_the_table_contradicts_is_refused(fact: str, station: str) -> None:
    stack = a_stack()
    longer = Length(round(float(stack[fact]) * 1_000_000)) + inches("1/16")
    found = the_chain_adds_up.found(chain({**stack, fact: longer.mm_text}))
    assert any(station in one.message for one in found), found


def test_a_table_end_that_was_not_stored_is_refused() -> None:
    found = the_chain_adds_up.found(chain(a_stack(nut_standoff=None, taper_length=None)))
    assert found


def test_a_taper_that_begins_inside_the_bearing_is_refused() -> None:
    """A hub much shorter than the taper: the bearing would run on the cone."""
    found = the_chain_adds_up.found(chain(a_stack(x_strut_aft=inches(45).mm_text)))
    assert "Large end of the taper lies 3/16 in" in found[0].message
    assert found[0].answers == ("bearing_aft", "large")


def test_the_datum_is_zero() -> None:
    found = the_chain_adds_up.found(moved(chain(a_stack()), "face", inches("1/32")))
    assert found[0].message == "The coupling face is not at zero."


def test_every_check_of_the_shop_says_why_asks_openly_and_has_a_source() -> None:
    for check in CHECKS:
        assert check.severity == Severity.STOP
        assert check.ask.endswith("?")
        assert check.source
        assert len(check.why.split()) > 8
    assert len({check.id for check in CHECKS}) == len(CHECKS)
