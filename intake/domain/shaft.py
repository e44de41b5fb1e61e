"""The shaft a sheet asks for, as it leaves by the API: size, lengths, gap, fit and routes."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple

from catalog.domain.lengths import Length
from intake.domain.case import Case
from intake.domain.estimate import Estimate


class RouteUsed(NamedTuple):
    """One way to the length: boat, tail, old_shaft or history; ``u_nm`` one standard deviation."""

    route: str
    length: Length
    u_nm: float
    used: bool
    how: str

    def as_json(self) -> dict[str, Any]:
        """The route as the API gives it."""
        return {
            "route": self.route,
            "length": self.length.as_json(),
            "standard_uncertainty_mm": mm_places(self.u_nm),
            "used": self.used,
            "how": self.how,
        }


@dataclass(frozen=True, slots=True)
class Shaft:
    """The shaft the sheet asks for: nominal size, lengths, the gap it will leave, how sure."""

    system: str
    nominal: Length
    exact: Length
    cut: Length
    overall: Length
    u_nm: float
    predicted_gap: Length
    fit_probability: float
    routes: tuple[RouteUsed, ...]

    def as_json(self) -> dict[str, Any]:
        """The shaft as the API gives it."""
        return {
            "nominal": {"system": self.system, **self.nominal.as_json()},
            "exact_length": self.exact.as_json(),
            "cut_length": self.cut.as_json(),
            "overall_length": self.overall.as_json(),
            "standard_uncertainty_mm": mm_places(self.u_nm),
            "predicted_gap": self.predicted_gap.as_json(),
            "fit_probability": round(self.fit_probability, 4),
            "routes": [route.as_json() for route in self.routes],
        }


def shaft_of(case: Case) -> Shaft | None:
    """The shaft of a case, or None where none is wanted or can be computed."""
    if "shaft" not in case.sheet.wants or case.size is None or case.routes is None:
        return None
    if case.exact is None or case.cut is None or case.gap is None or case.overall is None:
        return None
    return Shaft(
        system=case.size.system,
        nominal=case.size.diameter,
        exact=case.exact,
        cut=case.cut,
        overall=case.overall,
        u_nm=case.u_nm,
        predicted_gap=case.gap,
        fit_probability=case.fit,
        routes=routes_shown(case),
    )


def routes_shown(case: Case) -> tuple[RouteUsed, ...]:
    """The ways to the length as they are shown: boat and tail apart, though believed together."""
    routes, band = case.routes, case.band
    if routes is None or band is None:
        return ()
    goal, used = Estimate(band.goal.nm, {}), routes.believed
    found: list[RouteUsed] = []
    if routes.strut:
        to_hub = routes.strut.plus(goal)
        by_hub = routes.hub_tail if routes.hub_tail or routes.taped_tail else routes.tail
        if by_hub:
            how = "strut + gap + hub + nut and thread" if routes.hub_tail else "strut + fixed tail"
            found.append(_shown("boat", to_hub.plus(by_hub), "boat" in used, how))
        if routes.taped_tail:
            how = "strut + gap + (tail - gap as it is)"
            found.append(_shown("tail", to_hub.plus(routes.taped_tail), "boat" in used, how))
    if routes.old:
        assumed = "" if case.sheet.length("gap_now") is not None else ", gap assumed"
        how = f"old shaft + gap wanted - gap as it was{assumed}"
        found.append(_shown("old_shaft", routes.old, "old_shaft" in used, how))
    if routes.past:
        how = "last shaft supplied + gap wanted - gap as fitted"
        found.append(_shown("history", routes.past, "history" in used, how))
    return tuple(found)


def _shown(route: str, estimate: Estimate, used: bool, how: str) -> RouteUsed:
    return RouteUsed(route, Length(estimate.nm), estimate.u_nm, used, how)


def mm_places(nm: float) -> str:
    """A standard uncertainty in millimetres with two places, as text."""
    return f"{nm / 1_000_000:.2f}"
