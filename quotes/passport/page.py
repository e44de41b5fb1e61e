"""What stands behind a tag: the shaft as made, its gap, its hours. Nothing personal."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.http import QueryDict
from django.utils.safestring import SafeString, mark_safe

from catalog.domain.lengths import Length
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet
from intake.domain.svg import to_svg
from intake.said import said_drawing, with_local_numbers
from quotes.domain.cut_facts import StationRow
from quotes.domain.order import Shaft, alloy_words
from quotes.domain.passport import as_made_drawing, as_made_stations
from quotes.domain.words import both
from quotes.inspecting.models import Inspection
from quotes.inspecting.selectors import newest
from quotes.making import order_of
from quotes.models import Quote
from quotes.outcomes.selectors import outcomes_of
from quotes.passport.models import HoursReading, Passport
from quotes.passport.selectors import readings_of
from quotes.sending.selectors import shipped_on
from quotes.stock.selectors import held_for


@dataclass(frozen=True)
class PassportPage:
    """One shaft's public page. ``typed`` and ``error``: hours that could not be read."""

    passport: Passport
    typed: str = ""
    error: str = ""

    @property
    def quote(self) -> Quote:
        return self.passport.quote

    @cached_property
    def sheet(self) -> Sheet:
        return read_sheet(self.quote.sheet.body)

    @cached_property
    def shaft(self) -> Shaft | None:
        return order_of(self.quote).shaft

    @cached_property
    def inspection(self) -> Inspection | None:
        return newest(self.quote)

    @property
    def boat(self) -> str:
        return self.quote.submission.boat_name

    @property
    def station(self) -> str:
        """Which shaft of several; "" where there is one."""
        station = self.quote.submission.station
        return "" if station == "single" else station

    @property
    def drawing(self) -> SafeString | str:
        if self.shaft is None:
            return ""
        small = self.inspection.small_end_nm if self.inspection else None
        drawing = as_made_drawing(
            self.quote.sheet.outcome["stack"],
            self.shaft,
            self.length,
            Length(small) if small else None,
        )
        drawing = with_local_numbers(said_drawing(drawing))
        return mark_safe(to_svg(drawing, ident="shaft"))  # noqa: S308 - it escapes

    @property
    def stations(self) -> tuple[StationRow, ...]:
        """What the drawing's letters mean."""
        if self.shaft is None:
            return ()
        rows = as_made_stations(self.quote.sheet.outcome["stack"], self.shaft, self.length)
        return tuple(row for row in rows if row.mm)

    @property
    def length(self) -> Length | None:
        """As made, less what the yard faces off; None before it was measured."""
        left = self.shaft.left_long if self.shaft else Length(0)
        return Length(self.inspection.length_nm) - left if self.inspection else None

    @property
    def length_words(self) -> str:
        if self.shaft is None:
            return ""
        return both(self.length or self.shaft.length, self.shaft.system)

    @property
    def diameter(self) -> str:
        return both(self.shaft.diameter, self.shaft.system) if self.shaft else ""

    @property
    def alloy(self) -> str:
        return alloy_words(self.shaft.alloy) if self.shaft else ""

    @cached_property
    def heat(self) -> str:
        held = held_for(self.quote)
        return held.heat if held else ""

    @cached_property
    def left_on(self) -> date | None:
        return shipped_on(self.quote)

    @cached_property
    def fitted_gap(self) -> str:
        """The gap she was found with once it was in; "" until somebody told it."""
        told = [one.gap_nm for one in outcomes_of(self.quote) if one.gap_nm is not None]
        return Length(told[-1]).both() if told else ""

    @property
    def planned_gap(self) -> str:
        gap = self.inspection.gap_nm if self.inspection else None
        return Length(gap).both() if gap is not None else ""

    # --- Hours ----------------------------------------------------------------------------

    @cached_property
    def readings(self) -> list[HoursReading]:
        return readings_of(self.passport)

    @property
    def bearing_hours(self) -> int | None:
        """Hours on this bearing: since it was renewed, or since the first reading."""
        if not self.readings:
            return None
        renewed = [one for one in self.readings if one.renewed]
        first = renewed[0] if renewed else self.readings[-1]
        return max(0, self.readings[0].hours - first.hours)


def same_again(page: PassportPage) -> QueryDict:
    """The boxes of a new request that are known already: the boat, the side, the old shaft."""
    boxes = QueryDict(mutable=True)
    name = "answers.boat_name_and_station"
    known = {
        f"{name}.name": page.quote.submission.boat_name,
        f"{name}.station": page.quote.submission.station,
        "job": f"as {page.quote.submission.reference}",
        "tape_unit": str(page.quote.sheet.body.get("tape_unit") or ""),
    }
    if page.length is not None:
        mm = page.shaft is not None and page.shaft.system == "mm"
        words = f"{page.length.mm_text} mm" if mm else f"{page.length.inch_text} in"
        known["answers.old_length_face_to_thread.text"] = words.replace("≈", "")
        known["answers.old_length_face_to_thread.method"] = "papers"
    for box, text in known.items():
        if text:
            boxes[box] = text
    boxes.setlist("wants", ["shaft"])
    return boxes
