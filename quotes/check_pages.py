"""The shop's own checks, explained on the page of checks and in docs/checks.md."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, fields
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length
from intake.check_book import Chapter, CheckPage, LimitRead, also_checked, sentence
from intake.domain.limit_values import shown
from quotes.checks import ALL, ShopCheck

_HAPPENS = {
    "stop": "Stop: it goes no further until it is put right, or the desk has let it go with a "
    "reason.",
    "ask": "Ask: the machinist and the desk speak before it goes on.",
    "note": "Note: it is pointed out to the desk, and holds nothing up.",
}


@dataclass(frozen=True, slots=True)
class _Said:
    """What the rule holds, and its limits in words, by their names."""

    holds: str
    limits: dict[str, str]


_QUOTED, _SENT = "The price and the acceptance", "What was made and how it fitted"
_WORDS: dict[str, tuple[str, _Said]] = {
    "remnant-waste": (
        _QUOTED,
        _Said(
            "bar",
            {
                "spare_from": "a remnant fits well that is longer than needed by at least",
                "spare_to": "and by at most",
                "scrap_under": "what is left over is scrap below this",
                "short": "a remnant is worth asking for that is too short by at most",
            },
        ),
    ),
    "changed-after-accept": (
        _QUOTED,
        _Said("accepted order", {"left_out": "may change without making the acceptance void"}),
    ),
    "needed-by": (
        _QUOTED,
        _Said("promise", {"transit": "days on the road", "fitting": "days to fit it"}),
    ),
    "price-outlier": (
        _QUOTED,
        _Said(
            "quote",
            {
                "least": "least part of the usual price that is taken as it is",
                "most": "most times the usual price that is taken as it is",
            },
        ),
    ),
    "quote-expired": (
        _QUOTED,
        _Said("quote", {"moved": "part by which the price of the bar may have moved"}),
    ),
    "cutsheet-chain": (
        _SENT,
        _Said("cut sheet", {"chain_off": "how far the stations may be off together"}),
    ),
    "as-made-length": (
        _SENT,
        _Said(
            "shaft",
            {
                "length_off": "how far the length may be off as made",
                "fit": "beyond that, the least chance of a fair gap with which it may go",
            },
        ),
    ),
    "runout": (
        _SENT,
        _Said(
            "shaft",
            {
                "per_foot": "total indicator reading for each foot of length",
                "most": "and at most, at any journal",
                "face": "of the coupling's face, faced on the shaft",
            },
        ),
    ),
    "trial-seat": (
        _SENT,
        _Said(
            "shaft",
            {
                "contact": "least contact by marking compound, per cent",
                "seat_off": "how far the hub may seat away from calculated",
            },
        ),
    ),
    "outcome-missing": (
        _SENT,
        _Said("outcome", {"after_days": "days of silence since it was sent"}),
    ),
    "outcome-gap-shift": (
        _SENT,
        _Said(
            "outcome", {"shift_in_u": "standard uncertainties a gap may lie from the predicted one"}
        ),
    ),
}


def shop_chapters() -> Iterator[Chapter]:
    """The shop's checks by what they look at, in the order of a shaft's life."""
    found: dict[str, list[CheckPage]] = {}
    for check in ALL:
        title, said = _WORDS[check.id]
        found.setdefault(title, []).append(_page(check, said))
    for title, pages in found.items():
        yield Chapter(title, pages)


def _page(check: ShopCheck[Any, Any], said: _Said) -> CheckPage:
    title, _, rest = check.why.partition("\n")
    return CheckPage(
        id=check.id,
        title=title,
        why=" ".join(rest.split()),
        happens=_HAPPENS[check.severity.value],
        graded="",
        question=check.ask,
        source=sentence(check.source),
        holds=said.holds,
        likely=[],
        weighed=False,
        limits=[
            LimitRead(name, words, _value(getattr(check.limits, name)))
            for name, words in said.limits.items()
        ],
    )


def _value(value: Any) -> str:
    if isinstance(value, frozenset):
        names = sorted(one.rpartition(".")[2].replace("_", " ") for one in value)
        return ", ".join(names)
    if isinstance(value, Length | float | int):
        return shown(value)
    return f"{value:f}" if isinstance(value, Decimal) else str(value)


def unexplained() -> list[str]:
    """Checks and limits that have no words here yet; empty where all have."""
    told = {check.id: {field.name for field in fields(check.limits)} for check in ALL}
    return [
        f"{name}: {', '.join(sorted(limits)) or 'the check itself'}"
        for name, limits in told.items()
        if name not in _WORDS or set(_WORDS[name][1].limits) != limits
    ]


also_checked(shop_chapters)
