"""The lines of what is fitted to a shaft: coupling, bearing, nut, keys."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from catalog.domain.stock import Kind, Stock
from quotes.domain.lines import Found, capital, listed, plain, priced_line, unpriced
from quotes.domain.order import Order, Shaft, Wanted
from quotes.domain.shaft_lines import work_line

_ONE = Decimal(1)


def fits_coupling(order: Order) -> bool:
    """Fit and face needs shaft and coupling in the shop: one we sell, or one that is sent in."""
    return order.shaft is not None and ("coupling" in order.wants or order.coupling_comes)


def fit_line(order: Order, shaft: Shaft | None, stock: Stock) -> Found:
    if shaft is None:
        raise ValueError("nothing to fit the coupling to")
    ours = "coupling" in order.wants
    text = "Fit coupling and face on the shaft" if ours else "Fit your coupling, face on the shaft"
    return work_line(stock, "SV-FIT", shaft.diameter, text, "each")


_KINDS = (("coupling", Kind.COUPLING, "Half coupling"), ("bearing", Kind.BEARING, "Strut bearing"))


def part_lines(order: Order, stock: Stock) -> Iterator[Found]:
    for want, kind, words in _KINDS:
        if want not in order.wants:
            continue
        chosen = [part for part in order.parts if part.kind == kind]
        if not chosen:
            count = order.bearing_count if want == "bearing" else 1
            why = "nothing in the catalogue matches"
            yield unpriced(want.upper(), words, "each", why, Decimal(count))
        for part in chosen:
            yield _part(part, stock, words)


def _part(wanted: Wanted, stock: Stock, words: str) -> Found:
    part, quantity = stock.part(wanted.code), Decimal(wanted.quantity)
    if part is None:
        return unpriced(wanted.code, words, "each", "no longer in the catalogue", quantity)
    times = "" if quantity == 1 else f"{plain(quantity)} × "
    how = f"{times}{listed(part.price)}"
    return priced_line(part.code, capital(part.description), quantity, part.per, part.price, how)


def nut_line(shaft: Shaft, stock: Stock) -> Found:
    if not shaft.thread:
        return unpriced("NUT", "Propeller nut", "set", "the thread is not known: no table gives it")
    code = f"NT-{shaft.thread.replace('/', '_')}"
    part = stock.part(code)
    if part is None:
        text = f"Propeller nut {shaft.thread}"
        return unpriced(code[:40], text, "set", "not in the catalogue")
    return priced_line(
        code, capital(part.description), _ONE, part.per, part.price, listed(part.price)
    )


def keys_line(shaft: Shaft, stock: Stock) -> Found:
    two = Decimal(2)
    if not shaft.key:
        why = "the tables do not give one key for both ends"
        return unpriced("KEY", "Keys, two", "each", why, two)
    code = f"KY-{shaft.key.replace('/', '_')}"
    part = stock.part(code)
    text = f"Keys {shaft.key}, two"
    if part is None:
        return unpriced(code, text, "each", "not in the catalogue", two)
    return priced_line(code, text, two, part.per, part.price, f"2 × {listed(part.price)}")
