"""Tax by place and by kind of line. The rates are the desk's own to set; nothing is known here."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Any

from quotes.domain.money import money_text, to_money

GOODS, WORK, FREIGHT = "goods", "work", "freight"
KINDS = (GOODS, WORK, FREIGHT)
DUTY = (
    "Rates are set by the desk for the place of delivery; "
    "duties on arrival are the receiver's to pay."
)
_ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class Place:
    """Where it is delivered to, as the customer wrote it; "" where that is not said."""

    country: str = ""
    postcode: str = ""


NOWHERE = Place()


@dataclass(frozen=True, slots=True)
class TaxRule:
    """One rate (a fraction) for one kind of line. ``country`` "" is everywhere; several names of
    one country stand with "/" between. ``postcode``: how the postcodes begin, "" for all.
    """

    country: str
    postcode: str
    kind: str
    rate: Decimal
    note: str = ""

    def holds(self, place: Place, kind: str) -> bool:
        """Whether this rule speaks of that kind of line at that place."""
        names = {plain_place(name) for name in self.country.split("/")}
        here = not self.country or plain_place(place.country) in names
        return (
            kind == self.kind
            and here
            and plain_place(place.postcode).startswith(plain_place(self.postcode))
        )

    @property
    def precision(self) -> tuple[bool, int]:
        """How closely it names a place; of two that hold, the closer one wins."""
        return bool(self.country), len(plain_place(self.postcode))


@dataclass(frozen=True, slots=True)
class TaxSum:
    """One rate, the sum it is taken of, what it comes to, and for which kinds of line."""

    rate: Decimal
    base: Decimal
    amount: Decimal
    kinds: tuple[str, ...]
    notes: tuple[str, ...] = ()


def place_of(body: Mapping[str, Any]) -> Place:
    """Where a request is to be delivered, from its body as typed.

    >>> place_of({"answers": {"ship_to": {"country": " Spain ", "postcode": "07 015"}}})
    Place(country='Spain', postcode='07 015')
    """
    answers = body.get("answers")
    said = answers.get("ship_to") if isinstance(answers, Mapping) else None
    if not isinstance(said, Mapping):
        return NOWHERE
    country, postcode = (str(said.get(name) or "").strip() for name in ("country", "postcode"))
    return Place(country, postcode)


@lru_cache(maxsize=1024)
def plain_place(text: str) -> str:
    """A country or postcode as two of them are compared: no spaces, dots, dashes or capitals."""
    return "".join(letter for letter in text.casefold() if letter.isalnum())


def kind_of(code: str) -> str:
    """Whether a line is goods or work: services of the catalogue are work, and
    so is a rush.

    >>> kind_of("SV-PROP-1"), kind_of("BH-1000")
    ('work', 'goods')
    """
    return WORK if code.startswith("SV-") or code == "RUSH" else GOODS


def rule_for(rules: Iterable[TaxRule], place: Place, kind: str) -> TaxRule | None:
    """The rule that names the place most closely; None where none speaks of that kind."""
    found = [rule for rule in rules if rule.holds(place, kind)]
    return max(found, key=lambda rule: rule.precision, default=None)


def rules_at(rules: Sequence[TaxRule], place: Place) -> tuple[TaxRule, ...]:
    """What holds at one place, a rule for each kind at most, no longer naming the place.

    This is what is kept with a quote: a postcode is the customer's own.
    """
    found = (rule_for(rules, place, kind) for kind in KINDS)
    return tuple(
        TaxRule("", "", rule.kind, rule.rate, rule.note) for rule in found if rule is not None
    )


def taxes(
    bases: Mapping[str, Decimal], rules: Sequence[TaxRule], place: Place, currency: str = ""
) -> tuple[TaxSum, ...]:
    """The tax on the sums of each kind, rounded once for each rate over all it is taken of."""
    groups: dict[Decimal, list[tuple[str, Decimal, str]]] = defaultdict(list)
    for kind in KINDS:
        base, rule = bases.get(kind, _ZERO), rule_for(rules, place, kind)
        if rule is not None and base:
            groups[rule.rate].append((kind, base, rule.note))
    return tuple(_sum(rate, found, currency) for rate, found in groups.items())


def _sum(rate: Decimal, found: list[tuple[str, Decimal, str]], currency: str) -> TaxSum:
    base = sum((base for _kind, base, _note in found), _ZERO)
    notes = tuple(dict.fromkeys(note for _kind, _base, note in found if note))
    kinds = tuple(kind for kind, _base, _note in found)
    return TaxSum(rate, base, to_money(base * rate, currency), kinds, notes)


_KIND_WORDS = {
    (GOODS,): "goods",
    (WORK,): "work",
    (FREIGHT,): "freight",
    (GOODS, WORK): "goods and work",
    (GOODS, FREIGHT): "goods and freight",
    (WORK, FREIGHT): "work and freight",
    KINDS: "goods, work and freight",
}


def tax_words(one: TaxSum) -> str:
    """What a tax is taken of, for the quote's sums.

    >>> tax_words(TaxSum(Decimal("0.07"), Decimal(100), Decimal(7), ("goods", "work")))
    'Tax 7 % on goods and work'
    """
    return f"Tax {percent(one.rate)} % on {_KIND_WORDS[one.kinds]}"


def tax_rows(
    found: Iterable[TaxSum], currency: str = "", language: str = "en"
) -> tuple[tuple[str, str], ...]:
    """The rows of the sums: each rate, what it is taken of and its base, and the amount.

    The base is said where the reader does not see it as a row of its own.
    """
    every = tuple(found)
    alone = len(every) == 1
    return tuple(
        (
            _row_words(one, currency, language, alone=alone),
            money_text(one.amount, currency, language),
        )
        for one in every
    )


def _row_words(one: TaxSum, currency: str, language: str, *, alone: bool) -> str:
    if alone and one.kinds == (GOODS, WORK):
        return tax_words(one)
    return f"{tax_words(one)}, of {money_text(one.base, currency, language)}"


def percent(rate: Decimal) -> str:
    """A fraction as a number of per cent, without trailing noughts.

    >>> percent(Decimal("0.07")), percent(Decimal("0.125")), percent(Decimal("0.1"))
    ('7', '12.5', '10')
    """
    text = f"{rate * 100:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
