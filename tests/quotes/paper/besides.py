"""A quote with everything: metals, options, photos, days, a status page. All invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from functools import cache
from io import BytesIO
from typing import Any

from PIL import Image

from quotes.domain.alloys import CREVICE, AlloyColumn
from quotes.domain.besides import Besides
from quotes.domain.facts import PhotoFact, QuoteFacts
from quotes.domain.lead import LeadRange
from quotes.domain.options import OPTION, Offer
from quotes.paper.quote import quote_pdf
from tests.quotes.paper.papers import the_facts

ADDRESS = "https://desk.example.org/s/AbCdEfGhIjKlMnOpQrStUv"
ANSWERS: dict[str, Any] = {
    "ship_to": {"country": "Spain", "postcode": "07015", "kind": "yard"},
    "needed_by": {"run": "2026-12-20", "lift": "2026-12-18"},
}
_S20910 = AlloyColumn(
    alloy="S20910", name="UNS S20910", metal="nitrogen-strengthened stainless",
    words="What we send where nothing else is asked for.", crevice="good", caution="",
    total=Decimal("697.07"), difference=Decimal(0), margin="3.2 times, wanted 3",
    safety=Decimal("3.2"), wanted=Decimal(3), in_stock=True, stock="in stock", chosen=True,
    choosable=True, by_staff=True, barred="", sure="Usual minima: verify per bar certificate.",
)  # fmt: skip
METALS = (
    _S20910,
    replace(
        _S20910,
        alloy="S31600",
        name="UNS S31600",
        words="Cheap; fine in fresh water.",
        crevice="poor if idle",
        caution=CREVICE,
        total=Decimal("643.57"),
        difference=Decimal("-53.50"),
        margin="0.9 times, wanted 3",
        chosen=False,
        choosable=False,
        barred="Too weak for this engine: ring us.",
    ),
    replace(
        _S20910,
        alloy="N05500",
        name="UNS N05500",
        words="Work and passenger craft.",
        crevice="very good in moving water",
        total=None,
        difference=None,
        stock="to be ordered, about 25 working days",
        in_stock=False,
        chosen=False,
    ),
)
OFFERS = (
    Offer("fit-face", OPTION, "Fit and face your own coupling", "Yours is old.", "", Decimal(65)),
    Offer("pair", OPTION, "Pair-matched heat, two shafts from one bar", "", "", None),
    Offer("nuts", OPTION, "Spare nut set", "For the thread 3/4-10.", "2 × 9.00", Decimal(18)),
    Offer("bearing", OPTION, "Second bearing", "Count them.", "", Decimal(38)),
    Offer("rush", OPTION, "Rush", "Before its turn.", "25 % of 225.20", Decimal("56.30"), True),
    Offer("paper", OPTION, "Certificate of the bar", "The mill's paper.", "", Decimal(15)),
)
OPTIONS = [one.text for one in OFFERS]


@cache
def a_photo(wide: int = 320, high: int = 240) -> bytes:
    out = BytesIO()
    Image.new("RGB", (wide, high), "#557799").save(out, "JPEG", quality=80)
    return out.getvalue()


def say_day(day: date) -> str:
    return f"{day.day} {day:%B %Y}"


def everything(**changes: Any) -> Besides:
    about = ("Gap as it is now", "Propeller hub", "Flange face to strut, aft end", "")
    given: dict[str, Any] = {
        "address": ADDRESS,
        "alloys": METALS,
        "offers": OFFERS,
        "photos": tuple(PhotoFact(a_photo(), one) for one in about),
        "leaves": LeadRange(date(2026, 12, 8), date(2026, 12, 12), date(2026, 12, 1)),
        "say_day": say_day,
    }
    return Besides(**{**given, **changes})


@cache
def full_facts() -> QuoteFacts:
    return the_facts(everything(), top={"job": "PO 4711/26"}, **ANSWERS)


@cache
def full_paper() -> bytes:
    return quote_pdf(full_facts())
