"""For `intake/checks/layout.py` and `twins.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from typing import Any

from catalog.domain.lengths import inches
from intake.domain.history import History
from tests.given import a_sheet
from tests.intake.checks.examples.given import Examples, Histories, tape


def side(station: str, **answers: Any) -> dict[str, Any]:
    """The clean boat as one of two shafts."""
    return {"boat_name_and_station": {"name": "Biscuit Barrel", "station": station}, **answers}


def beside(**answers: Any) -> History:
    """A port side whose sheet says this."""
    return History(sister=a_sheet(**side("port", **answers)), sister_station="port")


def sides_were(port: str, starboard: str) -> History:
    """What was supplied for each side before."""
    return History(last_by_side=(("port", inches(port)), ("starboard", inches(starboard))))


PORT_WAS_45 = {"face_to_strut_aft": tape("45 1/8", "rod")}
# The rudder 17 in behind the tip of a shaft of 17 in and a little: the shaft comes out before it.
SHORT = {
    "shaft_in": "in",
    "rudder_clear": tape("17 3/16", "tape_short"),
    "face_to_strut_aft": tape("12", "rod"),
    "old_length_face_to_thread": tape("16 7/8"),
}

EXAMPLES: Examples = {
    "log-clearance": (
        {"log_id": tape("1 1/4", "caliper")},
        {"log_id": tape("1 15/64", "caliper")},
    ),
    # The gap stays as it is; the hub is 2 15/16 and needs half an inch more.
    "rudder-clear": (
        {"rudder_clear": tape("3 7/16", "tape_short")},
        {"rudder_clear": tape("3 27/64", "tape_short")},
    ),
    "withdrawal-path": (SHORT, {**SHORT, "rudder_clear": tape("17 11/64", "tape_short")}),
    "afloat-vs-strut": (
        {"afloat_or_ashore": "ashore", "face_to_strut_aft": tape("44 1/8", "papers")},
        {"afloat_or_ashore": "afloat", "face_to_strut_aft": tape("44 1/8", "papers")},
    ),
    "twin-symmetry": (side("starboard"), side("starboard")),
    "twin-rotation": (
        side("starboard", rotation="right"),
        side("starboard", rotation="left"),
    ),
    # 49 is what the starboard side had; within an eighth of the port side's it may be either.
    "side-swapped": (side("starboard"), side("starboard")),
}
HISTORY: Histories = {
    "twin-symmetry": (
        beside(**PORT_WAS_45),
        beside(face_to_strut_aft=tape("45 9/64", "rod")),
    ),
    "twin-rotation": (beside(rotation="left"), beside(rotation="left")),
    "side-swapped": (
        sides_were("49", "49 1/8"),
        sides_were("49", "49 9/64"),
    ),
}
