"""Stored stack-ups for the cut sheet: every size of the table, and a boat around it."""

from __future__ import annotations

from typing import Any

from catalog.domain.ends import ShaftEnd, shaft_end
from catalog.domain.lengths import Length, inches
from catalog.domain.standards import subjects

SIZES = tuple(
    inches(size.removesuffix(" in").replace("-", " ")) for size in subjects("j755_shaft_ends")
)


def the_end(diameter: Length) -> ShaftEnd:
    """The table's end of one of its sizes."""
    end = shaft_end("inch", diameter)
    assert end is not None
    return end


def a_stack(
    diameter: Length = inches(1),
    length: Length = inches(49),
    *,
    nose: bool = True,
    **changes: Any,
) -> dict[str, Any]:
    """A stack-up as a sheet stores it, of a shaft that stands in the boat as it should."""
    end = the_end(diameter)
    past = end.nose if nose else Length(0)
    hub = end.taper_length + inches("1/4")
    aft = length - end.nut_standoff - hub - inches("3/4")
    return {
        "layout": "inline",
        "system": "inch",
        "nominal": diameter.as_json(),
        "length": length.mm_text,
        "overall": (length + past).mm_text,
        "x_strut_aft": aft.mm_text,
        "x_strut_fwd": None,
        "hub_length": hub.mm_text,
        "predicted_gap": inches("3/4").mm_text,
        "nut_standoff": end.nut_standoff.mm_text,
        "taper_length": end.taper_length.mm_text,
        "nose": past.mm_text,
        "front_length": None,
        "end_confidence": end.confidence,
        **changes,
    }
