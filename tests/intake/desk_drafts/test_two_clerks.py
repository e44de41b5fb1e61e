"""Several clerks in the very same moment, each with a connection of their own."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from threading import Barrier, Thread
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection

from intake import selectors as requests
from intake.desk_drafts import selectors, services
from intake.desk_drafts.boxes import boxes_of
from intake.desk_drafts.going_on.services import take_up
from intake.desk_drafts.merging import Sent, texts_of
from intake.desk_drafts.services import Kept
from intake.models import DeskDraft, SheetVersion, Submission
from intake.services import Overtaken, receive_submission
from tests.given import a_body
from tests.intake.desk_drafts.given import GAP, HUB

pytestmark = pytest.mark.django_db(transaction=True)

CLERKS = 6
NAMES = ("builder", "year", "length")
SIX = [f"answers.hull_built_by_year.{part}" for part in NAMES] + [GAP, HUB, "contact.name"]


def at_once(work: Sequence[Callable[[], Any]]) -> list[Any]:
    """What each thread got or raised, in the order of ``work``; all begin together."""
    got: list[Any] = [None] * len(work)
    start = Barrier(len(work))

    def run(at: int) -> None:
        start.wait()
        try:
            got[at] = work[at]()
        except Exception as error:
            got[at] = error
        finally:
            connection.close()

    threads = [Thread(target=run, args=(at,)) for at in range(len(work))]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return got


def clerks(count: int = CLERKS) -> list[User]:
    return [User.objects.create_user(f"clerk{n}") for n in range(count)]


def keeping(ident: str, by: User, seen: int, box: str, text: str = "") -> Callable[[], Kept]:
    """One clerk's keep of one box; without a text the clerk's own name."""
    name = by.username
    texts = {box: text or name}
    sent = Sent(texts, seen=seen, changed=frozenset(texts), page=name, by=name, at="")
    return lambda: services.keep(ident=ident, sent=sent, by=by)


def a_draft(by: User, **texts: str) -> str:
    ident = services.new_ident()
    boxes = boxes_of(a_body()) | texts
    services.keep(ident=ident, sent=Sent(boxes, whole=True, by=by.username), by=by)
    return ident


def kept(ident: str) -> dict[str, str]:
    return texts_of(DeskDraft.objects.get(ident=ident).boxes)


def test_in_different_boxes_everything_is_stored() -> None:
    people = clerks()
    ident = a_draft(people[0])
    got = at_once([keeping(ident, by, 1, box) for by, box in zip(people, SIX, strict=True)])
    assert [each.conflicts for each in got] == [()] * CLERKS
    assert sorted(each.draft.revision for each in got) == list(range(2, CLERKS + 2))
    assert {box: kept(ident)[box] for box in SIX} == {
        box: by.username for by, box in zip(people, SIX, strict=True)
    }


def test_in_one_box_one_wins_and_all_others_hear_of_it() -> None:
    people = clerks()
    ident = a_draft(people[0])
    got = at_once([keeping(ident, by, 1, GAP) for by in people])
    won = [by.username for by, each in zip(people, got, strict=True) if not each.conflicts]
    assert won == [kept(ident)[GAP]]
    for by, each in zip(people, got, strict=True):
        for conflict in each.conflicts:
            told = (conflict.mine, conflict.theirs, conflict.by)
            assert told == (by.username, won[0], won[0])
    refused = DeskDraft.objects.get().boxes[GAP]["refused"]
    assert {each["text"] for each in refused} == {by.username for by in people} - set(won)


def test_the_first_keep_by_many_makes_one_draft() -> None:
    people = clerks()
    ident = services.new_ident()
    got = at_once([keeping(ident, by, 0, box) for by, box in zip(people, SIX, strict=True)])
    assert [each.conflicts for each in got] == [()] * CLERKS
    assert DeskDraft.objects.count() == 1
    assert kept(ident) == {box: by.username for by, box in zip(people, SIX, strict=True)}


def test_saves_at_once_store_one_request() -> None:
    people = clerks(4)
    ident = a_draft(people[0])
    got = at_once([partial(services.save, ident=ident, by=by) for by in people])
    assert len({each.reference for each in got}) == 1
    assert Submission.objects.count() == SheetVersion.objects.count() == 1


def test_a_save_racing_keeps_stores_all_that_was_acknowledged_before_it() -> None:
    """Each keep is either in what was stored, or is told where the call went."""
    people = clerks(5)
    ident = a_draft(people[0])
    boxes = [*SIX[1:3], "contact.name", "job"]
    keeps = [
        keeping(ident, by, 1, box, f"{by.username} 19 ft")
        for by, box in zip(people[1:], boxes, strict=True)
    ]
    got = at_once([lambda: services.save(ident=ident, by=people[0]), *keeps])
    request = Submission.objects.get()
    assert got[0] == request
    stored = boxes_of(requests.fresh_sheet(request).body)
    for each, by, box in zip(got[1:], people[1:], boxes, strict=True):
        was_stored = stored.get(box) == f"{by.username} 19 ft"
        assert was_stored is (each.closed is None), each
        assert each.closed in (None, request)


def test_a_draft_saved_and_put_away_at_once_is_saved() -> None:
    people = clerks(2)
    ident = a_draft(people[0])
    at_once(
        [
            lambda: services.save(ident=ident, by=people[0]),
            lambda: services.put_away(ident=ident, by=people[1]),
        ]
    )
    draft = DeskDraft.objects.get()
    assert draft.saved_as == Submission.objects.get()
    assert draft.closed_at is not None


def test_a_request_taken_up_by_many_is_one_draft() -> None:
    people = clerks(4)
    request = receive_submission(body=a_body())
    got = at_once([partial(take_up, submission=request, by=by) for by in people])
    assert len({each.ident for each in got}) == 1
    assert DeskDraft.objects.count() == 1


def test_two_corrections_of_one_sheet_at_once_are_one_version_and_one_told() -> None:
    """One from the draft, one from a draft that was opened before and put away."""
    people = clerks(2)
    request = receive_submission(body=a_body())
    idents = []
    for by, text in zip(people, ("7/8", "1"), strict=True):
        idents.append(take_up(submission=request, by=by).ident)
        keeping(idents[-1], by, 0, GAP, text)()
        services.put_away(ident=idents[-1], by=by)
    got = at_once([partial(services.save, ident=ident, by=people[0]) for ident in idents])
    assert sorted(isinstance(each, Overtaken) for each in got) == [False, True]
    assert SheetVersion.objects.count() == 2
    left = DeskDraft.objects.get(saved_as=None)
    assert texts_of(left.boxes)[GAP] in ("7/8", "1")


def test_many_eyes_at_one_place_are_each_counted_once() -> None:
    people = clerks(4)
    place = selectors.draft_place("x" * 22)
    got = at_once([partial(services.look, place=place, by=by) for by in people * 2])
    assert not [each for each in got if isinstance(each, Exception)]
    assert len(selectors.others_here(place, None)) == 4
