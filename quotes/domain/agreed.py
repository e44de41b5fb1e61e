"""What an acceptance rests on: each fact by its name, to be set beside those of a newer sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind
from quotes.domain.order import Order, Shaft, alloy_words
from quotes.domain.stations import Chain
from quotes.domain.tax import NOWHERE, Place, plain_place
from quotes.domain.texts import LABELS

NOT_TOLD = "not told"


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that was agreed. ``exact`` is compared, ``words`` are read."""

    key: str
    name: str
    exact: str
    words: str


@dataclass(frozen=True, slots=True)
class Agreed:
    """Everything that was agreed, in the order in which it is read."""

    facts: tuple[Fact, ...]

    def of(self, key: str) -> Fact | None:
        """One of the facts, or None."""
        return next((one for one in self.facts if one.key == key), None)


def agreed(
    order: Order,
    made: Chain | None,
    station: str,
    confirmed: Mapping[str, str],
    place: Place = NOWHERE,
    readings: Mapping[str, Length] | None = None,
    total: Decimal | None = None,
) -> Agreed:
    """The facts of one order.

    ``station``: the boat's side; ``confirmed``: what is to be ticked, by short name; ``place``:
    freight and tax go by it; ``readings``: what was measured, by the answers' slugs, as printed;
    ``total``: left out where prices are not compared. The code of the bar is not among them: which
    bar of the same metal and size is sawn changes nothing for the customer.
    """
    facts = [
        *_shaft(order.shaft),
        *_stations(made),
        *_parts(order),
        *_words(station, confirmed, place),
    ]
    facts += [
        _length(f"reading.{slug}", LABELS.get(slug, slug), length)
        for slug, length in (readings or {}).items()
    ]
    if total is not None:
        facts.append(Fact("total", "The total", str(total), str(total)))
    return Agreed(tuple(facts))


def _shaft(shaft: Shaft | None) -> Iterator[Fact]:
    if shaft is None:
        return
    yield _length("length", "Face to thread end", shaft.length)
    yield _length("overall", "The overall length", shaft.overall)
    yield _length("diameter", "The diameter", shaft.diameter)
    alloy = alloy_words(shaft.alloy)
    yield Fact("alloy", "The alloy", alloy, alloy)
    for key, name, text in (
        ("layout", "The layout", shaft.layout),
        ("forward_end", "The forward end", shaft.forward_end),
        ("thread", "The thread", shaft.thread),
        ("key", "The key", shaft.key),
    ):
        yield Fact(key, name, text, text or NOT_TOLD)


def _stations(made: Chain | None) -> Iterator[Fact]:
    for one in made.known if made else ():
        if one.x is not None:
            yield _length(f"station.{one.key}", one.name, one.x)


def _parts(order: Order) -> Iterator[Fact]:
    wants = ", ".join(sorted(order.wants))
    yield Fact("wants", "What is ordered", wants, wants or NOT_TOLD)
    parts = sorted(
        f"{part.quantity} × {part.code}" for part in order.parts if part.kind != Kind.BAR
    )
    yield Fact("parts", "The list of parts", ", ".join(parts), ", ".join(parts) or "none")
    bearings = str(order.bearing_count)
    yield Fact("bearings", "The number of bearings", bearings, bearings)
    comes = "sent in by the customer" if order.coupling_comes else "from the desk"
    yield Fact("coupling", "The coupling", comes, comes)
    options = ", ".join(sorted(order.choice.options))
    yield Fact("options", "The options", options, options or "none")


def _words(station: str, confirmed: Mapping[str, str], place: Place) -> Iterator[Fact]:
    yield Fact("side", "The side", station, station or NOT_TOLD)
    ticks = ", ".join(sorted(confirmed))
    yield Fact("confirmed", "What is to be confirmed", ticks, ticks)
    told = plain_place(f"{place.country} {place.postcode}")
    words = f"{place.postcode} {place.country}".strip()
    yield Fact("place", "The place it goes to", told, words or NOT_TOLD)


def _length(key: str, name: str, length: Length) -> Fact:
    return Fact(key, name, str(length.nm), length.both())
