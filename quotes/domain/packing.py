"""What goes into a shaft's tube or a parcel of parts, how heavy it is, how it is handled. Pure."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from catalog.domain.lengths import NM_PER_INCH, Length, inches
from catalog.domain.materials import material
from catalog.domain.units import pounds_to_kg
from quotes.domain.freight import tube_for
from quotes.domain.order import Order, Shaft, alloy_words
from quotes.domain.rates import Rates
from quotes.domain.stations import LARGE, SMALL, THREAD, TIP, Chain
from quotes.domain.words import both

# Common practice, no source: from here a second person lifts, and a pallet carries.
SECOND_PERSON_LB, PALLET_LB = Decimal(50), Decimal(70)
# Where a table has no row for the alloy: stainless bar, the same figure as S20910.
_STAINLESS = Decimal("0.285")
_PI = Decimal("3.14159265358979323846264338")
# Rows of a price that are work or a tube, not things that go into it.
_NO_THINGS = ("SV-", "RUSH", "FREIGHT", "TAX", "OPTION")
_BAR = "Bar, "


_PLACES = {"home": "a home", "yard": "a yard", "depot": "a depot, to be collected"}


@dataclass(frozen=True, slots=True)
class Thing:
    """One thing in the parcel."""

    quantity: str
    text: str


@dataclass(frozen=True, slots=True)
class PackingFacts:
    """Everything on the packing list; the same facts make the same bytes.

    A parcel of parts alone has no ``tube``, and no ``length`` of a shaft: both are "".
    """

    shop: str
    number: str
    version: int
    reference: str
    boat: str
    job: str
    customer: str
    ship_to: str
    tube: str
    length: str
    weight: str
    lifting: str
    things: tuple[Thing, ...]
    handling: tuple[str, ...]
    cautions: tuple[str, ...]


def ship_to(body: Mapping[str, Any]) -> str:
    """Where it goes, as far as the customer told: the kind of place, post code, country."""
    told = (body.get("answers") or {}).get("ship_to")
    if not isinstance(told, Mapping):
        return ""
    kind = _PLACES.get(str(told.get("kind") or ""), "")
    rest = (str(told.get(part) or "").strip() for part in ("postcode", "country"))
    return ", ".join(filter(None, [kind, *rest]))


def tube_length(shaft: Shaft, rates: Rates) -> Length:
    """How long the tube is: the length that freight was charged by and the shop's allowance."""
    return tube_for(shaft.tube_by, rates)


def pounds(shaft: Shaft, made: Chain, small: Length | None) -> Decimal:
    """What the finished shaft weighs: the alloy's density by its true volume.

    Cylinder, frustum of the taper, thread and nose; keyways are not taken off. Where the propeller
    end is not known the whole bar counts, which is never too light.
    """
    found = material(shaft.alloy)
    density = found.density_lb_in3 if found else _STAINLESS
    return density * sum(_volumes(shaft, made, small), Decimal(0))


def _volumes(shaft: Shaft, made: Chain, small: Length | None) -> Iterator[Decimal]:
    """Cubic inches, piece by piece from the front."""
    front = _inch(shaft.sent_overall) - _inch(made.at(TIP) or made.length)
    wide, large, end = _inch(shaft.diameter), made.at(LARGE), made.at(SMALL)
    if large is None or end is None or small is None:
        yield _frustum(wide, wide, _inch(shaft.sent_overall))
        return
    narrow, major = _inch(small), _major(shaft.thread) or _inch(small)
    yield _frustum(wide, wide, front + _inch(large))
    yield _frustum(wide, narrow, _inch(end - large))
    yield _frustum(major, major, _inch(made.length - end))
    tip = made.at(TIP)
    if tip is not None:
        yield _frustum(major, major, _inch(tip - (made.at(THREAD) or made.length)))


def _frustum(first: Decimal, last: Decimal, high: Decimal) -> Decimal:
    return _PI / 12 * high * (first * first + first * last + last * last)


def _inch(length: Length) -> Decimal:
    return Decimal(length.nm) / NM_PER_INCH


def _major(thread: str) -> Decimal | None:
    """The outside of a thread written in inches: ``3/4-10``."""
    try:
        return _inch(inches(thread.split()[0].rpartition("-")[0].replace("-", " ")))
    except (ValueError, IndexError):
        return None


def weight_words(weight: Decimal) -> str:
    """Pounds and kilograms to one place.

    >>> weight_words(Decimal("10.62"))
    '10.6 lb (4.8 kg)'
    """
    return f"{_tenth(weight)} lb ({_tenth(pounds_to_kg(weight))} kg)"


def _tenth(amount: Decimal) -> Decimal:
    return amount.quantize(Decimal("0.1"), ROUND_HALF_UP)


