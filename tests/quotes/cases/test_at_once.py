"""Two at once: one case, one outcome, one step; on both databases."""

from __future__ import annotations

import threading
from collections.abc import Callable

import pytest
from django.contrib.auth.models import User
from django.db import connection

from quotes.cases import selectors, services
from quotes.cases.models import Case, CaseCost
from quotes.cases.services import Agreement, CaseError
from quotes.models import Outcome
from quotes.outcomes.services import tell_outcome
from tests.quotes.given import stock_the_shelf
from tests.quotes.outcomes.given import a_sent

pytestmark = pytest.mark.django_db(transaction=True)


def at_once(*works: Callable[[], object]) -> list[object]:
    """What each did, or the error it met."""
    answers: list[object] = []
    ready = threading.Barrier(len(works))

    def run(work: Callable[[], object]) -> None:
        ready.wait()
        try:
            answers.append(work())
        except CaseError as error:
            answers.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(work,)) for work in works]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return answers


def test_told_twice_at_once_it_is_one_outcome_and_one_case() -> None:
    stock_the_shelf()
    quote = a_sent(days_ago=12)

    def tell() -> bool:
        return tell_outcome(quote=quote, after_days=7, fitted="no", gap="2", different="long")

    assert sorted(map(str, at_once(tell, tell))) == ["False", "True"]
    assert (Outcome.objects.count(), Case.objects.count()) == (1, 1)


def test_the_desk_and_the_customer_at_once_open_one_case_and_agree_on_one_thing() -> None:
    stock_the_shelf()
    quote, maud = a_sent(days_ago=12), User.objects.create_user("maud")
    at_once(
        lambda: services.open_case(quote, why="the yard rang", by=maud),
        lambda: tell_outcome(quote=quote, after_days=7, fitted="no", different="it is long"),
    )
    case = Case.objects.get()
    assert case.events.count() == 2
    answers = at_once(
        *(
            lambda kind=kind: services.agree(
                case=selectors.fresh_case(case.pk),
                agreement=Agreement(kind, "us", "ours"),
                by=maud,
            )
            for kind in ("swap", "remake")
        )
    )
    assert sum(isinstance(one, CaseError) for one in answers) == 1
    case.refresh_from_db()
    agreed = case.kind

    def usual() -> int:
        return services.book_usual(case=selectors.fresh_case(case.pk), by=maud)

    at_once(usual, usual)
    assert CaseCost.objects.count() == {"swap": 3, "remake": 5}[agreed]
