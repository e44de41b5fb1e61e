"""ISO 286-2 limits in our check values against the package `pressfit` (MIT, from the registry).

Two tables of shaft tolerances and ISO 286-2:1988 with Corrigendum 1:2006 stand behind the rows.
"""

from __future__ import annotations

import pressfit
import pytest

from tests.sources.vectors import rows

ROWS = rows("iso286_vectors")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['size_mm']}-{row['class_or_fit']}")
def test_the_limits(row: dict[str, str]) -> None:
    low, high, size = int(row["low"]), int(row["high"]), float(row["size_mm"])
    fit = row["class_or_fit"]
    if "/" not in fit:
        hole = "H9" if fit == "f9" else "H7"
        found = pressfit.fit(f"{hole}/{fit}", size)
        assert (found.shaft_ei_um, found.shaft_es_um) == (low, high)
        return
    clearance = pressfit.fit(fit, size).clearance_um
    assert clearance == ((low, high) if row["unit"] == "um clearance" else (-high, -low))


def test_the_named_vectors() -> None:
    assert pressfit.fit("H7/p6", 50).clearance_um == (-42, -1)
    assert pressfit.fit("H7/g6", 50).clearance_um == (9, 50)


def test_an_h_shaft_is_never_above_its_size() -> None:
    h_rows = [row for row in ROWS if row["class_or_fit"].startswith("h")]
    assert len(h_rows) > 50
    assert all(row["high"] == "0" and int(row["low"]) < 0 for row in h_rows)
