"""A shaft's tag and its address."""

from __future__ import annotations

from django.conf import settings
from django.urls import reverse

from intake.domain.reading import read_sheet
from quotes.domain.order import alloy_words
from quotes.domain.paper_facts import boat_words
from quotes.domain.tag import TagFacts
from quotes.domain.words import both
from quotes.inspecting.selectors import finished_length
from quotes.making import order_of
from quotes.passport.models import Passport
from quotes.selectors import rates
from quotes.stock.selectors import held_for


def address_of(passport: Passport) -> str:
    """The whole address behind a tag."""
    return f"{str(settings.SITE_URL).rstrip('/')}{reverse('passport', args=[passport.token])}"


def tag_facts(passport: Passport) -> TagFacts:
    """What the tag says. Raises ValueError where no shaft is ordered."""
    quote = passport.quote
    shaft, held = order_of(quote).shaft, held_for(quote)
    if shaft is None:
        raise ValueError("no shaft is ordered")
    return TagFacts(
        shop=rates().name,
        number=quote.number,
        boat=boat_words(read_sheet(quote.sheet.body)),
        length=both(finished_length(quote) or shaft.length, shaft.system),
        alloy=f"{both(shaft.diameter, shaft.system)}, {alloy_words(shaft.alloy)}",
        heat=held.heat if held else "",
        address=address_of(passport),
    )


def tag(passport: Passport) -> bytes:
    """The label itself."""
    from quotes.paper.tag import tag_pdf  # here: a start needs no printer

    return tag_pdf(tag_facts(passport))
