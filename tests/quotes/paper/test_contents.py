"""What a quote must hold, point by point: the desk's own list (docs of the trade, section 6.1)."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pdfplumber
import pypdfium2 as pdfium
import pytest

from quotes.paper.answer import _dark_runs
from quotes.paper.quote import quote_pdf
from tests.quotes.paper.besides import ADDRESS, METALS, OPTIONS, full_facts, full_paper
from tests.quotes.paper.papers import elements, read_out, the_facts


@pytest.fixture(scope="module")
def told() -> str:
    return read_out(full_paper())


@pytest.fixture(scope="module")
def tree() -> list[Any]:
    return elements(full_paper())


def says(told: str, *words: str) -> None:
    assert [word for word in words if word not in told] == []


def test_1_number_version_dates_who_measured_and_their_photos(told: str, tree: list[Any]) -> None:
    says(told, "Quote Q-2026-000123", "Version 2", "25 November 2026",
         "valid until 25 December 2026", "By the owner, on our form, tape in inches")  # fmt: skip
    pictures = [e["alt_text"] for e in tree if e["type"] == "Figure"]
    assert [alt for alt in pictures if alt.startswith("Photo of the customer")] == [
        "Photo of the customer: Gap as it is now",
        "Photo of the customer: Propeller hub",
        "Photo of the customer: Flange face to strut, aft end",
        "Photo of the customer: Photo",
    ]


def test_2_boat_side_and_the_customers_order(told: str) -> None:
    says(told, "Biscuit Barrel, single shaft", "Your order PO 4711/26", "FG-7K2M9P")


def test_3_every_number_has_its_unit_and_its_mark(told: str) -> None:
    with pdfplumber.open(BytesIO(full_paper())) as paper:
        drawn = paper.pages[0].crop((0, 100, 595, 360)).extract_text()
    says(drawn, "datum", "inches · M measured · C computed")
    says(told, "to one scale", "44 1/8 in 44 1/8 in · 1120.8 mm rod through the log measured")
    for reading in full_facts().readings:
        assert reading.mark in ("measured", "computed", "assumed", "not measured")
        if reading.typed != "—":
            assert reading.typed.split()[-1] in ("in", "mm")
            assert reading.typed.split()[0] in told


def test_4_the_shaft_line(told: str) -> None:
    says(told, "Length, coupling face to end of threads", "49 in · 1244.6 mm", "Diameter 1 in",
         "UNS S20910", "Overall, tip to tip 49 5/16 in", "Propeller end SAE J755: taper 1:16",
         "Coupling end straight", "Nut thread 3/4-10", "Keys 1/4 in, two",
         "Straightness 0.002 in per foot")  # fmt: skip


def test_5_parts_are_lines_and_options_stand_apart_with_their_price(told: str) -> None:
    says(told, "Half coupling 4 in", "118.00", "Strut bearing 1 ID", "Keys 1/4, two", *OPTIONS)
    says(told, "65.00", "ask us", "18.00", "(2 × 9.00)", "15.00", "Chosen: it is in the price")


def test_5_there_is_a_box_for_each_option_that_has_a_price_and_one_is_ticked() -> None:
    with pdfplumber.open(BytesIO(full_paper())) as paper:
        page = next(p for p in paper.pages if "If you wish, besides" in p.extract_text())
        first, last = (page.search(text)[0]["top"] for text in ("besides", "Nothing here is"))
        boxes = [r for r in page.rects if r["x0"] < 43 and r["stroke"] and r["width"] < 9]
        by_line = [box for box in boxes if first < box["top"] < last]
        assert len(by_line) == sum(one.tickable for one in full_facts().options)
        assert page.extract_text().count("✓") == 1


def test_6_the_gap_and_how_sure_it_is(told: str) -> None:
    says(told, "With your measurements we expect a gap of 3/4 in, between 11/16 and 13/16 in "
         "nineteen times in twenty")  # fmt: skip


def test_7_metals_side_by_side_with_margin_price_and_warning(told: str) -> None:
    says(told, *(one.name for one in METALS), "643.57", "53.50 less", "to come", "3.2 times")
    says(told, "poor if idle", "to be ordered, about 25 working days", "is in this quote")
    says(told, "Too weak for this engine", "not engineered by us", "verify per bar certificate")
    with pdfplumber.open(BytesIO(full_paper())) as paper:
        page = next(p for p in paper.pages if "Which metal" in p.extract_text())
        cell = page.search("Crevice corrosion")[0]
        name = page.search("UNS S31600")[0]
    assert abs(cell["x0"] - name["x0"]) < 1  # the warning stands in its own metal's column


def test_8_between_which_days_and_accept_by_when(told: str) -> None:
    says(told, "Leaves us between 8 and 12 December 2026, if you accept by 1 December 2026.")
    says(told, "You need her running by 20 December 2026.", "lift is booked for 18 December")
    says(told, "To hold this price, accept by 25 December 2026.")


def test_9_tax_freight_and_who_receives_it(told: str) -> None:
    """49 in of 1 in S20910: pi/4 x 49 5/16 x 0.285 is 11.04 lb; the tube is 4 in longer."""
    says(told, "Tax 7 % on goods and work", "duties on arrival are the receiver's to pay")
    says(told, "Freight, tube 53 in (48–72 in class)", "a tube 53 in · 1346.2 mm long")
    says(told, "about 11.0 lb, 5.0 kg", "Somebody must be there", "It goes to a yard.")
    says(told, "To: 07015, Spain")


def test_10_terms_with_the_deposit_of_this_quote(told: str) -> None:
    says(told, "cannot be returned", "If our numbers were wrong, we make it again at our cost.")
    says(told, "we shorten at cost, or make it again for material and freight")
    says(told, "An order over 500 needs a deposit of 50 %. For this quote: 348.54 before we cut.")


def test_11_cautions(told: str) -> None:
    says(told, "alignment with the boat afloat", "after a strike, sight the strut", "Crevice")
    says(told, "Stainless pits where water stands", "not engineered by us", "local rules decide")


def test_12_what_was_taken_for_granted_has_a_box_each(told: str) -> None:
    says(told, "machined face of the gearbox flange", "coupling bolted up", "plain nose past them",
         "Nothing sits between the two flanges", "hub is the one that will be fitted",
         "Nothing on the drive line has changed", "this is her only shaft",
         "hand of rotation", "Name and date", "Signature, or the code word")  # fmt: skip
    assert len(full_facts().confirm) == 9


def test_12_the_square_code_is_the_address_that_stands_beside_it(told: str) -> None:
    before, _slash, key = ADDRESS.rpartition("/")
    says(told, f"{before}/", key)
    assert ADDRESS in str(pdfplumber.open(BytesIO(full_paper())).hyperlinks)
    assert _modules_on_paper() == _modules_of(ADDRESS)


def _modules_of(text: str) -> list[list[bool]]:
    size, runs = _dark_runs(text)
    rows = [[False] * size for _ in range(size)]
    for row, first, count in runs:
        rows[row][first : first + count] = [True] * count
    return rows


def _modules_on_paper() -> list[list[bool]]:
    """The code as it is printed, read back from a picture of the page."""
    size, _runs = _dark_runs(ADDRESS)
    page, box = _code_box()
    scale = 4.0
    image = pdfium.PdfDocument(full_paper())[page].render(scale=scale).to_pil().convert("L")
    module = (box[2] - box[0]) / (size + 8)
    dark = []
    for row in range(size):
        y = box[1] + (row + 4.5) * module
        places = [(box[0] + (column + 4.5) * module, y) for column in range(size)]
        dark.append([image.getpixel((int(x * scale), int(y * scale))) < 128 for x, y in places])
    return dark


def _code_box() -> tuple[int, tuple[float, float, float, float]]:
    for element in elements(full_paper()):
        if element["type"] == "Figure" and element["alt_text"].startswith("Square code"):
            left, low, right, high = element["attributes"]["BBox"]
            return element["page_number"] - 1, (left, 841.89 - high, right, 841.89 - low)
    raise AssertionError("no square code")


def test_12_without_an_address_there_is_no_code_and_still_a_line_to_sign() -> None:
    pdf = quote_pdf(the_facts())
    assert not [e for e in elements(pdf) if "Square code" in (e.get("alt_text") or "")]
    assert "Name and date" in read_out(pdf)
