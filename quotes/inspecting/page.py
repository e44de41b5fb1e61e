"""The boxes of an inspection, and what the numbers in them say."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from django.utils.safestring import SafeString, mark_safe

from catalog.domain.lengths import Length
from intake.domain.drawing import gap_picture
from intake.domain.svg import to_svg
from quotes.domain.as_made import TOOLS, Accepted
from quotes.domain.as_made_limits import limits_of
from quotes.domain.as_made_read import BOXES
from quotes.domain.as_made_verdict import WORDS, Verdict, both_ways, percent
from quotes.domain.thousandths import off
from quotes.inspecting.models import Inspection
from quotes.inspecting.services import Looked
from quotes.models import Quote

# Which of the page's marks goes with a verdict.
MARKS = {"pass": "release", "ring": "ask", "shorten": "stop", "scrap": "stop"}
# The few that a machinist always types come first; the others follow in their own group.
_FIRST = ("length", "small_end", "runout_coupling", "runout_bearing", "runout_taper")


@dataclass(frozen=True, slots=True)
class Box:
    """One box: what goes into it, what it must lie within, on whose word."""

    name: str
    label: str
    within: str
    source: str
    typed: str
    error: str

    @property
    def id(self) -> str:
        return f"made-{self.name}"


@dataclass(frozen=True)
class InspectForm:
    """The boxes with what was typed; ``looked``: what it says, where that was asked for."""

    wanted: Accepted
    typed: Mapping[str, str]
    errors: Mapping[str, str]
    looked: Looked | None

    @property
    def first(self) -> list[Box]:
        return [box for box in self._boxes() if box.name in _FIRST]

    @property
    def rest(self) -> list[Box]:
        return [box for box in self._boxes() if box.name not in _FIRST]

    def _boxes(self) -> Iterator[Box]:
        limits = {one.box: one for one in limits_of(self.wanted)}
        for name, label in BOXES.items():
            limit = limits.get(name)
            if limit is None and name in ("small_end", "seat"):
                continue  # no table says what it should be
            yield Box(
                name,
                label,
                limit.within if limit else "",
                limit.source if limit else "",
                self.typed.get(name, ""),
                self.errors.get(name, ""),
            )

    @property
    def tools(self) -> list[tuple[str, str, bool]]:
        """How the length was taken: code, words, chosen."""
        chosen = self.typed.get("tool") or "tape_short"
        return [(code, words, code == chosen) for code, words in TOOLS.items()]

    @property
    def listed_errors(self) -> list[dict[str, str]]:
        """What must be put right, for the list at the top."""
        return [
            {"id": f"made-{name}", "label": BOXES.get(name, "Taken with"), "message": words}
            for name, words in self.errors.items()
        ]

    # --- What it says ---------------------------------------------------------------------

    @property
    def mark(self) -> str:
        return MARKS[self.looked.judged.verdict.value] if self.looked else ""

    @property
    def verdict(self) -> str:
        return WORDS[self.looked.judged.verdict] if self.looked else ""

    @property
    def gap(self) -> str:
        """The gap it will make, with its uncertainty."""
        if self.looked is None or self.looked.made.gap is None:
            return ""
        return f"{both_ways(self.looked.made.gap)} ± {off(self.looked.made.u)}"

    @property
    def fit(self) -> str:
        fit = self.looked.made.fit if self.looked else None
        return percent(fit) if fit is not None else ""

    @property
    def goal(self) -> str:
        """What the sheet wanted: goal, least and most."""
        band = self.wanted.band
        if band is None:
            return ""
        return f"wanted {both_ways(band.goal)}, {both_ways(band.least)} to {both_ways(band.most)}"


def gap_svg(quote: Quote, looked: Looked) -> SafeString | str:
    """Strut and propeller at the gap this shaft will make; "" where none is predicted."""
    gap = looked.made.gap
    if gap is None:
        return ""
    stack = {
        **quote.sheet.outcome["stack"],
        "predicted_gap": gap.mm_text,
        "u_mm": f"{looked.made.u.nm / 1_000_000:.4f}",
    }
    return mark_safe(to_svg(gap_picture(stack), ident="made-gap"))  # noqa: S308 - it escapes


@dataclass(frozen=True)
class ShownInspection:
    """A stored inspection as the page tells it."""

    row: Inspection

    @property
    def mark(self) -> str:
        return MARKS[self.row.verdict]

    @property
    def word(self) -> str:
        return WORDS[Verdict(self.row.verdict)]

    @property
    def typed(self) -> list[tuple[str, str]]:
        """Box and text, as typed."""
        told = {**BOXES, "tool": "Taken with"}
        return [
            (told[box], TOOLS.get(text, text) if box == "tool" else text)
            for box, text in self.row.typed.items()
            if box in told
        ]

    @property
    def gap(self) -> str:
        """The gap it will make, with its uncertainty; "" where none is predicted."""
        if self.row.gap_nm is None:
            return ""
        return f"{both_ways(Length(self.row.gap_nm))} ± {off(Length(self.row.u_nm))}"

    @property
    def fit(self) -> str:
        """The chance of a fair one, as it was reckoned then."""
        return percent(self.row.fit) if self.row.fit is not None else ""
