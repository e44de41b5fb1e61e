"""One part on its page: read as a table is, told in the trail, refused for a reason."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from catalog.editing.services import (
    PartErrors,
    PartOvertaken,
    cells_of,
    known,
    mark_of,
    store_part,
    take_out,
)
from staff.trail.selectors import changes_of
from tests.intake.desk_given import stock_the_shelf
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
CODE = "BR-1000-1250-2"


@pytest.fixture
def percival() -> User:
    stock_the_shelf()
    return a_member("percival", "manager")


def change(by: User, **cells: str) -> bool:
    part = known(CODE)
    shown: dict[str, Any] = {"why": "measured", "seen": mark_of(part), "is_new": False}
    told = {name: cells.pop(name) for name in [*cells] if name in shown}
    return store_part(cells={**cells_of(part), **cells}, by=by, **{**shown, **told})


def test_what_is_shown_and_stored_unchanged_changes_nothing(percival: User) -> None:
    assert change(percival) is False
    assert not changes_of("part", CODE).exists() or changes_of("part", CODE).count() == 1


def test_a_size_is_typed_as_people_write_it_and_told_in_the_trail(percival: User) -> None:
    before = changes_of("part", CODE).count()
    assert change(percival, shell_od="1 5/16 in")
    part = known(CODE)
    assert part is not None
    assert part.shell_od is not None
    assert part.shell_od.inch_text == "1 5/16"
    lines = list(changes_of("part", CODE))
    assert len(lines) == before + 1
    assert (lines[0].by, lines[0].why) == (percival, "measured")


@pytest.mark.parametrize(
    ("box", "text"),
    [("shell_od", "1.3"), ("price", "-4"), ("price", "NaN"), ("bore", ""), ("kind", "boat"),
     ("on_hand", "1e3"), ("description", ""), ("why", " ")],
)  # fmt: skip
def test_what_cannot_be_stored_is_said_at_its_box(percival: User, box: str, text: str) -> None:
    if box == "shell_od":
        text = "1 1/3 of a thing"
    with pytest.raises(PartErrors) as refused:
        change(percival, **{box: text})
    assert list(refused.value.errors) == [box]


def test_of_two_who_change_one_part_the_second_is_told(percival: User) -> None:
    seen = mark_of(known(CODE))
    assert change(percival, price="50.00")
    with pytest.raises(PartOvertaken):
        change(percival, price="51.00", seen=seen)


def test_a_new_part_has_a_code_nobody_has(percival: User) -> None:
    cells = {**cells_of(known(CODE)), "code": "BR-NEW"}
    assert store_part(cells=cells, why="new", by=percival, seen="", is_new=True)
    assert known("BR-NEW") is not None
    with pytest.raises(PartErrors):
        store_part(cells=cells, why="new", by=percival, seen="", is_new=True)


def test_a_part_nothing_rests_on_goes_and_its_trail_stays(percival: User) -> None:
    with pytest.raises(PartErrors):
        take_out(code=CODE, why="", by=percival)
    take_out(code=CODE, why="no longer made", by=percival)
    assert known(CODE) is None
    assert changes_of("part", CODE)[0].why == "no longer made"
    take_out(code=CODE, why="again", by=percival)  # a second click


def test_what_was_typed_stands_beside_what_is_wrong(percival: User) -> None:
    client: Client = logged_in(percival)
    address = reverse("part-edit", args=[CODE])
    sent = {
        **cells_of(known(CODE)),
        "price": "a lot",
        "why": "dearer",
        "seen": mark_of(known(CODE)),
    }
    page = client.post(address, sent)
    assert page.status_code == 400
    assert 'value="a lot"' in page.content.decode()
    done = client.post(address, {**sent, "price": "52.00"})
    assert done.status_code == 302
    part = known(CODE)
    assert part is not None
    assert f"{part.price:.2f}" == "52.00"
    late = client.post(address, {**sent, "price": "53.00"})
    assert late.status_code == 409
    assert "It is 52" in late.content.decode()
