"""The stack-up as it is stored: every station to one datum, for the drawing and the papers."""

from __future__ import annotations

from typing import Any

from catalog.domain.lengths import Length
from intake.domain.case import Case
from intake.domain.gap_range import as_record
from intake.domain.routes import nut_standoff
from intake.domain.trim import trim_length

MEASURED, COMPUTED, ASSUMED = "measured", "computed", "assumed"
# A published table's value; or the desk's own, where none is published.
TABLE, DESK = "table", "desk"


def stack_up(case: Case) -> dict[str, Any]:
    """Lengths as exact millimetre text from the coupling face (x = 0), and how each is known.

    Empty where the case has no size; None stands where one station is not known.
    """
    sheet, routes, band, size = case.sheet, case.routes, case.band, case.size
    if routes is None or band is None or size is None:
        return {}
    strut = Length(routes.strut.nm) if routes.strut else None
    front = sheet.part("front_end", "showing") if case.passes_through else None
    return {
        "layout": sheet.choice("drive_layout") or "inline",
        "system": size.system,
        "nominal": size.diameter.as_json(),
        "alloy": case.alloy,
        "x_strut_aft": _mm(strut),
        "x_strut_fwd": _mm(_strut_forward(case, strut)),
        "gap_goal": _mm(band.goal),
        "gap_min": _mm(band.least),
        "gap_max": _mm(band.most),
        "hub_length": _mm(sheet.length("hub_length")),
        "nut_standoff": _mm(nut_standoff(size, case.end, case.limits)),
        "nose": _mm(case.nose),
        "taper_length": _mm(case.end.taper_length if case.end else None),
        "thread": case.end.thread if case.end else None,
        "keyway_width": _mm(case.end.keyway_width if case.end else None),
        "end_confidence": case.end.confidence if case.end else None,
        "length": _mm(case.cut),
        "exact_length": _mm(case.exact),
        "overall": _mm(case.overall),
        "front_length": _mm(front),
        "gearbox_through": _mm(sheet.length("gearbox_through") if case.passes_through else None),
        "predicted_gap": _mm(case.gap),
        "tail": _mm(case.cut - strut if case.cut and strut else None),
        "u_mm": f"{case.u_nm / 1_000_000:.4f}",
        "fit_probability": case.fit,
        "explained": as_record(case.explained),
        "trim_length": _mm(trim_length(case)),
        "marks": _marks(case),
    }


def _strut_forward(case: Case, aft: Length | None) -> Length | None:
    if aft is None:
        return None
    barrel = case.sheet.length("strut_barrel")
    return aft - barrel if barrel else None


def _marks(case: Case) -> dict[str, str]:
    sheet = case.sheet

    def said(slug: str, otherwise: str) -> str:
        return MEASURED if slug in sheet.readings else otherwise

    return {
        "face_to_strut_aft": said("face_to_strut_aft", COMPUTED),
        "gap": COMPUTED,
        "hub_length": said("hub_length", ASSUMED),
        "tail": COMPUTED,
        "length": COMPUTED,
        "overall": COMPUTED,
        "diameter": said("dia_clean", said("bearing_id_or_mark", ASSUMED)),
        "gearbox_through": said("gearbox_through", ASSUMED),
        "front_length": MEASURED if sheet.part("front_end", "showing") else ASSUMED,
        "nut_standoff": TABLE if case.end else DESK,
        "nose": COMPUTED if sheet.choices.get("pin_end") else ASSUMED,
    }


def _mm(length: Length | None) -> str | None:
    return length.mm_text if length is not None else None