def lifting(weight: Decimal) -> str:
    """Who or what carries it, by its weight (common practice)."""
    if weight > PALLET_LB:
        return f"Over {PALLET_LB} lb (32 kg): on a pallet. Nobody lifts it by hand alone."
    if weight > SECOND_PERSON_LB:
        return f"Over {SECOND_PERSON_LB} lb (23 kg): two people lift it, one at each end."
    return "A long bar all the same: carried level, an eye on both ends."


def left_long_words(shaft: Shaft) -> str:
    """What to say of a shaft that is left long, after its length; "" where it is not."""
    if not shaft.left_long:
        return ""
    left, to = (both(one, shaft.system) for one in (shaft.left_long, shaft.length))
    return f", left long by {left}: the yard faces it to {to}"


def things(order: Order, lines: Sequence[Mapping[str, Any]], length: str) -> tuple[Thing, ...]:
    """What goes into the tube: the shaft, then everything sold that is a thing."""
    return tuple(_things(order, lines, length))


def _things(order: Order, lines: Sequence[Mapping[str, Any]], length: str) -> Iterator[Thing]:
    shaft = order.shaft
    if shaft is not None:
        size = both(shaft.diameter, shaft.system)
        yield Thing("1", f"Shaft, {size}, {alloy_words(shaft.alloy)}, {length} face to thread end")
    if order.coupling_comes:
        done = ", fitted and faced on the shaft" if shaft is not None else ""
        yield Thing("1", f"Your own coupling, back{done}")
    for line in lines:
        code, text = str(line.get("code") or ""), str(line.get("text") or "")
        if not code.startswith(_NO_THINGS) and not text.startswith(_BAR):
            # Its count stands in front: "2 Keys 1/4, two" would be four keys.
            yield Thing(str(line.get("quantity") or "1"), text.removesuffix(", two"))
    if shaft is not None:
        yield Thing("1", "Fitting card: read it before the shaft goes in")


# Common practice, no source.
HANDLING = (
    "Both ends capped; threads under their own cap, taped.",
    "Coupling bolted on or boxed apart: nothing loose runs against the taper.",
    "Held at two points a fifth of the length from each end; it must not rest on its middle.",
    "Keys and nuts in a bag, the bag tied to the shaft, not thrown into the tube.",
    "Bearing in its own wrap: no oil and no solvent on the rubber.",
    "Tag on; tube closed with caps and screws; label at both ends, the way up marked.",
)
PARCEL_HANDLING = (
    "Each part wrapped by itself: nothing bare lies against a machined face or a thread.",
    "Coupling: face and bore covered, its bolts and key in a bag with it.",
    "Bearing in its own wrap: no oil and no solvent on the rubber.",
    "Filled out, so that nothing moves; label outside, this list inside.",
)
CAUTIONS = (
    "Keyways and threads cut: gloves, and eyes covered while the tube is opened.",
    "Stand the tube against nothing: it rolls and falls.",
    "Laid flat over its whole length, nothing upon it; a bent tube is signed for as damaged.",
)
PARCEL_CAUTIONS = (
    "Keyways and threads are cut: gloves while they are wrapped.",
    f"Over {SECOND_PERSON_LB} lb (23 kg) two people lift it.",
)


@dataclass(frozen=True, slots=True)
class PackingRow:
    """The accepted quote as plain values. ``length``: as made, or as accepted, in words."""

    shop: str
    number: str
    version: int
    reference: str
    boat: str
    job: str
    customer: str
    ship_to: str
    lines: Sequence[Mapping[str, Any]]


def packing_facts(
    row: PackingRow, order: Order, made: Chain, small: Length | None, rates: Rates, length: Length
) -> PackingFacts:
    """Everything the list says. Raises ValueError where no shaft is ordered."""
    shaft = order.shaft
    if shaft is None:
        raise ValueError("no shaft is ordered")
    weight = pounds(shaft, made, small)
    said = both(length, shaft.system)
    left = left_long_words(shaft)
    return PackingFacts(
        shop=row.shop,
        number=row.number,
        version=row.version,
        reference=row.reference,
        boat=row.boat,
        job=row.job,
        customer=row.customer,
        ship_to=row.ship_to,
        tube=both(tube_length(shaft, rates), shaft.system),
        length=said,
        weight=f"{weight_words(weight)}, the shaft alone",
        lifting=lifting(weight),
        things=things(order, row.lines, f"{said}{left}"),
        handling=HANDLING,
        cautions=CAUTIONS,
    )


def parcel_facts(row: PackingRow, order: Order) -> PackingFacts:
    """The same for an order without a shaft: nobody can work its weight out, so it is weighed."""
    return PackingFacts(
        shop=row.shop,
        number=row.number,
        version=row.version,
        reference=row.reference,
        boat=row.boat,
        job=row.job,
        customer=row.customer,
        ship_to=row.ship_to,
        tube="",
        length="",
        weight="to be weighed",
        lifting=f"Over {SECOND_PERSON_LB} lb (23 kg): two people lift it.",
        things=things(order, row.lines, ""),
        handling=PARCEL_HANDLING,
        cautions=PARCEL_CAUTIONS,
    )
