"""A case: one sheet with everything computed from it, ready to be looked at."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.ends import ShaftEnd
from catalog.domain.lengths import Length
from catalog.domain.stock import Stock
from intake.domain.cut import Chances, choose_cut
from intake.domain.diameter import Diameter, Size, judge_diameter, nearest_size
from intake.domain.diameter_evidence import evidence_of
from intake.domain.estimate import Estimate
from intake.domain.explain import Explanation
from intake.domain.fit import Band, fit_probability, gap_band
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.routes import Routes, end_of, find_routes
from intake.domain.sheet import Reading, Sheet
from intake.domain.weighing import weigh

NO_LENGTH = Length(0)


@dataclass(frozen=True, slots=True, eq=False)
class Case:
    """The sheet, the facts around it, and what they come to. None where inputs are missing.

    Two cases are the same only if they are one object: what several checks read off it is kept
    for them under it.

    ``nose`` is the plain end past the threads; ``overall`` the bar from tip to tip.
    ``probability`` is the chance of a fair gap from noise alone; ``fit`` the honest one, with
    every slip that could still be hiding; ``fit_that_can_show`` what decides whether to ask;
    ``explained`` what both are made of.
    """

    sheet: Sheet
    stock: Stock
    history: History
    limits: Limits
    diameter: Diameter | None = None
    size: Size | None = None
    end: ShaftEnd | None = None
    band: Band | None = None
    routes: Routes | None = None
    exact: Length | None = None
    cut: Length | None = None
    gap: Length | None = None
    u_nm: float = 0.0
    probability: float = 0.0
    nose: Length = NO_LENGTH
    overall: Length | None = None
    explained: tuple[Explanation, ...] = ()
    fit: float = 0.0
    fit_that_can_show: float = 0.0

    @property
    def alloy(self) -> str:
        """The alloy wanted, or the desk's default for the shaft's system."""
        if self.sheet.alloy or self.size is None:
            return self.sheet.alloy
        inch = self.size.system == "inch"
        return self.limits.alloy_inch if inch else self.limits.alloy_metric

    @property
    def passes_through(self) -> bool:
        """True where the shaft goes right through the gearbox."""
        return self.sheet.choice("drive_layout") == "v_pass_through"

    @property
    def bearing_size(self) -> Size | None:
        """The stocked size of the bearing's bore, where one lies near what was read."""
        return snapped(self, "bearing_id_or_mark")

    def metric_or_inch(self, in_inches: Length, in_mm: Length) -> Length:
        """The limit for this shaft's system."""
        return in_mm if self.size is not None and self.size.system == "mm" else in_inches


def snapped(case: Case, slug: str) -> Size | None:
    """The stocked size nearest to a reading, if it lies within 3 u of it (1/128 in at least).

    A measured one that could be the shaft's own size is the shaft's; a mark is taken at its word.
    """
    reading = case.sheet.readings.get(slug)
    if reading is None:
        return None
    near = max(case.limits.snap_u * reading.u_nm, case.limits.snap_least.nm)
    if case.size and reading.u_nm and _within(reading, case.size, near):
        return case.size
    size = nearest_size(reading.length)
    return size if _within(reading, size, near) else None


def _within(reading: Reading, size: Size, near: float) -> bool:
    return abs(size.diameter.nm - reading.length.nm) <= near


def build_case(sheet: Sheet, stock: Stock, history: History, limits: Limits) -> Case:
    """Compute all that the checks look at: size, routes, cut length, gap, fit probability."""
    diameter = _diameter(sheet, limits)
    if diameter is None:
        return Case(sheet, stock, history, limits)
    size = diameter.best
    end, band = end_of(size), gap_band(size, limits)
    routes = find_routes(sheet, size, end, band, history, limits)
    nose = _nose(sheet, end)
    known = (sheet, stock, history, limits, diameter, size, end, band, routes)
    if routes.best is None:
        return Case(*known, nose=nose)
    exact = Length(routes.best.nm)
    explained = weigh(sheet, routes, end, nose, history, limits)
    chances = Chances(exact, routes.best.u_nm, band, explained, routes.independent > 1)
    cut = choose_cut(chances, size, _known_good(sheet, band), limits)
    return Case(
        *known,
        exact=exact,
        cut=cut.length,
        gap=cut.gap,
        u_nm=chances.u_nm,
        probability=cut.by_noise,
        nose=nose,
        overall=_overall(sheet, cut.length, nose),
        explained=explained,
        fit=cut.honest,
        fit_that_can_show=cut.that_can_show,
    )


def _nose(sheet: Sheet, end: ShaftEnd | None) -> Length:
    """None on metric ends, and where it was said that there is none."""
    return Length(0) if end is None or sheet.choice("pin_end") == "no" else end.nose


def _overall(sheet: Sheet, cut: Length, nose: Length) -> Length:
    """The cut length and the nose; on a pass-through the front end too."""
    through = sheet.choice("drive_layout") == "v_pass_through"
    front = sheet.part("front_end", "showing") if through else None
    return cut + nose + (front or Length(0))


def _diameter(sheet: Sheet, limits: Limits) -> Diameter | None:
    """From the clean stretch; where that cannot be had, from the bearing that runs on it."""
    reading = sheet.readings.get("dia_clean") or sheet.readings.get("bearing_id_or_mark")
    if reading is None:
        return None
    told = evidence_of(sheet)
    return judge_diameter(reading.length.nm, reading.u_nm, sheet.tape_unit, limits, told)


def _known_good(sheet: Sheet, band: Band) -> Length | None:
    """The old shaft's own length, where it ran with its gap inside the band."""
    gap = sheet.length("gap_now")
    if gap is None or not band.least <= gap <= band.most:
        return None
    return sheet.length("old_length_face_to_thread")


def improved(case: Case, moves: dict[str, float]) -> float:
    """The fit probability if those readings were this sure, everything else as it is."""
    if case.routes is None or case.routes.best is None or case.band is None or case.gap is None:
        return 0.0
    better = Estimate(0, {**case.routes.best.moves, **moves})
    return fit_probability(case.gap.nm, max(better.u_nm, 1.0), case.band)
