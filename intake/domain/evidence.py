"""What a sheet says about how it was measured, as far as it makes a slip likelier or rarer."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.ends import ShaftEnd
from catalog.domain.lengths import inches, mm
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.methods import uncertainty_nm
from intake.domain.sheet import Reading, Sheet
from intake.domain.strut import agrees

_THREE_QUARTERS = (inches("3/4"), mm(19))
_DRIVELINE = frozenset({"engine", "gearbox"})


def evidence_of(
    sheet: Sheet, end: ShaftEnd | None, history: History, limits: Limits
) -> frozenset[str]:
    """The names, in ``limits.evidence``, of all that this sheet gives evidence of."""
    return frozenset(
        (
            *_of_the_strut(sheet, limits),
            *_of_the_old_shaft(sheet, end, limits),
            *_of_the_gap(sheet),
            *_of_the_boat(sheet, history, limits),
        )
    )


def _of_the_strut(sheet: Sheet, limits: Limits) -> Iterator[str]:
    strut = sheet.readings.get("face_to_strut_aft")
    if strut is None:
        return
    if "rod" in (strut.method, strut.again.method if agrees(strut, limits) and strut.again else ""):
        yield "rod"
    if strut.method == "laser" or sheet.part("shaft_angle", "along") == "floor":
        yield "level_or_floor"
    elif sheet.part("shaft_angle", "along") == "shaft":
        yield "along_the_shaft_said"
    if sheet.choices.get("forward_datum") == "gearbox_face":
        yield "datum_said"
    if sheet.choices.get("shaft_in") == "in":
        yield "shaft_in_place"
    if agrees(strut, limits):
        yield "strut_read_again"
    if _ends_go_with_the_barrel(sheet, strut, limits):
        yield "both_strut_ends"


def _ends_go_with_the_barrel(sheet: Sheet, strut: Reading, limits: Limits) -> bool:
    forward, barrel = sheet.length("face_to_strut_fwd"), sheet.length("strut_barrel")
    if forward is None or barrel is None:
        return False
    return abs(strut.length.nm - forward.nm - barrel.nm) <= limits.barrel.nm


def _of_the_old_shaft(sheet: Sheet, end: ShaftEnd | None, limits: Limits) -> Iterator[str]:
    nose = sheet.choices.get("pin_end")
    if nose in ("yes", "no"):
        yield "nose_seen" if nose == "yes" else "no_nose"
    old = sheet.readings.get("old_length_face_to_thread")
    if old is None:
        return
    if agrees(old, limits):
        yield "old_read_again"
    overall = sheet.length("old_length_overall")
    if overall is None or end is None:
        return
    if abs(overall.nm - old.length.nm - end.nose.nm) <= limits.nose_near.nm:
        yield "nose_left_out"


def _of_the_gap(sheet: Sheet) -> Iterator[str]:
    if sheet.part("coupling_state", "is") == "tight":
        yield "coupling_bolted"
    if "tail_to_thread" in sheet.readings:
        yield "tail_taped"
    gap = sheet.readings.get("gap_now")
    if gap is None:
        yield "gap_as_if_assumed"
        return
    if gap.method == "drill_shank" and not loosely_held(sheet):
        yield "gap_by_drill_bolted"
    said_roughly = gap.u_nm > uncertainty_nm("gap_now", gap.method)
    if gap.length in _THREE_QUARTERS or said_roughly:
        yield "gap_as_if_assumed"


def loosely_held(sheet: Sheet) -> bool:
    """True where the coupling was not tight or the propeller not home as the gap was taken."""
    state = sheet.part("coupling_state", "is") or sheet.choice("coupling_state")
    return state != "tight" or sheet.choice("prop_seated") != "seated"


def _of_the_boat(sheet: Sheet, history: History, limits: Limits) -> Iterator[str]:
    changed = sheet.lists.get("changed_since_shaft", ())
    if not _DRIVELINE.isdisjoint(changed):
        yield "driveline_changed"
    if changed == ("nothing",):
        yield "nothing_changed"
    if sheet.station in ("port", "starboard"):
        yield "twin"
    if sheet.contact.role == "yard" and history.fitted_orders > limits.practised_orders:
        yield "practised_yard"
