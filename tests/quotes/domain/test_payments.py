"""Card numbers are known by their check digit; what was paid is counted once.

Source of the check digit: ISO/IEC 7812-1, annex B (the Luhn formula); 7992739871 with its check
digit 3 is the usual worked example (from memory).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.payments import (
    Version,
    checks_out,
    counts_for,
    from_pool,
    looks_like_a_card,
    signed,
)

CENTS = st.integers(0, 100_000).map(lambda cents: Decimal(cents) / 100)


@pytest.mark.parametrize("digit", range(10))
def test_the_check_digit_of_the_worked_example_is_three(digit: int) -> None:
    assert checks_out(f"7992739871{digit}") == (digit == 3)


@given(st.integers(10**11, 10**18 - 1))
def test_one_check_digit_in_ten_is_right(number: int) -> None:
    right = [digit for digit in range(10) if checks_out(f"{number}{digit}")]
    assert len(right) == 1
    assert looks_like_a_card(f"card {number}{right[0]}, thanks")


@pytest.mark.parametrize(
    ("text", "is_one"),
    [
        ("4000 0000 0000 0002", True),
        ("4000-0000-0000-0002 exp 12/29", True),
        ("4000.0000.0000.0002", True),
        ("ref 17 4000 0000 0000 0002", True),
        ("4000000000000003", False),
        ("transfer 4471, 2026-11-26", False),
        ("000000000018", False),  # twelve digits with a right check digit
        ("", False),
    ],
)
def test_what_looks_like_a_card(text: str, is_one: bool) -> None:
    assert looks_like_a_card(text) == is_one


@given(st.lists(st.tuples(st.booleans(), st.booleans(), CENTS), max_size=6))
def test_no_cent_is_counted_for_two_invoices(rows: list[tuple[bool, bool, Decimal]]) -> None:
    """Whatever versions there are, what is on an invoice is not on the next one as well."""
    versions = [
        Version(at, at, replaced and not invoiced, invoiced, paid)
        for at, (replaced, invoiced, paid) in enumerate(rows, start=1)
    ]
    newest = Version(99, 99, replaced=False, invoiced=False)
    asked = [one for one in versions if one.invoiced] + [newest]
    counted = sum(counts_for(one, versions) for one in asked)
    assert counted <= sum(paid for _replaced, _invoiced, paid in rows)


def test_a_deposit_moves_on_with_the_order() -> None:
    first = Version(1, 1, replaced=True, invoiced=False, paid=Decimal(300))
    other = Version(2, 2, replaced=False, invoiced=True, paid=Decimal(50))
    remake = Version(3, 3, replaced=False, invoiced=False)
    assert counts_for(other, [first, other, remake]) == Decimal(350)
    assert counts_for(remake, [first, other, remake]) == 0
    assert signed("refund", Decimal(5)) == -5


@given(CENTS, st.lists(CENTS, min_size=1, max_size=5))
def test_a_pool_is_given_out_whole(pool: Decimal, needs: list[Decimal]) -> None:
    given_out = from_pool(pool, enumerate(needs))
    assert sum(given_out.values()) == pool
    assert all(given_out[at] <= need for at, need in list(enumerate(needs))[:-1])
