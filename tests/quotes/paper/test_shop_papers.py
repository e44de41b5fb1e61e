"""The papers that go with a shaft, read back: one page each, the same bytes, nothing on another."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal
from io import BytesIO
from typing import Any

import pdfplumber
import pytest

from catalog.domain.lengths import inches, mm
from quotes.domain.as_made import accepted
from quotes.domain.cut_facts import decimal_inches, hundredths_mm
from quotes.domain.order import Shaft
from quotes.domain.packing import Thing, lifting, pounds, ship_to
from quotes.domain.passport import as_made_drawing
from quotes.domain.stations import chain
from quotes.paper.fitting import fitting_pdf
from quotes.paper.packing import packing_pdf
from quotes.paper.tag import tag_pdf
from tests.quotes.paper.papers import texts
from tests.quotes.paper.shop_papers import the_fitting, the_packing, the_tag
from tests.quotes.paper.test_quote import tags_of
from tests.quotes.stacks import SIZES, a_stack, the_end

LONG: dict[str, Any] = {
    "boat": "W" * 60,
    "job": "W" * 40,
    "customer": "Maximiliana Featherstonehaugh-Cholmondeley of the Upper Reaches",
    "things": tuple(Thing(str(n), f"Thing {n} with a long description of it") for n in range(22)),
}
PAPERS: dict[str, Callable[[], bytes]] = {
    "packing": lambda: packing_pdf(the_packing()),
    "packing long": lambda: packing_pdf(replace(the_packing(), **LONG)),
    "packing letter": lambda: packing_pdf(replace(the_packing(), **LONG), "letter"),
    "fitting": lambda: fitting_pdf(the_fitting()),
    "fitting letter": lambda: fitting_pdf(the_fitting(boat="W" * 60), "letter"),
    "tag": lambda: tag_pdf(the_tag()),
    "tag long": lambda: tag_pdf(the_tag(boat="Queen of the Upper Otter Reaches, starboard shaft")),
}
each_paper = pytest.mark.parametrize("paper", PAPERS)


@each_paper
def test_one_page_inside_its_edges_and_no_word_on_another(paper: str) -> None:
    with pdfplumber.open(BytesIO(PAPERS[paper]())) as pdf:
        (page,) = pdf.pages
        signs = [sign for sign in page.chars if sign["text"].strip()]
        least = 2 if paper.startswith("tag") else 30
        assert all(s["x0"] >= least and s["x1"] <= page.width - least + 1 for s in signs)
        assert all(s["top"] >= 0 and s["bottom"] <= page.height - 2 for s in signs)
        assert min(s["size"] for s in signs) >= 4.6
    signs.sort(key=lambda sign: sign["top"])
    for at, one in enumerate(signs):
        for other in signs[at + 1 :]:
            if other["top"] > one["bottom"]:
                break
            wide = min(one["x1"], other["x1"]) - max(one["x0"], other["x0"])
            high = min(one["bottom"], other["bottom"]) - max(one["top"], other["top"])
            assert wide < 0.5 or high < 0.35 * one["size"], (one["text"], other["text"])


@each_paper
def test_the_same_facts_make_the_same_bytes(paper: str) -> None:
    assert PAPERS[paper]() == PAPERS[paper]()


@each_paper
def test_it_is_tagged_with_one_first_heading(paper: str) -> None:
    assert tags_of(PAPERS[paper]()).count("H1") == 1


# --- The packing list ---------------------------------------------------------------------


def test_the_list_names_tube_weight_handling_and_what_is_in_it() -> None:
    said = texts(packing_pdf(the_packing()))[0]
    for words in (
        "53 in · 1346.2 mm",  # 49 in and 4 in (common practice)
        "10.8 lb (4.9 kg), the shaft alone",
        "a yard, 07015, Spain",
        "Shaft, 1 in · 25.4 mm, UNS S20910, 49 in · 1244.6 mm face to thread end",
        "Propeller nut + jam nut 3/4-10",
        "Keys 1/4",
        "Both ends capped; threads under their own cap",
        "Held at two points",
        "Fitting card",
        "Packed by, name and date",
    ):
        assert words in said


def test_no_price_no_work_and_no_phone_is_on_it() -> None:
    said = texts(packing_pdf(the_packing()))[0]
    for secret in ("180.00", "3.60", "Straighten and certify", "Fit coupling and face", "202 555"):
        assert secret not in said


def test_the_customers_own_coupling_comes_back_by_name() -> None:
    coming = {"reuse_coupling": {"reuse": True, "sending": True}}
    said = texts(packing_pdf(the_packing(**coming)))[0]
    assert "Your own coupling, back, fitted and faced on the shaft" in said


def test_the_weight_is_the_alloys_density_by_the_true_volume() -> None:
    """0.2238 D² L lb for plain stainless bar (0.285 lb/in³, arithmetic); less with a taper.

    The cone by the textbook: pi h (R² + R r + r²) / 3.
    """
    end = the_end(inches(1))
    made = chain(a_stack())
    shaft = a_shaft()
    cone = math.pi * 2.75 / 3 * (0.5**2 + 0.5 * 0.414 + 0.414**2)
    bar, thread = math.pi / 4 * 44.8125, math.pi / 4 * 0.75**2 * (1.4375 + 0.3125)
    wanted = 0.285 * (bar + cone + thread)
    assert float(pounds(shaft, made, end.small_end)) == pytest.approx(wanted, rel=1e-6)
    assert wanted < 0.2238 * 49.3125
    unknown = chain(a_stack(system="mm", nominal={"mm": "40"}))
    assert float(pounds(shaft, unknown, None)) == pytest.approx(0.2238 * 49.3125, rel=1e-3)


def a_shaft(diameter: str = "1") -> Shaft:
    return Shaft("inch", inches(diameter), "S20910", "conventional", inches(49),
                 inches("49 5/16"), "straight", "3/4-10", "1/4")  # fmt: skip


@pytest.mark.parametrize(
    ("weight", "words"),
    [("50", "an eye on both ends"), ("50.1", "two people"), ("70", "two people"),
     ("70.1", "pallet")],
)  # fmt: skip
def test_over_fifty_pounds_a_second_person_over_seventy_a_pallet(weight: str, words: str) -> None:
    assert words in lifting(Decimal(weight))


def test_where_it_goes_is_said_as_told_or_left_to_the_desk() -> None:
    assert ship_to({"answers": {"ship_to": {"kind": "depot"}}}) == "a depot, to be collected"
    assert ship_to({}) == ship_to({"answers": {"ship_to": "x"}}) == ""
    said = texts(packing_pdf(replace(the_packing(), ship_to="")))[0]
    assert "not told: the desk writes it here" in said


# --- The fitting card and the tag ---------------------------------------------------------


def test_the_card_names_gap_alignment_torque_by_the_yard_and_the_cautions() -> None:
    said = texts(fitting_pdf(the_fitting()))[0]
    for words in (
        "we expect 3/4 in · 19.1 mm, give or take 1/8 in · 3.2 mm",
        "Fair is from 1/2 in · 12.7 mm to 1 in · 25.4 mm",
        # 0.001 in for each inch of the flange (common practice)
        "0.004 in (0.102 mm) on your flange of 4 in",
        "US Army TM 55-1905-220-14-11",
        "Propeller nut",
        "Coupling bolts",
        "never under her on a jack",
        "An open log".lower(),
        "couplings and propellers leave a taper with a jump",
        "We do not certify strength or whip",
        "class, flag and local rules decide",
        "drips a few drops a minute",
    ):
        assert words in said, words


def test_the_tag_is_a_label_of_sixty_by_thirty_with_nothing_personal() -> None:
    pdf = tag_pdf(the_tag())
    with pdfplumber.open(BytesIO(pdf)) as paper:
        page = paper.pages[0]
        assert (round(page.width / 72 * 25.4), round(page.height / 72 * 25.4)) == (60, 30)
        assert page.images == [], "all in lines"
        code = [rect for rect in page.curves + page.rects if rect["x1"] < 28 / 25.4 * 72 + 3]
        assert code
    said = texts(pdf)[0]
    for words in ("Biscuit Barrel", "49 in", "UNS S20910", "H-4471", "Q-2026-000123"):
        assert words in said
    for secret in ("Tarpley", "202 555", "180.00"):
        assert secret not in said


def test_a_tag_is_read_to_the_end_also_where_the_numbers_are_long() -> None:
    long = the_tag(length="≈148 63/64 in · 3784.2 mm", alloy="1 1/8 in · 28.6 mm, EN 1.4462 (2205)")
    said = texts(tag_pdf(long))[0]
    for words in ("3784.2 mm", "28.6 mm", "1.4462 (2205)", "Q-2026-000123"):
        assert words in said
    assert "…" not in said


# --- The drawing behind the tag -----------------------------------------------------------


@pytest.mark.parametrize("diameter", SIZES[:3])
def test_the_drawing_as_made_adds_up_to_what_was_made(diameter: Any) -> None:
    stack, made = a_stack(diameter), inches("49 1/32")
    wanted = accepted(stack)
    shaft = replace(a_shaft(), diameter=diameter, overall=wanted.overall)
    drawing = as_made_drawing(stack, shaft, made, None)
    words = [shape.text for shape in drawing.shapes if hasattr(shape, "text")]
    assert decimal_inches(made) in words
    assert hundredths_mm(made) in words
    past = wanted.overall - wanted.length
    assert decimal_inches(made + past) in words
    assert any("as made" in word for word in words)
    assert not any("1/32 in" in word for word in words)
    assert str(mm("1120.775")) not in words, "where her strut stands is the boat's own matter"
