"""Several boats of one customer at once: which of their lengths must differ."""

from __future__ import annotations

from dataclasses import dataclass

# What is measured on each boat alone. Diameters, flanges, bearings and what belongs to a gearbox
# come from standards and lists, so that two boats share them by right.
BATCH_LENGTHS = (
    "face_to_strut_aft",
    "face_to_strut_fwd",
    "old_length_face_to_thread",
    "old_length_overall",
    "gap_now",
    "tail_to_thread",
    "hub_length",
    "rudder_clear",
    "gland_position",
)


@dataclass(frozen=True, slots=True)
class Alike:
    """Another boat's open request, and which of its lengths are this sheet's to the mark.

    ``days``: how long before this one it came; 0 where both carry the same order number.
    """

    reference: str
    answers: tuple[str, ...]
    days: int = 0
