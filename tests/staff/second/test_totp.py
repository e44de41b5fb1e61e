"""Which codes are taken: near now, and later than the last."""

from __future__ import annotations

import pytest

from staff.second.totp import address_for, code_at, step_that_fits

SECRET = "JBSWY3DPEHPK3PXPJBSWY3DPEHPK3PXP"
NOW = 59_000_000


@pytest.mark.parametrize(
    ("off", "is_taken"), [(-2, False), (-1, True), (0, True), (1, True), (2, False)]
)
def test_a_clock_may_be_one_step_off(off: int, is_taken: bool) -> None:
    fits = step_that_fits(SECRET, code_at(SECRET, NOW + off), now=NOW, after=0)
    assert (fits == NOW + off) is is_taken


@pytest.mark.parametrize("off", [-1, 0])
def test_a_step_up_to_the_last_one_is_not_taken_again(off: int) -> None:
    code = code_at(SECRET, NOW + off)
    assert step_that_fits(SECRET, code, now=NOW, after=NOW) is None


@pytest.mark.parametrize("code", ["", "000", "abcdef", "０１２３４５"])
def test_what_is_no_code_fits_nothing(code: str) -> None:
    assert (
        step_that_fits(SECRET, code.encode("ascii", "replace").decode(), now=NOW, after=0) is None
    )


def test_the_address_names_the_desk_and_the_person() -> None:
    said = address_for(SECRET, person="maud", desk="Otterhithe Shaft Desk")
    assert said.startswith("otpauth://totp/")
    assert f"secret={SECRET}" in said
    assert "Otterhithe%20Shaft%20Desk:maud" in said
