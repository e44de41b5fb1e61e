"""For `intake/checks/gap.py`: (accepted right at the limit, questioned)."""

from __future__ import annotations

from tests.intake.checks.examples.given import NO_OLD, Examples, Histories, Sheet, tape

# A shaft of 3/4 in: C 2, n 13/16, gap 1/2 to 3/4; hub 2 1/4 and a goal of 5/8.
_THIN: Sheet = {
    "without": ("tail_to_thread", *NO_OLD),
    "dia_clean": tape("3/4", "caliper"),
    "hub_length": tape("2 1/4", "caliper"),
    "flange_od": tape("3 1/2", "tape_short"),
}

EXAMPLES: Examples = {
    "gap-goal-by-diameter": (
        {"dia_clean": tape("1", "caliper")},
        {"dia_clean": tape("7/8", "caliper")},
    ),
    # A collar of 7/8 with an eighth to spare fills one diameter of a 1 in shaft.
    "gap-over-one-diameter": (
        {"between_strut_and_propeller": {"kind": "anode", "length": "7/8"}},
        {"between_strut_and_propeller": {"kind": "anode", "length": "57/64"}},
    ),
    # At dead centre 2 u of 0.054 reach 0.108 of an eighth; a 64th off centre they reach past it.
    "gap-proposed-band": (
        {**_THIN, "face_to_strut_aft": tape("44 3/16", "rod")},
        {**_THIN, "face_to_strut_aft": tape("44 13/64", "rod")},
    ),
    # C + 1/4 - hub = 1/8: with a hub of 2 7/8 the taper starts in the gap; with 2 1/8, 1/8 inside.
    "taper-in-bearing": (
        {"without": ("tail_to_thread", *NO_OLD), "hub_length": tape("2 1/4", "caliper")},
        {"without": ("tail_to_thread", *NO_OLD), "hub_length": tape("2 1/8", "caliper")},
    ),
    # On 3/4 in the gap aimed at is 5/8, an eighth over the least; rounded short it is less.
    "soft-mounts": (
        {**_THIN, "face_to_strut_aft": tape("44 3/16", "rod"), "engine_mounts": "soft"},
        {**_THIN, "face_to_strut_aft": tape("44 7/32", "rod"), "engine_mounts": "soft"},
    ),
}
HISTORY: Histories = {}
