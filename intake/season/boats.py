"""True boats: what a perfect tape would find. Inches, as float.

Shares, ranges and spreads are common practice without a source unless a standard is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from random import Random

from catalog.domain.ends import HUB_OVERHANG, shaft_end
from catalog.domain.lengths import Length, inches, mm

MM = 1 / 25.4
METRIC_SHARE = 0.25
# How often a desk meets each size; only sizes whose nut stand-off is known.
INCH_SHARES = {
    "3/4": 6, "7/8": 10, "1": 30, "1 1/8": 26, "1 1/4": 12, "1 3/8": 6, "1 1/2": 5, "1 3/4": 3,
    "2": 2,
}  # fmt: skip
METRIC_SHARES = {"25": 30, "30": 26, "40": 10}
# Metric ends: the demo shop's own stand-off in mm, hubs it meets, and a nose of 8 mm (invented).
METRIC_STANDOFF = {"25": 28, "30": 29, "40": 40}
METRIC_HUBS = {"25": (64, 76), "30": (72, 86), "40": (95, 112)}
METRIC_NOSE = 8 * MM
LAYOUTS = {"inline": 62, "down_angle": 24, "v_rear_flange": 11, "v_pass_through": 3}
STATIONS = {"single": 76, "port": 12, "starboard": 12}
# The gap of the old shaft: most stand near the goal, a few were never right.
GAP_SPREAD = 0.60  # of half the band: 0.15 in on shafts of 1 in and over
NEVER_RIGHT, NEVER_RIGHT_SPREAD = 0.03, 0.6
SEAT_SPREAD = 0.02  # how far nut and seat stray from the standard end
SPACER_SHARE = 0.03


@dataclass(frozen=True, slots=True)
class Boat:
    """One drive line. ``x``: coupling face to strut aft end; ``hub`` + ``standoff``: the tail
    behind the propeller hub's front face; ``old_gap``: the gap the old shaft ran with;
    ``moved``: how far that gap has grown since, because engine or strut moved.
    """

    system: str
    size: Length
    layout: str
    station: str
    x: float
    hub: float
    standoff: float
    nose: float
    thread_length: float
    thread: str
    barrel: float
    gearbox_flange: float
    coupling_flange: float
    coupling_hub: float
    angle: float
    spacer: float
    through: float
    least: float
    goal: float
    most: float
    old_gap: float
    moved: float = 0.0

    @property
    def tail(self) -> float:
        """Hub front face to thread end."""
        return self.hub + self.standoff

    @property
    def old_length(self) -> float:
        """Coupling face to thread end of the old shaft."""
        return self.x + self.gap_now + self.tail

    @property
    def gap_now(self) -> float:
        """The gap the old shaft leaves in the boat as she is today."""
        return self.old_gap + self.moved

    def gap_of(self, length: float) -> float:
        """The gap a shaft of that length leaves."""
        return length - self.x - self.tail

    def is_fair(self, gap: float) -> bool:
        """True where a gap lies inside the band of this shaft; the ends belong to it."""
        return self.least - 1e-9 <= gap <= self.most + 1e-9

    @property
    def half_band(self) -> float:
        """Half the width of the gap's band."""
        return (self.most - self.least) / 2


def a_boat(rng: Random) -> Boat:
    """Draw a boat."""
    metric = rng.random() < METRIC_SHARE
    name = pick(rng, METRIC_SHARES if metric else INCH_SHARES)
    size = mm(name) if metric else inches(name)
    least, goal, most = gap_band(size.in_inches, metric)
    hub, standoff, nose, threads, thread = (_metric_end if metric else _inch_end)(rng, name, goal)
    layout = pick(rng, LAYOUTS)
    return Boat(
        system="mm" if metric else "inch",
        size=size,
        layout=layout,
        station=pick(rng, STATIONS),
        x=_strut_distance(rng, size.in_inches),
        hub=hub,
        standoff=standoff + rng.gauss(0, SEAT_SPREAD),
        nose=nose,
        thread_length=threads,
        thread=thread,
        barrel=_about(rng, 2.0, 0.1),
        gearbox_flange=_about(rng, 0.5, 0.08),
        coupling_flange=_about(rng, 0.5, 0.08),
        coupling_hub=_about(rng, 2.5, 0.4),
        angle=_about(rng, 10.0, 2.2),
        spacer=rng.choice((0.5, 0.75, 1.0)) if rng.random() < SPACER_SHARE else 0.0,
        through=rng.uniform(7.0, 12.0) if layout == "v_pass_through" else 0.0,
        least=least,
        goal=goal,
        most=most,
        old_gap=_old_gap(rng, goal, (most - least) / 2),
    )


def pick(rng: Random, shares: dict[str, int]) -> str:
    """One name, as often as its share says."""
    return rng.choices(list(shares), list(shares.values()))[0]


def gap_band(size: float, metric: bool) -> tuple[float, float, float]:
    """Least, wanted and greatest gap: 1/2, 3/4, 1 in (common practice), never above one diameter
    (ABYC P-6 overhang, from memory); on metric shafts 12.7, 19 and 25.4 mm.
    """
    least, most = 0.5, min(1.0, size)
    if metric:
        return least, 19 * MM, most
    return least, (0.75 if most == 1.0 else (least + most) / 2), most


End = tuple[float, float, float, float, str]


def _inch_end(rng: Random, name: str, goal: float) -> End:
    """Hub, stand-off, nose, thread length, thread. A hub is full length or somewhat shorter: at
    most so much that the standard taper stays out of the bearing at the goal gap.
    """
    end = shaft_end("inch", inches(name))
    if end is None:
        raise ValueError(f"no standard end for {name} in")
    full = (end.taper_length + HUB_OVERHANG).in_inches
    shorter = min(0.45, goal - 0.3, full - 2.1)
    hub = full - rng.triangular(0.0, shorter, shorter / 3)
    lengths = (end.nut_standoff, end.nose, end.thread_length)
    standoff, nose, threads = (length.in_inches for length in lengths)
    return hub, standoff, nose, threads, end.thread


def _metric_end(rng: Random, name: str, goal: float) -> End:
    low, high = METRIC_HUBS[name]
    standoff = METRIC_STANDOFF[name] * MM
    threads = standoff + HUB_OVERHANG.in_inches
    return rng.triangular(low, high) * MM, standoff, METRIC_NOSE, threads, ""


def _strut_distance(rng: Random, size: float) -> float:
    """Longer lines for thicker shafts: 24 to 60 in at 3/4, 38 to 84 in at 2."""
    return rng.triangular(15.6 + 11.2 * size, 45.6 + 19.2 * size, 24 + 20 * size)


def _old_gap(rng: Random, goal: float, half: float) -> float:
    wide = NEVER_RIGHT_SPREAD if rng.random() < NEVER_RIGHT else GAP_SPREAD * half
    return min(max(rng.gauss(goal, wide), 0.06), 2.5)


def _about(rng: Random, usual: float, spread: float) -> float:
    """Normal, kept within three spreads: no flange is without thickness."""
    return min(max(rng.gauss(usual, spread), usual - 3 * spread), usual + 3 * spread)
