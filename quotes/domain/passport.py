"""A shaft as it was made, for whoever reads its tag: a drawing and facts, nothing personal."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalog.domain.lengths import Length
from intake.domain.shapes import Drawing
from quotes.domain.cut_drawing import cut_drawing
from quotes.domain.cut_facts import StationRow
from quotes.domain.cut_words import small_end, station_rows
from quotes.domain.order import Shaft
from quotes.domain.stations import Chain, chain


def as_made_chain(stack: Mapping[str, Any], shaft: Shaft, length: Length | None) -> Chain:
    """Every station at the length it was made; as accepted where that was not measured."""
    made = length or shaft.length
    moved = {
        **stack,
        "length": made.mm_text,
        "overall": (shaft.overall + (made - shaft.length)).mm_text,
        "x_strut_aft": None,  # where the strut stands is the boat's own matter
        "x_strut_fwd": None,
    }
    return chain(moved)


def as_made_stations(
    stack: Mapping[str, Any], shaft: Shaft, length: Length | None
) -> tuple[StationRow, ...]:
    """The same as lines of a table, with the letters of the drawing."""
    return station_rows(as_made_chain(stack, shaft, length))


def as_made_drawing(
    stack: Mapping[str, Any], shaft: Shaft, length: Length | None, small: Length | None
) -> Drawing:
    """The shaft drawn with these stations. ``small``: the small end as measured."""
    stations = as_made_chain(stack, shaft, length)
    held = "as made" if length else "as ordered"
    return cut_drawing(stations, station_rows(stations), shaft, small or small_end(shaft), held)
