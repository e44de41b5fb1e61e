"""The menu leads wherever its reader may go, and nowhere else."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from staff.accounts.services import GROUPS
from staff.menu import menu
from tests.config.test_who_may_open import OPENED
from tests.staff.given import a_member

# Everybody may read what a price is made of; whoever sets it has it in the menu.
READ_FROM_ELSEWHERE = {"prices", "rates"}


def names_for(group: str) -> set[str]:
    at_hand, drawers = menu(lambda right: right in GROUPS[group])
    return {one.name for one in at_hand} | {e.name for one in drawers for e in one.entries}


@pytest.mark.parametrize("group", GROUPS)
def test_whoever_may_open_a_page_of_the_menu_finds_it_there_and_nobody_else_does(
    group: str,
) -> None:
    every = names_for("manager")
    may_open = {name for name in every if group in OPENED[name]}
    hidden = READ_FROM_ELSEWHERE if group != "manager" else set()
    assert names_for(group) == may_open - hidden


def test_a_machinist_has_no_drawer_of_the_counter() -> None:
    _, drawers = menu(lambda right: right in GROUPS["machinist"])
    assert [one.words for one in drawers] == ["Shop", "Look up"]


@pytest.mark.django_db
def test_the_drawer_one_stands_in_is_marked_while_it_is_closed(client: Client) -> None:
    a_member("bronagh", "machinist")
    client.force_login(User.objects.get(username="bronagh"))
    page = client.get(reverse("pieces")).content.decode()
    assert '<summary class="here">Shop</summary>' in page
    assert f'<a href="{reverse("pieces")}" aria-current="page">The rack</a>' in page
    assert "<summary>Look up</summary>" in page
