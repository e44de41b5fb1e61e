"""The stations of a shaft, to one datum: by the table, and by what the sheet was stored with."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import NM_PER_64TH, Length, inches, mm
from catalog.domain.standards import value
from intake.domain.stack import stack_up
from quotes.checks import the_chain_adds_up
from quotes.domain.end_rows import VERIFY, end_rows
from quotes.domain.stations import FRONT, HUB_END, NOT_KNOWN, TIP, Chain, chain
from tests.given import a_case
from tests.quotes.stacks import SIZES, a_stack, the_end

lengths = st.integers(min_value=24 * 64, max_value=240 * 64).map(lambda n: Length(n * NM_PER_64TH))


def x(made: Chain, key: str) -> str:
    place = made.at(key)
    return place.inch_text if place is not None else ""


def test_the_clean_boat_station_by_station() -> None:
    """1 in, 49 in face to thread end: G 1-7/16, C 2-3/4, nose 5/16 (SAE J755 Table 1)."""
    made = chain(a_stack(x_strut_aft=inches("44 1/8").mm_text), bearing=inches(2))
    assert [(one.key, x(made, one.key)) for one in made.stations] == [
        ("face", "0"),
        ("bearing_fwd", "42 1/8"),
        ("bearing_aft", "44 1/8"),
        ("large", "44 13/16"),
        ("small", "47 9/16"),
        ("nut", "47 13/16"),
        ("thread", "49"),
        ("tip", "49 5/16"),
    ]


@pytest.mark.parametrize("size", SIZES, ids=lambda size: size.inch_text)
def test_the_propeller_end_is_the_tables(size: Length) -> None:
    """Against the rows themselves: from the thread end G forward, then C; H past the small end."""
    made, subject = chain(a_stack(size)), f"{size.inch_text.replace(' ', '-')} in"

    def row(quantity: str) -> Length:
        return value("j755_shaft_ends", subject, quantity).length

    places = [made.at(key) for key in ("large", "small", "nut", "thread", "tip")]
    large, small, nut, thread, tip = (place for place in places if place is not None)
    assert thread - small == row("thread_length_G")
    assert small - large == row("taper_length_C")
    assert tip - small == row("extension_beyond_taper_H")
    assert nut - small == inches("1/4"), "bore and small end differ by 1/64 in on a taper of 1:16"


@given(st.sampled_from(SIZES), lengths, st.booleans(), st.booleans())
def test_the_chain_adds_up_for_every_end_and_size(
    size: Length, length: Length, nose: bool, coupling: bool
) -> None:
    hub = inches("2 1/2") if coupling else None
    made = chain(a_stack(size, length, nose=nose), coupling=hub, bearing=inches(2))
    assert the_chain_adds_up.found(made) == ()
    pieces = [piece.length.nm for piece in made.pieces]
    assert Length(sum(pieces)) == made.overall, "exactly, not about"
    past = the_end(size).nose.nm if nose else 0
    assert Length(sum(pieces) - past) == length
    assert (made.at(HUB_END) is not None) == coupling
    assert (made.at(TIP) is not None) == nose


@given(st.sampled_from(SIZES), lengths)
def test_stations_run_aft_and_each_piece_is_what_lies_between(size: Length, length: Length) -> None:
    made = chain(a_stack(size, length))
    places = [one.x for one in made.known if one.x is not None]
    assert places[0] == Length(0)
    between = [after - before for before, after in pairwise(places)]
    assert all(length > Length(0) for length in between)
    assert between == [piece.length for piece in made.pieces]


@pytest.mark.parametrize("size", ["20", "25", "30", "40", "50"])
def test_a_metric_end_is_not_invented(size: str) -> None:
    """ISO 4566: no row gives taper, thread length and nose together; the desk is to be rung."""
    stack = a_stack() | {"system": "mm", "nominal": mm(size).as_json(), "nose": "0.000000"}
    made = chain({**stack, "overall": stack["length"], "taper_length": None})
    unknown = {one.key: one.source for one in made.stations if one.x is None}
    assert unknown == dict.fromkeys(("large", "small", "nut"), NOT_KNOWN)
    assert the_chain_adds_up.found(made) == (), "what is known still adds up"


def test_a_shaft_right_through_begins_in_front_of_the_face() -> None:
    front = inches("3 15/16")
    overall = inches("49 5/16") + front
    made = chain(
        a_stack(layout="v_pass_through", front_length=front.mm_text, overall=overall.mm_text)
    )
    assert made.at(FRONT) == -front
    assert made.pieces[0].name == "front end"
    assert the_chain_adds_up.found(made) == ()


def test_what_is_from_memory_says_so() -> None:
    """G was seen at 1, 1-1/8 and 1-1/4 in only; the nose nowhere."""
    seen = {s.key: s.source for s in chain(a_stack(inches(1))).stations}
    recalled = {s.key: s.source for s in chain(a_stack(inches(2), inches(90))).stations}
    assert VERIFY not in seen["small"]
    assert VERIFY in recalled["small"]
    assert VERIFY in seen["tip"]


def test_the_stored_sheet_of_a_real_boat_adds_up() -> None:
    made = chain(stack_up(a_case()), bearing=inches(2))
    assert the_chain_adds_up.found(made) == ()
    assert x(made, "small") == "47 9/16"


def test_rows_that_are_no_single_length_are_none() -> None:
    rows = end_rows("mm", mm(25))
    assert rows.length("taper_length") is None, "53-55 is no length to cut by"
    assert rows.length("thread_length") == mm(25)
    assert rows.length("no such row") is None
