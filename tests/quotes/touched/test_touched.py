"""Before a part changes, the quotes that rest on it are named; while they do it does not go."""

from __future__ import annotations

from typing import Any

import pytest
from django.urls import reverse

from catalog.editing.services import PartErrors, take_out
from catalog.editing.touched import what_rests_on
from quotes.models import Quote
from tests.quotes.given import a_quote, stock_the_shelf
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


def test_an_open_quote_is_named_and_binds(django_assert_num_queries: Any) -> None:
    stock_the_shelf()
    quote = a_quote()
    code = next(line["code"] for line in quote.lines if line["code"].startswith("CP"))
    with django_assert_num_queries(1):
        (one,) = what_rests_on(code)
    assert quote.number in one.words
    assert what_rests_on(code[:-1]) == []  # a code that only begins like it
    page = logged_in(a_member("percival", "manager")).get(reverse("part-edit", args=[code]))
    assert quote.number in page.content.decode()
    with pytest.raises(PartErrors) as refused:
        take_out(code=code, why="no longer made", by=a_member("other", "manager"))
    assert quote.number in refused.value.errors["code"]
    Quote.objects.filter(pk=quote.pk).update(status="declined")
    assert what_rests_on(code) == []
