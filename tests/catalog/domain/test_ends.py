"""Standard ends: nine inch sizes by the table, and nothing invented beside them."""

from __future__ import annotations

import pytest

from catalog.domain.ends import shaft_end
from catalog.domain.lengths import inches, mm

# D: taper length, nut face to thread end, nose, thread.
ENDS = {
    "3/4": ("2", "13/16", "1/4", "1/2-13"),
    "7/8": ("2 3/8", "1", "1/4", "5/8-11"),
    "1": ("2 3/4", "1 3/16", "5/16", "3/4-10"),
    "1 1/8": ("3 1/8", "1 3/16", "5/16", "3/4-10"),
    "1 1/4": ("3 1/2", "1 3/8", "3/8", "7/8-9"),
    "1 3/8": ("3 7/8", "1 9/16", "7/16", "1-8"),
    "1 1/2": ("4 1/4", "1 3/4", "7/16", "1-1/8-7"),
    "1 3/4": ("5", "2", "1/2", "1-1/4-7"),
    "2": ("5 3/4", "2 3/8", "1/2", "1-1/2-6"),
}


@pytest.mark.parametrize("size", ENDS)
def test_the_nine_ends(size: str) -> None:
    end = shaft_end("inch", inches(size))
    assert end
    found = (end.taper_length, end.nut_standoff, end.nose)
    assert found == tuple(inches(text) for text in ENDS[size][:3])
    assert end.thread == ENDS[size][3]
    assert end.small_end_min < end.small_end < end.small_end_max < end.diameter
    assert end.thread_length == end.nut_standoff + inches("1/4")
    assert end.source == "SAE J755 (MAY2015), Table 1"


def test_an_end_is_no_surer_than_its_least_sure_value() -> None:
    """The nose is from memory at every size, so every end is to be verified before cutting."""
    ends = [shaft_end("inch", inches(size)) for size in ENDS]
    assert {end.confidence for end in ends if end} == {"memory"}


@pytest.mark.parametrize(
    ("system", "diameter"),
    [("inch", inches("2 1/4")), ("inch", inches("1 1/16")), ("mm", mm(25)), ("mm", inches(1))],
)
def test_no_table_no_end(system: str, diameter: object) -> None:
    assert shaft_end(system, diameter) is None  # type: ignore[arg-type]
