"""The trail: who changed what, when and why, written with the change."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.db import transaction

from staff.trail.selectors import changes_of
from staff.trail.services import forget_values, note_change


@pytest.fixture
def percival(db: None) -> User:
    return User.objects.create_user("percival")


def test_what_differs_is_written_with_who_and_why(percival: User) -> None:
    note_change(
        record="boat", key=7, by=percival, why="misheard",
        before={"name": "Timble", "station": "single"},
        after={"name": "Thimble", "station": "single"},
    )  # fmt: skip
    (change,) = changes_of("boat", 7)
    assert change.what == {"name": ["Timble", "Thimble"]}
    assert (change.by, change.why) == (percival, "misheard")


def test_no_difference_leaves_no_line(percival: User) -> None:
    same = {"name": "Thimble"}
    assert note_change(record="boat", key=7, by=percival, why="", before=same, after=same) is None
    assert not changes_of("boat", 7)


def test_the_newest_comes_first_and_others_do_not_show(percival: User) -> None:
    for key, name in ((7, "a"), (7, "b"), (8, "c")):
        note_change(record="boat", key=key, by=percival, why="", before={}, after={"name": name})
    assert [change.what["name"][1] for change in changes_of("boat", 7)] == ["b", "a"]


def test_erasing_blanks_the_value_and_keeps_the_line(percival: User) -> None:
    told = {"name": "Odile Marsh", "role": "yard"}
    note_change(record="customer", key=3, by=percival, why="", before={}, after=told)
    forget_values(record="customer", key=3, names={"name"})
    (change,) = changes_of("customer", 3)
    assert change.what == {"name": ["erased", "erased"], "role": [None, "yard"]}


@pytest.mark.django_db(transaction=True)
def test_a_trail_without_its_change_is_refused() -> None:
    with pytest.raises(transaction.TransactionManagementError):
        note_change(record="boat", key=7, by=None, why="", before={}, after={"name": "a"})
