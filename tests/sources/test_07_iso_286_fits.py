"""Outside check 7: ISO fits, by the package `pressfit`.

Source: ISO 286-2 as `pressfit` 0.1.0 (MIT, from the package registry) gives it: 50 H7/p6 is
(-42, -1) µm, 50 H7/g6 (9, 50) µm. Two tables of shaft tolerances and ISO 286-2:1988 with
Corrigendum 1:2006 stand behind the rows of data/iso286_vectors.csv.

What is ours here is the table of ANSI B4.1 interference fits, which names its ISO likeness in each
heading (LN1 = H6/n5, LN2 = H7/p6, FN2 = H7/s6; the likeness is from memory). The two agree to two
ten-thousandths of an inch. The rows of check values are a check of the package against printed
tables, and say so: no code of ours computes an ISO fit.
"""

from __future__ import annotations

import pressfit
import pytest

from catalog.domain.lengths import inches, mm
from catalog.domain.standards import subjects, value
from tests.sources.vectors import rows

ROWS = rows("iso286_vectors")
B4_1 = "ansi_b4_1_interference"
LIKE = {"LN1": "H6/n5", "LN2": "H7/p6", "FN2": "H7/s6"}
MICROMETRES_PER_THOUSANDTH = 25.4


@pytest.mark.parametrize("subject", [s for s in subjects(B4_1) if s.split()[-1] in LIKE])
def test_our_inch_fits_are_the_iso_fits_they_are_named_after(subject: str) -> None:
    low, high, fit = subject.replace("-", " ").replace(" in ", " ").split()
    middle = (inches(low).in_mm + inches(high).in_mm) / 2
    loosest, tightest = pressfit.fit(LIKE[fit], middle).clearance_um
    for quantity, microns in (("interference_min", -tightest), ("interference_max", -loosest)):
        ours = float(value(B4_1, subject, quantity).number)
        assert ours == pytest.approx(microns / MICROMETRES_PER_THOUSANDTH, abs=0.2)


@pytest.mark.parametrize("fit", LIKE)
def test_every_band_has_that_fit(fit: str) -> None:
    assert sum(subject.endswith(fit) for subject in subjects(B4_1)) >= 3


def test_the_named_vectors() -> None:
    """A check of the package against printed tables; the size goes in by way of our lengths."""
    assert pressfit.fit("H7/p6", mm(50).in_mm).clearance_um == (-42, -1)
    assert pressfit.fit("H7/g6", mm(50).in_mm).clearance_um == (9, 50)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['size_mm']}-{row['class_or_fit']}")
def test_the_package_gives_the_printed_limits(row: dict[str, str]) -> None:
    """A check of the package against printed tables: what the test above leans on."""
    low, high, size = int(row["low"]), int(row["high"]), float(row["size_mm"])
    fit = row["class_or_fit"]
    if "/" not in fit:
        hole = "H9" if fit == "f9" else "H7"
        found = pressfit.fit(f"{hole}/{fit}", size)
        assert (found.shaft_ei_um, found.shaft_es_um) == (low, high)
        return
    clearance = pressfit.fit(fit, size).clearance_um
    assert clearance == ((low, high) if row["unit"] == "um clearance" else (-high, -low))
