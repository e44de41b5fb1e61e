"""Putting what one page sends into what is kept, box by box; nobody's text goes under unseen.

Pure: takes the kept boxes and gives new ones. A kept box is ``{"text", "revision", "by", "at",
"page", "nth", "before": [...], "refused": [...]}``; ``before`` are its earlier texts, newest
last, ``refused`` what was typed against somebody else's text and not stored.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

Box = dict[str, Any]
Boxes = dict[str, Box]

_MOST_BEFORE = 12
_MOST_REFUSED = 12


@dataclass(frozen=True, slots=True)
class Sent:
    """What a page sends: every box as it stands, and what the page knew when it was sent.

    ``changed``: boxes its writer touched since the last answer. ``whole``: consider all boxes, as
    a form sent without scripts needs. ``page``: one loading of the page; ``nth``: which of its
    messages this is, so that one that arrives late is known to be late; 0 where nobody counts.
    """

    texts: Mapping[str, str]
    seen: int = 0
    changed: frozenset[str] = frozenset()
    whole: bool = False
    page: str = ""
    nth: int = 0
    by: str = ""
    at: str = ""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two texts for one box: mine is not stored."""

    name: str
    mine: str
    theirs: str
    by: str
    at: str


@dataclass(frozen=True, slots=True)
class Merged:
    """The boxes as they become, what of mine went in, and what did not."""

    boxes: Boxes
    stored: tuple[str, ...] = ()
    conflicts: tuple[Conflict, ...] = ()
    noted: bool = False  # a refused text was written down

    @property
    def differs(self) -> bool:
        """Whether there is anything to write."""
        return bool(self.stored) or self.noted


def texts_of(boxes: Mapping[str, Mapping[str, Any]]) -> dict[str, str]:
    """The texts alone; emptied boxes are left out."""
    return {name: str(box["text"]) for name, box in boxes.items() if box["text"]}


def merge(
    kept: Boxes, sent: Sent, revision: int, drawn: Callable[[str, str], str] = lambda _n, t: t
) -> Merged:
    """``kept`` with what ``sent`` changes, as revision ``revision``.

    ``drawn(name, text)``: what a page can show of a kept text; a page that sends that back has
    changed nothing.
    """
    boxes, stored, conflicts, noted = dict(kept), [], [], False
    names = set(sent.texts) | sent.changed if sent.whole else sent.changed
    for name in sorted(names):
        mine, box = sent.texts.get(name, ""), boxes.get(name)
        verdict = _judge(name, mine, box, sent, drawn)
        if verdict == "store":
            boxes[name] = _changed(box, mine, sent, revision)
            stored.append(name)
        elif verdict == "refuse" and box is not None:
            conflicts.append(Conflict(name, mine, box["text"], box["by"], box["at"]))
            boxes[name] = _refused(box, mine, sent)
            noted |= boxes[name] is not box
    return Merged(boxes, tuple(stored), tuple(conflicts), noted)


def _judge(
    name: str, mine: str, box: Box | None, sent: Sent, drawn: Callable[[str, str], str]
) -> str:
    """ "leave", "store" or "refuse" my text for one box."""
    theirs, told = (box["text"] if box else ""), name in sent.changed
    if mine == theirs or (not told and mine == drawn(name, theirs)):
        return "leave"
    if box is None:
        return "store"
    if box["revision"] <= sent.seen:
        return "refuse" if not told and _undecided(box, mine, sent) else "store"
    if sent.page and (box.get("page"), box["by"]) == (sent.page, sent.by):
        late = bool(sent.nth) and sent.nth < box.get("nth", 0)
        return "leave" if late else "store"
    if not told and mine == drawn(name, _text_at(box, sent.seen)):
        return "leave"  # it stands there as the page was given it
    own = not sent.page and box["by"] == sent.by  # a form without scripts, from another window
    return "store" if own else "refuse"


def _undecided(box: Box, mine: str, sent: Sent) -> bool:
    """Whether this page was refused this very text and has not said since which is to stay."""
    last = (box.get("refused") or [{}])[-1]
    same = (last.get("text"), last.get("by"), last.get("page")) == (mine, sent.by, sent.page)
    return bool(sent.page) and same and not last.get("settled", False)


def _text_at(box: Box, revision: int) -> str:
    """What the box said at that revision; a text nobody types where that is forgotten."""
    earlier = [old for old in box.get("before", ()) if old["revision"] <= revision]
    return str(earlier[-1]["text"]) if earlier else "\x00"


def _changed(box: Box | None, mine: str, sent: Sent, revision: int) -> Box:
    new = {"text": mine, "revision": revision, "by": sent.by, "at": sent.at}
    new |= {"page": sent.page, "nth": sent.nth}
    old = {name: box[name] for name in ("text", "revision", "by", "at")} if box else None
    before = [*(box.get("before", ()) if box else ()), old or {**_NOTHING}][-_MOST_BEFORE:]
    refused = [{**each, "settled": True} for each in box.get("refused", ())] if box else []
    return {**new, "before": before} | ({"refused": refused} if refused else {})


_NOTHING = {"text": "", "revision": 0, "by": "", "at": ""}


def _refused(box: Box, mine: str, sent: Sent) -> Box:
    """The box with a text written down that is not stored; itself where it is there already."""
    refused = box.get("refused") or []
    if refused and _undecided(box, mine, sent):
        return box
    new = {"text": mine, "by": sent.by, "at": sent.at, "page": sent.page}
    return {**box, "refused": [*refused, new][-_MOST_REFUSED:]}
