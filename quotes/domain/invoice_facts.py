"""What an invoice's paper and table say, as frozen values: the same facts make the same bytes."""

from __future__ import annotations

from dataclasses import dataclass

Row = tuple[str, str]


@dataclass(frozen=True, slots=True)
class InvoiceRow:
    """One line as it is printed. ``of``: the quote it comes from, where there are several."""

    of: str
    text: str
    quantity: str
    unit_price: str
    amount: str


@dataclass(frozen=True, slots=True)
class InvoiceFacts:
    """Everything on an invoice, or on a credit note (``of`` says of which invoice, ``reason`` why).

    Days and amounts come in as words. ``about``: the quotes, orders and boats, a line each.
    ``after``: what is taken off below the total, the last of them is what is to be paid.
    """

    shop: str
    number: str
    is_credit: bool
    issued: str
    due: str
    seller: tuple[str, ...]
    buyer: tuple[str, ...]
    about: tuple[str, ...]
    currency: str
    rows: tuple[InvoiceRow, ...]
    sums: tuple[Row, ...]
    total: str
    after: tuple[Row, ...]
    of: str = ""
    reason: str = ""
    notes: tuple[str, ...] = ()

    @property
    def title(self) -> str:
        """As it is called everywhere."""
        return f"{'Credit note' if self.is_credit else 'Invoice'} {self.number}"
