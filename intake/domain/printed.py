"""The example lengths that the form and its refusals print: a sheet of them was copied."""

from __future__ import annotations

from catalog.domain.refusals import EXAMPLES
from catalog.domain.tape import read_length

# One length three ways, printed where the customer chooses the tape's unit.
FORM_EXAMPLES = ("44 1/8 in", "1121 mm", "3 ft 8 1/8 in")

PRINTED_NM: frozenset[int] = frozenset(
    read_length(text).length.nm for text in (*FORM_EXAMPLES, *EXAMPLES)
)
