"""A shaft as it was made, for whoever reads its tag: a drawing and facts, nothing personal."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalog.domain.lengths import Length
from intake.domain.shapes import Drawing
from quotes.domain.cut_drawing import cut_drawing
from quotes.domain.cut_words import small_end, station_rows
from quotes.domain.order import Shaft
from quotes.domain.stations import chain


def as_made_drawing(
    stack: Mapping[str, Any], shaft: Shaft, length: Length | None, small: Length | None
) -> Drawing:
    """The shaft with every station at the length it was made; as accepted where not measured."""
    made = length or shaft.length
    moved = {
        **stack,
        "length": made.mm_text,
        "overall": (shaft.overall + (made - shaft.length)).mm_text,
        "x_strut_aft": None,  # where the strut stands is the boat's own matter
        "x_strut_fwd": None,
    }
    stations = chain(moved)
    held = "as made" if length else "as ordered"
    return cut_drawing(stations, station_rows(stations), shaft, small or small_end(shaft), held)
