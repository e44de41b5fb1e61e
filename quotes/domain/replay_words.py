"""What a change of limits does to a sheet, and to a check, in words and lines. Pure."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from quotes.domain.replay import Judged, Tally


def why(before: Judged, after: Judged, titles: Mapping[str, str]) -> list[str]:
    """Which findings came, went or changed their severity, in words; sorted by what they do.

    >>> why(Judged("release", ()), Judged("ask", (("x", "ask"),)), {"x": "The gap is wide"})
    ['Comes (ask): The gap is wide.']
    """
    old, new = _worst(before.holding), _worst(after.holding)
    came = [f"Comes ({new[one]}): {_title(one, titles)}." for one in sorted({*new} - {*old})]
    went = [f"Goes ({old[one]}): {_title(one, titles)}." for one in sorted({*old} - {*new})]
    moved = [
        f"From {old[one]} to {new[one]}: {_title(one, titles)}."
        for one in sorted({*old} & {*new})
        if old[one] != new[one]
    ]
    return came + went + moved


def _worst(holding: Iterable[tuple[str, str]]) -> dict[str, str]:
    """By check its severest."""
    found: dict[str, str] = {}
    for check, severity in holding:
        if found.get(check) != "stop":
            found[check] = severity
    return found


def _title(check: str, titles: Mapping[str, str]) -> str:
    return titles.get(check, check).removesuffix(".")


@dataclass(frozen=True, slots=True)
class CheckLine:
    """How many sheets one check holds, before and after."""

    check: str
    before: int
    after: int

    @property
    def difference(self) -> int:
        """More (or, below nothing, fewer) sheets."""
        return self.after - self.before


def by_check(tally: Tally) -> list[CheckLine]:
    """Every check that holds anything, what moves most first."""
    names = {*tally.checks_before, *tally.checks_after}
    lines = [
        CheckLine(name, tally.checks_before.get(name, 0), tally.checks_after.get(name, 0))
        for name in names
    ]
    return sorted(lines, key=lambda one: (-abs(one.difference), -one.after, one.check))
