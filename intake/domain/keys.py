"""How wide the keys of a shaft are by the tables: at the propeller, and in a straight coupling."""

from __future__ import annotations

from functools import cache

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import Length, inches, mm
from catalog.domain.standards import table
from intake.domain.sizes import Size

# System -> (table, the quantity that is the key's width).
_TABLES = {
    "inch": ("ansi_b17_1_key_vs_shaft", "square_key"),
    "mm": ("iso773_din6885_keys", "key_width"),
}


@cache
def propeller_key_width(size: Size) -> Length | None:
    """Width of the propeller's key; None where no table gives it.

    Sources: SAE J755 (inch); of metric ends only 25 and 30 mm, by a table attributed to ISO 4566.
    """
    end = shaft_end(size.system, size.diameter)
    return end.keyway_width if end else _metric_propeller_keys().get(size.diameter)


@cache
def _metric_propeller_keys() -> dict[Length, Length]:
    return {
        mm(row.subject.removesuffix(" mm")): mm(row.value.partition("x")[0])
        for row in table("iso4566_iso8845_shaft_ends")
        if row.quantity in ("key", "key_width")
    }


@cache
def coupling_key_width(size: Size) -> Length | None:
    """Width of the key for a straight end of that size; None where the tables do not reach.

    Sources: ANSI B17.1-1967 (R1998) Table 1 (square keys, inch), ISO 773 / DIN 6885-1 (metric).
    """
    for over, to, width in _rows(size.system):
        if over < size.diameter <= to:
            return width
    return None


@cache
def _rows(system: str) -> tuple[tuple[Length, Length, Length], ...]:
    """(over, up to and with, width) of every step of shaft size."""
    name, quantity = _TABLES[system]
    return tuple(
        (*_step(row.subject, system), row.length) for row in table(name) if row.quantity == quantity
    )


def _step(subject: str, system: str) -> tuple[Length, Length]:
    """``over 1-1/4 to 1-3/8 in`` as two lengths."""
    make = inches if system == "inch" else mm
    words = subject.removeprefix("over ").rpartition(" ")[0]
    over, to = words.split(" to ")
    return make(over.replace("-", " ")), make(to.replace("-", " "))
