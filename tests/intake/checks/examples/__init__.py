"""One accepted and one questioned sheet for every check, by the file of the check."""

from __future__ import annotations

from tests.intake.checks.examples import (
    bearing,
    budget,
    coupling,
    decimals,
    desk,
    diameter,
    ends,
    entry,
    gap,
    gap_now,
    habits,
    history,
    layout,
    lengths,
    needed,
    pieces,
    slips,
    strength,
    units,
)

_FILES = (
    units,
    entry,
    needed,
    decimals,
    habits,
    lengths,
    slips,
    pieces,
    budget,
    gap_now,
    gap,
    diameter,
    bearing,
    coupling,
    ends,
    strength,
    layout,
    history,
    desk,
)
EXAMPLES = {name: pair for file in _FILES for name, pair in file.EXAMPLES.items()}
# The facts around the sheet, where a check looks at them: (for the accepted, for the questioned).
HISTORY = {name: pair for file in _FILES for name, pair in file.HISTORY.items()}
# The limits it is judged by, where the usual ones never ask.
LIMITS = needed.LIMITS
