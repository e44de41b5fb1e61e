"""One line of a quote, its words, and what stands in for a price that is missing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import overload

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from quotes.domain.money import to_money

_ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a quote. ``unit_price`` and ``amount`` are None while the price is missing."""

    code: str
    text: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    amount: Decimal | None
    how: str

    def as_json(self) -> dict[str, str | None]:
        """The line as it is stored: exact numbers as text."""
        return {
            "code": self.code,
            "text": self.text,
            "quantity": plain(self.quantity),
            "unit": self.unit,
            "unit_price": None if self.unit_price is None else listed(self.unit_price),
            "amount": None if self.amount is None else str(self.amount),
            "how": self.how,
        }


@dataclass(frozen=True, slots=True)
class Missing:
    """What cannot be priced from the catalogue, and why."""

    code: str
    text: str
    why: str

    def as_json(self) -> dict[str, str]:
        return {"code": self.code, "text": self.text, "why": self.why}


Found = Line | tuple[Line, Missing]


def priced_line(
    code: str, text: str, quantity: Decimal, unit: str, unit_price: Decimal, how: str
) -> Line:
    """So many at a price each; ``price`` rounds the amount, in its currency."""
    return Line(code, text, quantity, unit, unit_price, quantity * unit_price, how)


def sum_line(code: str, text: str, amount: Decimal, how: str) -> Line:
    """One amount that is no price times a number; it becomes its own price when it is rounded."""
    return Line(code, text, _ONE, "each", None, amount, how)


@overload
def rounded(found: Line, currency: str) -> Line: ...
@overload
def rounded(found: Found, currency: str) -> Found: ...
def rounded(found: Found, currency: str) -> Found:
    """The line with its amount as money; the one place where a line is rounded."""
    if not isinstance(found, Line) or found.amount is None:
        return found
    amount = to_money(found.amount, currency)
    each = amount if found.unit_price is None else found.unit_price
    return Line(found.code, found.text, found.quantity, found.unit, each, amount, found.how)


def unpriced(
    code: str, text: str, unit: str, why: str, quantity: Decimal = _ONE
) -> tuple[Line, Missing]:
    how = f"price to come: {why}"
    return Line(code, text, quantity, unit, None, None, how), Missing(code, text, why)


def completed(found: Found, by_hand: Mapping[str, Decimal]) -> Found:
    if isinstance(found, Line):
        return found
    line, _missing = found
    given = by_hand.get(line.code)
    if given is None:
        return found
    how = f"{plain(line.quantity)} {line.unit} × {listed(given)}, priced by hand"
    return priced_line(line.code, line.text, line.quantity, line.unit, given, how)


# --- Numbers as people read them --------------------------------------------------------


def plain(number: Decimal) -> str:
    """Without trailing noughts: ``0.25``, ``50``, ``1420``."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def listed(number: Decimal) -> str:
    """A price as listed, two places at least: ``3.60``, ``0.145``."""
    places = max(2, -int(number.normalize().as_tuple().exponent))
    return f"{number:.{places}f}"


def inch_words(number: Decimal) -> str:
    """Inches as used, to four places when longer: the amount itself is made from the whole."""
    exact = plain(number)
    return exact if len(exact.partition(".")[2]) <= 4 else f"≈{number:.4f}"


def in_metric(system: str, length: Length) -> str:
    """Says where the inches come from: of a metric shaft, or where they were cut to be read."""
    exact = "≈" not in inch_words(Decimal(length.nm) / NM_PER_INCH)
    if system == "inch" and exact:
        return ""
    return f" ({plain_mm(length)} mm ÷ 25.4)"


def show(length: Length, system: str) -> str:
    return f"{length.inch_text} in" if system == "inch" else f"{plain_mm(length)} mm"


def plain_mm(length: Length) -> str:
    return plain(Decimal(length.nm) / NM_PER_MM)


def capital(text: str) -> str:
    return text[:1].upper() + text[1:]
