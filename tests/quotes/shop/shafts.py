"""A shaft on its way through the shop, for tests."""

from __future__ import annotations

from django.contrib.auth.models import User

from quotes.domain.shop_stages import Stage
from quotes.inspecting import services as inspecting
from quotes.inspecting.models import Inspection
from quotes.inspecting.selectors import newest
from quotes.models import Quote
from quotes.passport.selectors import passport_of
from quotes.passport.services import add_reading
from quotes.sending import services as sending
from quotes.shop import services as shop
from tests.quotes.given import an_accepted
from tests.staff.given import a_member

# A clean 49 in shaft as a machinist types it.
TRUE = {
    "length": "49",
    "small_end": ".828",
    "runout_coupling": "1 thou",
    "runout_bearing": "0.0015",
    "runout_taper": "0.002",
    "face": "0.001",
    "contact": "80 %",
    "tool": "caliper",
}


def a_made(by: User) -> Quote:
    """A clean accepted shaft, sawn and made."""
    quote = an_accepted(days_ago=0)
    shop.move_on(quote=quote, to=Stage.SAWN, by=by)
    shop.move_on(quote=quote, to=Stage.MADE, by=by)
    return quote


def inspected(quote: Quote, by: User, **typed: str) -> Inspection:
    """One more inspection of it."""
    last = newest(quote)
    seen = last.number if last else 0
    return inspecting.keep_inspection(quote=quote, typed={**TRUE, **typed}, seen=seen, by=by)


def a_packed(by: User, second: User) -> Quote:
    """The same, inspected, signed and packed."""
    quote = a_made(by)
    inspecting.sign(quote=quote, number=inspected(quote, by).number, by=second)
    shop.move_on(quote=quote, to=Stage.INSPECTED, by=by)
    shop.move_on(quote=quote, to=Stage.PACKED, by=by)
    return quote


def a_sent(by: User, second: User) -> Quote:
    """The same, gone."""
    quote = a_packed(by, second)
    sending.send(quote=quote, by=by, day="", carrier="Carrier of long parcels")
    return quote


def sent_with_words(quote: Quote, word: str) -> None:
    """An accepted shaft goes through the shop, and everybody writes this word where they can."""
    bronagh, second = a_member("bronagh", "machinist"), a_member("cadoc", "machinist")
    shop.move_on(quote=quote, to=Stage.SAWN, by=bronagh)
    shop.move_on(quote=quote, to=Stage.MADE, by=bronagh)
    shop.take_back(quote=quote, seen=Stage.MADE, by=bronagh, why=f"not {word}'s")
    shop.move_on(quote=quote, to=Stage.MADE, by=bronagh)
    number = inspected(quote, bronagh, contact="").number
    inspecting.sign(quote=quote, number=number, by=second)
    inspecting.release(quote=quote, number=number, by=a_member("percy", "manager"), why=word)
    shop.move_on(quote=quote, to=Stage.INSPECTED, by=bronagh)
    shop.move_on(quote=quote, to=Stage.PACKED, by=bronagh)
    sending.send(quote=quote, by=bronagh, day="", carrier=f"fetched by {word}", tracking=word)
    passport = passport_of(quote)
    assert passport
    add_reading(passport=passport, typed="1200", renewed=False)
