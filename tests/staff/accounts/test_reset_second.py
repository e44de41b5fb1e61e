"""The way out when the last manager has lost phone and paper."""

from __future__ import annotations

import pytest
from django.core.management import CommandError, call_command

from staff.second.selectors import has_factor
from staff.trail.selectors import changes_of
from tests.staff.given import LOGIN, a_manager, logged_in, with_second

pytestmark = pytest.mark.django_db


def test_the_command_line_takes_it_away_and_leaves_a_line() -> None:
    percival = a_manager()
    with_second(percival)
    desk = logged_in(percival)
    call_command("reset_second", "percival")
    assert not has_factor(percival)
    assert desk.get("/catalog/")["Location"].startswith(LOGIN)
    change = changes_of("account", percival.pk)[0]
    assert (change.by, change.why) == (None, "on the command line")


@pytest.mark.parametrize(("name", "said"), [("nobody", "nobody named"), ("percival", "has no")])
def test_what_cannot_be_done_is_said(name: str, said: str) -> None:
    a_manager()
    with pytest.raises(CommandError, match=said):
        call_command("reset_second", name)
