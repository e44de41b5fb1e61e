"""The menu of the staff: what is opened every hour stands open, the rest in drawers."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass


@dataclass(frozen=True)
class Entry:
    """One page of the menu: the name of its address, its words, the rights it needs."""

    name: str
    words: str
    rights: tuple[str, ...] = ()


@dataclass(frozen=True)
class Drawer:
    """Entries that belong together, below a word that says whose they are."""

    words: str
    entries: tuple[Entry, ...]


_SEES = "intake.view_submission"
_TYPES = "intake.add_callrecord"
_AT_HAND = (
    Entry("desk", "Type a call", (_TYPES,)),
    Entry("call-queue", "Call-backs", (_SEES,)),
    Entry("today", "Today", (_SEES,)),
    Entry("requests", "Requests", (_SEES,)),
    Entry("shop", "Shafts to make", (_SEES, "quotes.view_quote")),
)
_DRAWERS = (
    Drawer(
        "Counter",
        (
            Entry("customers", "Customers", (_TYPES,)),
            Entry("cases", "Cases", (_SEES, "quotes.view_case", "quotes.add_outcome")),
            Entry("silent", "Sent, nothing heard", (_SEES, "quotes.add_outcome")),
            Entry("audit-calls", "Audit calls", (_SEES, _TYPES)),
            Entry("invoices", "Invoices", ("quotes.add_invoice",)),
        ),
    ),
    Drawer(
        "Shop",
        (
            Entry("bars", "Which bar for which shaft", ("quotes.view_hold",)),
            Entry("rework", "Shafts to shorten", ("quotes.view_case", "quotes.change_shoporder")),
            Entry("awaited-parts", "Customers' parts", ("quotes.change_ownpart",)),
            Entry("pieces", "The rack", ("catalog.view_piece",)),
            Entry("goods-in", "Goods in", ("catalog.add_piece",)),
            Entry("reorder", "What is to be ordered", ("quotes.view_hold",)),
        ),
    ),
    Drawer(
        "Look up",
        (
            Entry("catalog", "Catalogue"),
            Entry("checks", "Checks", (_SEES,)),
            Entry("limits", "Limits", (_SEES, _TYPES)),
            Entry("calendar", "Calendar", (_SEES,)),
        ),
    ),
    Drawer(
        "Insight",
        (
            Entry("insight-overview", "All questions", ("intake.view_insights",)),
            Entry("replays", "Last season again", ("intake.view_insights",)),
            Entry("cause-alarms", "Causes that come back", ("intake.view_insights",)),
            Entry("wording", "How we ask", ("intake.view_insights",)),
        ),
    ),
    Drawer(
        "Keep true",
        (
            Entry("imports", "Tables of parts", ("catalog.change_part",)),
            Entry("prices", "Prices", ("catalog.change_part",)),
            Entry("rates", "Rates", ("quotes.add_rateset",)),
            Entry("costs", "Costs and targets", ("intake.view_insights",)),
            Entry("all-changes", "Every change", ("staff.manage_accounts",)),
            Entry("staff-people", "People", ("staff.manage_accounts",)),
        ),
    ),
)


def menu(may: Callable[[str], bool]) -> tuple[tuple[Entry, ...], tuple[Drawer, ...]]:
    """What stands open and the drawers, for whoever has the rights `may` says yes to.

    >>> at_hand, drawers = menu(lambda right: False)
    >>> at_hand, [(drawer.words, len(drawer.entries)) for drawer in drawers]
    ((), [('Look up', 1)])
    """
    drawers = (Drawer(one.words, _open(one.entries, may)) for one in _DRAWERS)
    return _open(_AT_HAND, may), tuple(one for one in drawers if one.entries)


def _open(entries: tuple[Entry, ...], may: Callable[[str], bool]) -> tuple[Entry, ...]:
    return tuple(one for one in entries if all(may(right) for right in one.rights))
