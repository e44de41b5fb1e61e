"""The slips people make: this model's own table of kinds, weights, evidence and effects.

Weights are per 1000 sheets that give both routes, against 722 with nothing wrong (common practice,
no source). At most one slip a sheet, but for a rare second. Errors are in inches.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from random import Random

from intake.season import tape
from intake.season.boats import MM, Boat
from intake.season.circumstances import How

NOTHING_WRONG = 722.0
SECOND_SLIP = 0.01  # of sheets with a slip
FIXED_TAIL_HUB = 2.8125  # the hub for which 4-3/4 leaves the goal gap
NO_LIST = ("Z-NOSE", "Z-BLADE", "Z-HOME", "Z-TAPE")

Error = Callable[[Random, Boat], float]
Rewrite = Callable[[tape.Reading, str, Random], tape.Reading]


@dataclass(frozen=True, slots=True)
class Slip:
    """One row: a kind on one reading. ``touches``: x, old, gap, p (the tail's rule), tail, both.

    ``error`` is what the touched reading is off by, ``rewrite`` what becomes of its text.
    """

    code: str
    touches: str
    weight: float
    error: Error | None = None
    rewrite: Rewrite | None = None


@dataclass(frozen=True, slots=True)
class Mistake:
    """A slip that happened: by how much each reading is off, and what is scaled or rewritten."""

    code: str
    touches: str
    off: Mapping[str, float] = field(default_factory=dict)
    scale: float = 1.0
    rewrite: Rewrite | None = None


# -- What a slip does ---------------------------------------------------------------------------


def _by(inch: float, metric_mm: float | None = None) -> Error:
    """A fixed error: whole marks of the tape in hand. On a metric tape the mark next to it."""
    metric = inch if metric_mm is None else metric_mm * MM
    return lambda _rng, boat: metric if boat.system == "mm" else inch


def _normal(mean: float, spread: float) -> Error:
    return lambda rng, _boat: rng.gauss(mean, spread)


def _of_boat(error: Callable[[Boat], float], spread: float = 0.0) -> Error:
    return lambda rng, boat: error(boat) + (rng.gauss(0.0, spread) if spread else 0.0)


def _level(boat: Boat) -> float:
    """Measured level: short by what the slope adds."""
    return -boat.x * (1 - math.cos(math.radians(boat.angle)))


def _on_either(code: str, weight: float, error: Error) -> list[Slip]:
    """Half on the boat's length, half on the old shaft's."""
    return [Slip(code, touches, weight / 2, error) for touches in ("x", "old")]


# A burned inch is 10 mm on a metric tape, the 10 mark 100 mm, a case 75 mm; fractions shrink to
# 1, 2 and 5 mm. That is this model's proportion, no source.
TABLE: tuple[Slip, ...] = (
    Slip("R-BURN-X", "x", 12, _by(1, 10)),
    Slip("R-BURN-O", "old", 10, _by(1, 10)),
    Slip("R-TWICE", "x", 3, _by(-1, -10)),
    Slip("R-TWICE", "old", 3, _by(-1, -10)),
    Slip("R-TEN", "x", 4, _by(10, 100)),
    Slip("R-TEN", "old", 3, _by(10, 100)),
    *_on_either("R-WHOLE", 5, _by(1, 10)),
    *_on_either("R-WHOLE", 5, _by(-1, -10)),
    *_on_either("R-FLIP", 3, _by(0.125, 1)),
    *_on_either("R-FLIP", 3, _by(-0.125, -1)),
    *_on_either("R-FLIP", 2, _by(0.25, 2)),
    *_on_either("R-FLIP", 2, _by(-0.25, -2)),
    *_on_either("R-FLIP", 1, _by(0.5, 5)),
    *_on_either("R-FLIP", 1, _by(-0.5, -5)),
    Slip("R-DECFRAC", "x", 6, rewrite=tape.eighths_as_decimal),
    Slip("R-CASE", "x", 4, lambda rng, boat: rng.gauss(-75, 6) * MM
         if boat.system == "mm" else rng.gauss(-3, 0.25)),
    Slip("R-FTIN", "x", 3, rewrite=tape.feet_run_together),
    Slip("R-SWAP", "x", 2, rewrite=tape.digits_swapped),
    Slip("R-SWAP", "old", 2, rewrite=tape.digits_swapped),
    Slip("D-GBACK", "x", 10, _of_boat(lambda boat: boat.gearbox_flange)),
    Slip("D-CBACK", "x", 14, _of_boat(lambda boat: -boat.coupling_flange)),
    Slip("D-HUB", "x", 8, _of_boat(lambda boat: -boat.coupling_hub)),
    Slip("D-FWD", "x", 10, _of_boat(lambda boat: -boat.barrel)),
    Slip("D-MID", "x", 2, _of_boat(lambda boat: -boat.barrel / 2, 0.1)),
    Slip("D-RUB", "x", 4, _normal(0.19, 0.1)),
    Slip("D-RUB", "x", 1, _normal(-0.19, 0.1)),
    Slip("D-SLOPE", "x", 6, _of_boat(_level)),
    Slip("D-SAG", "x", 8, _normal(0.3, 0.25)),
    Slip("D-OPEN", "x", 7, _normal(-0.3, 0.25)),
    Slip("D-PIN", "old", 14, _of_boat(lambda boat: boat.nose)),
    Slip("D-TAPER", "old", 4, _of_boat(lambda boat: -boat.thread_length)),
    Slip("D-END", "old", 4, _normal(-0.1, 0.1)),
    Slip("G-ASSUME", "gap", 45, _normal(0, 0.75)),
    Slip("G-BLADE", "gap", 6, _normal(0.5, 0.25)),
    Slip("G-SLID", "gap", 8, _normal(0.35, 0.25)),
    Slip("P-RULE", "p", 20, _normal(0, 0.35)),
    Slip("B-MOVED", "old", 12, _normal(0, 1.5)),
    *_on_either("I-OTHER", 6, _normal(0, 4)),
    *_on_either("X", 15, _normal(0, 3)),
)  # fmt: skip
# Numbers in another unit, by the sheet's own; half on each long measurement.
UNITS: Mapping[str, tuple[Slip, ...]] = {
    system: tuple(
        Slip(code, touches, weight / 2, rewrite=rewrite)
        for code, weight, rewrite in rows
        for touches in ("x", "old")
    )
    for system, rows in {
        "inch": (("U-MMIN", 6, tape.other_unit), ("U-CM", 5, tape.centimetres)),
        "mm": (("U-MMIN", 3, tape.other_unit), ("U-CM", 3, tape.centimetres)),
    }.items()
}
# On a shaft through the gearbox: taken from its back.
REAR = Slip("D-REAR", "x", 150, _of_boat(lambda boat: -boat.through, 0.2))
# On no list: both routes are wrong together, and agree. 3 per 1000 where all can happen.
UNLISTED: tuple[Slip, ...] = (
    Slip("Z-NOSE", "tail", 0.75, _of_boat(lambda boat: boat.nose)),
    Slip("Z-BLADE", "tail", 0.75, _normal(0.5, 0.25)),
    Slip("Z-HOME", "tail", 0.75, _normal(0.3, 0.1)),
    Slip("Z-TAPE", "both", 0.75, lambda rng, _boat: -rng.uniform(0.003, 0.012)),
)


# -- How likely each is on a sheet --------------------------------------------------------------


def rows_for(boat: Boat, how: How) -> list[tuple[Slip, float]]:
    """Every slip that this sheet can carry, with its weight times the evidence on it."""
    rows = [*TABLE, *UNITS[boat.system], *UNLISTED]
    if boat.layout == "v_pass_through" and how.datum_said != "gearbox_back":
        rows.append(REAR)
    return [(s, s.weight * evidence(s, boat, how)) for s in rows if _possible(s, boat, how)]


def _possible(slip: Slip, boat: Boat, how: How) -> bool:
    """The reading is on the sheet, and the slip can be made with that tape."""
    if boat.system == "mm" and slip.code in ("R-DECFRAC", "R-FTIN"):
        return False
    blind_tail = bool(how.tail) and not how.hub
    return {
        "x": bool(how.x),
        "old": bool(how.old),
        "gap": bool(how.gap),
        "p": how.tail_by_rule,
        "tail": blind_tail and (slip.code != "Z-NOSE" or how.pin_end != "no"),
        "both": bool(how.x) and bool(how.old),
    }[slip.touches]


def evidence(slip: Slip, boat: Boat, how: How) -> float:
    """What stands on the sheet makes some slips likelier and others not.

    Only what a sheet has a place for: a photo of the hook, a broken hook, a laser and the orders
    of a yard are in no sheet of this season. A start mark told with its number is no slip.
    """
    code, ratio = slip.code, 1.0
    if slip.touches == "x":
        ratio *= _evidence_on_x(code, how)
    if code == "G-ASSUME":
        ratio *= (0.05 if how.gap == "drill_shank" else 1.0) * (3.0 if how.gap_is_the_goal else 1.0)
        ratio *= 0.1 if how.tail else 1.0  # strut and propeller were before the eyes
    if code in ("G-SLID", "G-BLADE") and how.gap == "drill_shank":
        ratio *= 0.2
    if code == "G-SLID" and how.coupling_tight:
        ratio *= 0.3
    if code == "D-PIN":
        ratio *= {"": 1.0, "yes": 4.0, "no": 0.0}[how.pin_end]
    if code == "Z-NOSE" and how.pin_end == "yes":
        ratio *= 0.25
    if code == "B-MOVED":
        ratio *= {"engine": 8.0, "nothing": 0.25}.get(how.changed, 1.0)
    if code == "I-OTHER" and boat.station != "single":
        ratio *= 3.0
    return ratio


def _evidence_on_x(code: str, how: How) -> float:
    ratio = 1.0
    if how.x == "rod":
        ratio *= 0.5 if code.startswith("R-") else 1.0
        ratio *= 0.1 if code in ("D-SLOPE", "D-SAG", "D-OPEN") else 1.0
    if how.shaft_in == "in":
        ratio *= 2.0 if code in ("D-GBACK", "D-CBACK", "D-HUB") else 1.0
        ratio *= 0.1 if code == "D-OPEN" else 1.0
    if how.datum_said == "gearbox_face" and code in ("D-GBACK", "D-CBACK", "D-HUB", "D-REAR"):
        ratio *= 0.25  # who is asked what the hook touched, and says so, has mostly looked
    if how.both_strut_ends and code in ("D-FWD", "D-MID"):
        ratio *= 0.1
    return ratio


def draw(rng: Random, boat: Boat, how: How, only: str = "") -> list[Mistake]:
    """The mistakes of one sheet: mostly none. ``only``: those of one reading, taken later."""
    rows = [row for row in rows_for(boat, how) if not only or row[0].touches == only]
    happened = _one(rng, boat, rows)
    if happened is None:
        return []
    second = None
    if not only and rng.random() < SECOND_SLIP:
        second = _one(rng, boat, [row for row in rows if row[0].touches != happened.touches], 0.0)
    return [happened, second] if second else [happened]


def _one(
    rng: Random, boat: Boat, rows: list[tuple[Slip, float]], right: float = NOTHING_WRONG
) -> Mistake | None:
    at = rng.random() * (right + sum(odds for _slip, odds in rows)) - right
    for slip, odds in rows:
        if 0 <= at < odds:
            return happen(rng, boat, slip)
        at -= odds
    return None


def happen(rng: Random, boat: Boat, slip: Slip) -> Mistake:
    """A slip made: its size is drawn."""
    error = slip.error(rng, boat) if slip.error else 0.0
    if slip.code == "Z-TAPE":
        return Mistake(slip.code, slip.touches, scale=1 + error)
    return Mistake(slip.code, slip.touches, _readings_off(slip, error, rng), rewrite=slip.rewrite)


def _readings_off(slip: Slip, error: float, rng: Random) -> dict[str, float]:
    """Which readings are off. A shaft slid aft takes the tail with it; a propeller not home
    does not; who measures to the nose does so twice.
    """
    if slip.code in ("G-ASSUME", "P-RULE", "B-MOVED"):
        return {slip.touches: error}
    if slip.code == "G-SLID" and rng.random() < 0.5:
        return {"gap": error, "tail": error}
    if slip.code == "Z-NOSE":
        return {"tail": error, "old": error}
    if slip.code in ("Z-BLADE", "Z-HOME"):
        return {"gap": error}
    return {slip.touches: error}


# Slips that are not a false reading: the boat or the old shaft is not what the sheet takes it for.
OF_THE_BOAT = ("G-ASSUME", "P-RULE", "B-MOVED")


def boat_as_it_is(boat: Boat, mistake: Mistake, gap_written: float | None) -> Boat:
    """The boat behind a sheet whose slip is not in the reading."""
    error = mistake.off.get(mistake.touches, 0.0)
    if mistake.code == "G-ASSUME" and gap_written is not None:
        return replace(boat, old_gap=gap_written + error)
    if mistake.code == "P-RULE":
        return replace(boat, hub=FIXED_TAIL_HUB + error)
    if mistake.code == "B-MOVED":
        return replace(boat, moved=error)
    return boat


# What no second reading of this boat brings to light.
_ALWAYS_AGAIN = ("X", "I-OTHER")


def repeats(rng: Random, mistake: Mistake) -> bool:
    """A second reading repeats a datum slip one time in four, a reading slip one in fifty.

    Units are a reading slip; what belongs to another boat, or is on no list, is there again.
    """
    if mistake.code in _ALWAYS_AGAIN:
        return True
    return rng.random() < (0.02 if mistake.code[:2] in ("R-", "U-") else 0.25)
