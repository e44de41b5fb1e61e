"""From a sheet to what explains it: which slips could be in it, and what its differences say."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from catalog.domain.ends import ShaftEnd
from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length
from intake.domain.estimate import Estimate
from intake.domain.evidence import evidence_of
from intake.domain.explain import Explanation, Frame, Moves, explain, prepare
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.routes import Routes
from intake.domain.sheet import Sheet
from intake.domain.slips import OK, Sizes, possible_slips, weights

_READ_AS = {"strut": "face_to_strut_aft", "old": "old_length_face_to_thread"}
_LEVEL_PER_LENGTH = 0.0152  # 1 - cos 10 deg, the usual slope (common practice)
_LEVEL_STEP = NM_PER_INCH // 20


def weigh(
    sheet: Sheet,
    routes: Routes,
    end: ShaftEnd | None,
    nose: Length,
    history: History,
    limits: Limits,
) -> tuple[Explanation, ...]:
    """What explains the sheet's differences, with probabilities; empty without a best length."""
    if routes.best is None:
        return ()
    differences = tuple(differences_of(routes))
    made = frame_for(
        limits,
        sizes_of(sheet, end, nose, limits, far_apart(routes, limits)),
        evidence_of(sheet, end, history, limits),
        tuple(routes.best.moves.items()),
        tuple(tuple(difference.moves.items()) for difference in differences),
        routes.units,
    )
    return explain(made, [float(difference.nm) for difference in differences])


def differences_of(routes: Routes) -> Iterator[Estimate]:
    """Every difference on the sheet that should be nothing but noise."""
    if routes.hub_tail and routes.taped_tail:
        yield routes.taped_tail.minus(routes.hub_tail)
    witnesses = [route for route in (routes.boat, routes.old, routes.past) if route]
    for witness in witnesses[1:]:
        yield witnesses[0].minus(witness)


@lru_cache(maxsize=4096)
def frame_for(
    limits: Limits,
    sizes: Sizes,
    evidence: frozenset[str],
    best: Moves,
    differences: tuple[Moves, ...],
    units: Moves,
) -> Frame:
    """The weighing for one kind of sheet: the same ways of measuring, evidence and sizes."""
    readings = frozenset(name for moves in (best, *differences) for name, _ in moves)
    slips = possible_slips(limits, sizes, evidence, readings)
    return prepare(best, differences, units, slips, weights(limits)[OK])


def far_apart(routes: Routes, limits: Limits) -> bool:
    """True where the two routes differ by more than any datum, so that digits come to mind."""
    return routes.difference is not None and abs(routes.difference.nm) > limits.swap_from.nm


def sizes_of(
    sheet: Sheet, end: ShaftEnd | None, nose: Length, limits: Limits, apart: bool = False
) -> Sizes:
    """The sizes of this boat that slips depend on; digits only where the routes lie far apart."""
    strut = sheet.length("face_to_strut_aft") or Length(0)
    return Sizes(
        gearbox_flange=_nm(sheet.part("flange_thickness", "gearbox")),
        shaft_flange=_nm(sheet.part("flange_thickness", "coupling")),
        coupling_hub=_nm(sheet.length("hub_length_coupling")),
        barrel=_nm(sheet.length("strut_barrel")),
        # In steps, so that boats of about one length share what is prepared for them.
        level=round(strut.nm * _LEVEL_PER_LENGTH / _LEVEL_STEP) * _LEVEL_STEP or None,
        opening=_nm(sheet.part("coupling_state", "opening")),
        feet=strut.nm // (10 * NM_PER_INCH),
        nose=_nose(sheet, end, nose, limits),
        thread_length=_nm(end.thread_length) if end else None,
        through=_through(sheet),
        rubber=_nm(sheet.length("rubber_proud")),
        swapped=tuple(_swapped(sheet)) if apart else (),
        metric=frozenset(
            name
            for name, slug in _READ_AS.items()
            if slug in sheet.readings and sheet.readings[slug].unit in ("mm", "cm", "m")
        ),
    )


def _nose(sheet: Sheet, end: ShaftEnd | None, nose: Length, limits: Limits) -> int:
    """The nose as the table gives it, or as a metric shaft usually has it; none where none is."""
    if end is None and sheet.choice("pin_end") != "no":
        return limits.nose_metric_assumed.nm
    return nose.nm


def _swapped(sheet: Sheet) -> Iterator[tuple[str, int]]:
    """What the exchange of two neighbouring digits would have added to each long number."""
    for name, slug in _READ_AS.items():
        reading = sheet.readings.get(slug)
        if reading is None:
            continue
        unit = NM_PER_MM if reading.unit in ("mm", "cm", "m") else NM_PER_INCH
        digits = str(reading.length.nm // unit)
        for at in range(len(digits) - 1):
            other = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
            if other != digits and other[0] != "0":
                yield name, (int(digits) - int(other)) * unit


def _through(sheet: Sheet) -> int | None:
    """The gearbox that a shaft passes through, unless it is known to be out of the measurement."""
    if sheet.choice("drive_layout") != "v_pass_through":
        return None
    return (
        None
        if sheet.choice("forward_datum") == "gearbox_back"
        else _nm(sheet.length("gearbox_through"))
    )


def _nm(length: Length | None) -> int | None:
    return length.nm if length is not None else None
