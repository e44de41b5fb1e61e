"""Calls being typed, and the pages they are typed on."""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from typing import Any

from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from intake.desk_drafts import selectors
from intake.desk_drafts.merging import texts_of
from intake.desk_drafts.services import new_ident
from intake.models import DeskDraft, Submission
from tests.intake.desk_given import a_call, a_person

GAP, HUB = "answers.gap_now.text", "answers.hub_length.text"


class CallPage:
    """One loading of the call page in one clerk's browser, as its script behaves."""

    def __init__(self, client: Client, ident: str = "", page: str = "") -> None:
        self.client, self.ident = client, ident or new_ident()
        self.page, self.nth = page or new_ident()[:8], 0
        found = selectors.by_ident(self.ident)
        self.boxes: dict[str, Any] = dict(texts_of(found.boxes)) if found else {}
        self.boxes["wants"] = [w for w in self.boxes.get("wants", "").split(",") if w]
        self.seen = found.revision if found else 0
        self.told: dict[str, Any] = {}
        self.panel = ""

    def type(self, **boxes: str) -> dict[str, Any]:
        """Type into boxes (``gap_now="1"`` or the box's whole name) and keep; what was told."""
        return self.keep(named(boxes))

    def keep(self, changes: Mapping[str, str], **more: Any) -> dict[str, Any]:
        """Keep these boxes as the script does, and take over what others changed."""
        for name, text in changes.items():
            self.boxes[name] = text.split(",") if name == "wants" else text
        self.nth += 1
        sent = {"seen": self.seen, "changed": " ".join(changes), "page": self.page, "nth": self.nth}
        answer = self.client.post(
            reverse("desk-keep", args=[self.ident]), {**self.boxes, **sent, **more}
        )
        assert answer.status_code == 200, answer.content.decode()[:2000]
        self.panel = answer.content.decode()
        self.told = json.loads(answer["HX-Trigger"])["desk:kept"]
        self.seen = self.told["revision"]
        self.boxes |= self.told["boxes"]
        return self.told

    def save(self, **more: Any) -> Any:
        """Send the form as a browser without scripts would."""
        return save(self.client, self.ident, {**self.boxes, "seen": self.seen, **more})


def named(boxes: Mapping[str, str]) -> dict[str, str]:
    """``gap_now`` is the box "answers.gap_now.text"; a name with a dot is itself."""
    plain = ("wants", "tape_unit", "job")
    return {
        name if "." in name or name in plain else f"answers.{name}.text": text
        for name, text in boxes.items()
    }


def save(client: Client, ident: str, boxes: Mapping[str, Any]) -> Any:
    """The answer to the whole form."""
    return client.post(reverse("desk-save", args=[ident]), boxes)


def saved(answer: Any) -> Submission:
    """The request an answer leads to."""
    assert answer.status_code == 302, answer.content.decode()[:3000]
    return Submission.objects.get(reference=answer["Location"].rstrip("/").split("/")[-1])


def texts(ident: str) -> dict[str, str]:
    """What is kept, box by box."""
    return texts_of(DeskDraft.objects.get(ident=ident).boxes)


def a_browser(name: str, group: str = "counter") -> Client:
    """Somebody's browser, logged in."""
    client = Client()
    known = User.objects.filter(username=name).first()
    client.force_login(known or a_person(group, name))
    return client


def a_typed_call(client: Client, **changes: str) -> CallPage:
    """A whole call that adds up, typed and kept and not saved."""
    page = CallPage(client)
    boxes = a_call(**changes)
    page.keep({name: text for name, text in boxes.items() if name != "wants"}, wants=boxes["wants"])
    page.boxes["wants"] = boxes["wants"]
    return page


# The draft, its update, who is here, the stock's and the limits' version.
KEEP_QUERIES = 5


def ours(work: Callable[[], object]) -> list[str]:
    """The statements of some work, without those that find out who is logged in."""
    with CaptureQueriesContext(connection) as done:
        work()
    said = [query["sql"] for query in done.captured_queries]
    who = ("django_session", "auth_permission", 'FROM "auth_user"', "staff_")
    return [sql for sql in said if not any(name in sql for name in who)]
