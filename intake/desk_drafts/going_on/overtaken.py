"""The page for a draft whose request has a newer sheet: base, now and mine, answer by answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any

from intake.desk_drafts import selectors
from intake.desk_drafts.drawn import label_of
from intake.desk_drafts.going_on.rebasing import Moved, moved
from intake.desk_drafts.merging import texts_of
from intake.desk_show import told
from intake.desk_words import Words
from intake.domain.methods import METHOD_WORDS
from intake.models import DeskDraft


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer in three states, as people read it."""

    key: str
    label: Words
    base: str
    now: str
    mine: str
    touched: bool


def overtaken_context(draft: DeskDraft) -> dict[str, Any]:
    """What templates/intake/desk_drafts/overtaken.html is given."""
    base, current = selectors.base_and_current(draft)
    asked = [_choice(one) for one in moved(base.body, current.body, texts_of(draft.boxes))]
    return {
        "ident": draft.ident,
        "draft": draft,
        "submission": draft.submission,
        "current": current,
        "base": base,
        "asked": asked,
        "choices": [one for one in asked if one.touched],
        "taken_over": [one for one in asked if not one.touched],
    }


def _choice(one: Moved) -> Choice:
    slug = one.key.removeprefix("answers.") if one.key.startswith("answers.") else ""
    states = (one.base, one.now, one.mine)
    ways = {_way(state) for state in states if state}
    say = partial(_answer, slug=slug, with_way=len(ways) > 1) if slug else _top
    base, now, mine = map(say, states)
    return Choice(one.key, label_of(one.key), base, now, mine, touched=one.touched)


def _answer(state: Any, slug: str, *, with_way: bool) -> str:
    """The answer as typed; how it was measured only where that is what differs."""
    said, way = told(state, slug), METHOD_WORDS.get(_way(state), "")
    return f"{said}, {way}" if with_way and way and said else said


def _way(state: Any) -> str:
    return str(state.get("method", "")) if isinstance(state, Mapping) else ""


def _top(value: Any) -> str:
    return ", ".join(value) if isinstance(value, list | tuple) else str(value or "")
