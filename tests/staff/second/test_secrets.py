"""Secrets and codes for paper."""

from __future__ import annotations

from typing import Any

import pytest

from staff.second.secrets import (
    HOW_MANY,
    new_salt,
    one_time_password,
    read_recovery,
    recovery_codes,
    secrets_of,
)


def test_ten_codes_each_with_its_number() -> None:
    codes = recovery_codes()
    assert len(set(codes)) == HOW_MANY == 10
    assert [read_recovery(code)[0] for code in codes] == list(range(1, 11))  # type: ignore[index]


@pytest.mark.parametrize(
    "typed", ["3-KFWT-9HXP-QDRM", "3-kfwt-9hxp-qdrm", " 3 kfwt 9hxp qdrm ", "3-KFWT9HXPQDRM"]
)
def test_a_code_is_read_as_people_type_it(typed: str) -> None:
    assert read_recovery(typed) == (3, "KFWT9HXPQDRM")


@pytest.mark.parametrize(
    "typed", ["", "123456", "3-KFWT-9HXP", "KFWT-9HXP-QDRM", "3-KFWT-9HXP-QDR0", "3" * 500]
)
def test_what_is_no_code_is_not_read_as_one(typed: str) -> None:
    assert read_recovery(typed) is None


def test_a_secret_needs_the_sites_key(settings: Any) -> None:
    salt = new_salt()
    (mine,) = secrets_of(salt)
    assert len(mine) == 32  # 160 bits
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "another key altogether"
    other, again = secrets_of(salt)
    assert (again, other != mine) == (mine, True)


def test_a_one_time_password_is_never_the_same() -> None:
    assert len({one_time_password() for _ in range(50)}) == 50
