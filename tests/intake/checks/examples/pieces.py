"""For `intake/checks/pieces.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import NO_HUB, Examples, Histories, tape

EXAMPLES: Examples = {
    # C + 5/8 + n of a 1 in shaft is 4 9/16: with 44 1/8 and a gap of 3/4 the old shaft is 49 7/16.
    "implied-tail": (
        {"without": NO_HUB, "old_length_face_to_thread": tape("49 7/16")},
        {"without": NO_HUB, "old_length_face_to_thread": tape("49 29/64")},
    ),
    "pieces-sum": (
        {
            "face_to_strut_aft": tape("44 1/8", "pieces"),
            "pieces": {"inner": "12 1/8", "log": "20", "outer": "12 1/4"},
        },
        {
            "face_to_strut_aft": tape("44 1/8", "pieces"),
            "pieces": {"inner": "12 1/8", "log": "20", "outer": "12 17/64"},
        },
    ),
    "driveline-changed": (
        {"changed_since_shaft": ["propeller"]},
        {"changed_since_shaft": ["propeller", "mounts"]},
    ),
    "datum-aft": (
        {"rubber_proud": tape("3/64", "rule")},
        {"rubber_proud": tape("1/16", "rule")},
    ),
    "spacer-in-stack": (
        {"flex_or_spacer": {"kind": "none"}},
        {"flex_or_spacer": {"kind": "disc", "thickness": "1"}},
    ),
    # The old shaft puts the strut at 49 - 4 1/8 - 3/4 = 44 1/8, 3 u of that and of the band 0.34.
    "polished-band-evidence": (
        {"polished_bands": [["12", "14"], ["42 1/8", "44 7/16"]]},
        {"polished_bands": [["12", "14"], ["42 1/8", "44 1/2"]]},
    ),
    "coupling-recess": ({"front_shape": "flush"}, {"front_shape": "sunk"}),
}
HISTORY: Histories = {}
