"""What a quote's paper says, in the language of the moment; typed words stay as typed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from intake.said import said, with_local_numbers
from quotes.domain.facts import (
    AlloyFact,
    LineFact,
    Measured,
    OptionFact,
    QuoteFacts,
    ShaftFacts,
)

_SHAFTS = ("single shaft", "port shaft", "starboard shaft", "centre shaft")


def said_facts(facts: QuoteFacts) -> QuoteFacts:
    """The same facts; names, the order's own word and typed numbers are left alone."""
    return replace(
        facts,
        role=said(facts.role),
        boat=said_boat(facts.boat),
        measured_by=said(facts.measured_by),
        drawing=with_local_numbers(facts.drawing) if facts.drawing else None,
        gap_drawing=with_local_numbers(facts.gap_drawing) if facts.gap_drawing else None,
        shaft=_shaft(facts.shaft) if facts.shaft else None,
        notes=_all(facts.notes),
        readings=tuple(_reading(one) for one in facts.readings),
        lines=tuple(_line(one) for one in facts.lines),
        sums=tuple((said(label), said(amount)) for label, amount in facts.sums),
        total=said(facts.total),
        lead=_all(facts.lead),
        offers=said(facts.offers),
        terms=_all(facts.terms),
        confirm=_all(facts.confirm),
        cautions=_all(facts.cautions),
        limits=said(facts.limits),
        photos=tuple(replace(one, about=said(one.about)) for one in facts.photos),
        alloys=tuple(_alloy(one) for one in facts.alloys),
        alloy_notes=_all(facts.alloy_notes),
        options=tuple(_option(one) for one in facts.options),
        money_terms=_all(facts.money_terms),
        delivery=_all(facts.delivery),
        needed=_all(facts.needed),
        scale=said(facts.scale),
    )


def _all(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(said(text) for text in texts)


def said_boat(text: str) -> str:
    """A boat's own name as it is, and which of her shafts in the language of the moment."""
    name, comma, shaft = text.rpartition(", ")
    return f"{name}{comma}{said(shaft)}" if shaft in _SHAFTS else text


def _shaft(shaft: ShaftFacts) -> ShaftFacts:
    return ShaftFacts(
        length=said(shaft.length),
        rows=tuple((said(label), said(value)) for label, value in shaft.rows),
        gap=_all(shaft.gap),
        rounding=said(shaft.rounding),
    )


def _reading(one: Measured) -> Measured:
    return Measured(said(one.label), said(one.typed), said(one.both), said(one.how), said(one.mark))


def _line(one: LineFact) -> LineFact:
    return LineFact(*(said(getattr(one, name)) for name in LineFact.__slots__))


_ALLOY_WORDS = ("metal", "total", "difference", "words", "crevice", "margin", "stock", "caution",
                "barred")  # fmt: skip
_OPTION_WORDS = ("text", "why", "how", "amount")


def _alloy(one: AlloyFact) -> AlloyFact:
    told: dict[str, Any] = {name: said(getattr(one, name)) for name in _ALLOY_WORDS}
    return replace(one, **told)


def _option(one: OptionFact) -> OptionFact:
    told: dict[str, Any] = {name: said(getattr(one, name)) for name in _OPTION_WORDS}
    return replace(one, **told)
