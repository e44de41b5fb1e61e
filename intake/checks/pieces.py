"""What lies along the shaft: pieces, spacer, rubber, recess, the old shaft's marks."""

from __future__ import annotations

import math
from collections.abc import Iterator

from intake.checks.base import LENGTHS, OLD, STRUT, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "implied-tail",
    Severity.ASK,
    ask="What do you get from the strut straight to the thread end?",
    source="common practice; SAE J755 geometry",
    inputs=LENGTHS,
    needs=("face_to_strut_aft", "old_length_face_to_thread", "gap_now"),
    likely={"O-OLDSHAFT": 3, "D-FWD": 2, "D-PIN": 2},
)
def the_tail_left_over_is_a_hub(case: Case) -> Iterator[Mismatch]:
    """Old length less strut distance less gap leaves a tail that no propeller hub could fill.

    One of the three is wrong. Where hub or tail is measured they are compared directly instead.
    """
    routes, end, band, limits = case.routes, case.end, case.band, case.limits
    if routes is None or end is None or band is None or routes.hub_tail or routes.taped_tail:
        return
    if routes.old is None or routes.strut is None:
        return
    implied = routes.old.nm - band.goal.nm - routes.strut.nm - end.nut_standoff.nm
    least = end.taper_length.nm * limits.implied_hub_share
    most = end.taper_length.nm + limits.implied_hub_past_taper.nm
    if not least <= implied <= most:
        words = "Old length, strut distance and gap leave no room, or too much, for a propeller."
        yield Mismatch(("old_length_face_to_thread", "face_to_strut_aft", "gap_now"), words)


@check(
    "pieces-sum",
    Severity.ASK,
    ask="Which two points did each piece run between?",
    inputs=STRUT,
    needs=("pieces", "face_to_strut_aft"),
    likely={"D-SAG": 8, "D-SLOPE": 6},
)
def the_pieces_make_the_whole(case: Case) -> Iterator[Mismatch]:
    """The pieces through the hull do not add up to the whole.

    The log counted twice or left out, or a piece measured level instead of along the shaft.
    """
    sheet, limits = case.sheet, case.limits
    parts = [sheet.part("pieces", name) for name in ("inner", "log", "outer")]
    whole = sheet.readings["face_to_strut_aft"]
    if None in parts:
        return
    # A whole that was itself added up has no doubt of its own against its pieces.
    summed = whole.method == "pieces"
    u = 0.0 if summed else math.hypot(whole.u_nm, limits.u_pieces.nm)
    apart = abs(sum(part.nm for part in parts) - whole.length.nm)
    if apart > max(limits.pieces_near.nm, limits.pieces_u * u):
        words = "The three pieces do not add up to the long measurement."
        yield Mismatch(("pieces", "face_to_strut_aft"), words)


@check(
    "driveline-changed",
    Severity.NOTE,
    ask="Since this shaft went in, what has moved or been replaced?",
    inputs=OLD,
    needs=("changed_since_shaft", "old_length_face_to_thread"),
    likely={"B-MOVED": 1},
)
def the_old_shaft_fits_the_boat_as_she_is(case: Case) -> Iterator[Mismatch]:
    """Something along the drive line was changed, so the old shaft no longer shows the length.

    After a re-power or new mounts the boat alone decides; the old length is read, not used.
    """
    if case.routes is not None and case.routes.old is None:
        words = "What was changed since takes the old shaft's length out of the reckoning."
        yield Mismatch(("changed_since_shaft", "old_length_face_to_thread"), words)


@check(
    "datum-aft",
    Severity.NOTE,
    ask="How far does the bearing stick out of the metal strut?",
    inputs=STRUT,
    needs=("rubber_proud", "face_to_strut_aft"),
    likely={"D-RUB": 1},
)
def the_strut_was_measured_to_its_metal(case: Case) -> Iterator[Mismatch]:
    """The bearing stands out of the strut, so the tape may have stopped at rubber, not at metal.

    The long measurement counts to the metal; the rubber stands an eighth to a quarter proud.
    """
    proud, limits = case.sheet.length("rubber_proud"), case.limits
    if proud is None or proud < limits.rubber_least:
        return
    words = "The bearing stands out of the strut; lengths count to the strut's metal."
    difference = case.routes.difference if case.routes else None
    if difference is not None:
        near = limits.slip_u * difference.u_nm
        if difference.nm > near and abs(difference.nm - proud.nm) <= near:
            words = f"{words} The two ways to the length differ by about as much."
    yield Mismatch(("rubber_proud", "face_to_strut_aft"), words)


@check(
    "spacer-in-stack",
    Severity.ASK,
    ask="What sits between the two flanges now, and will it be there afterwards?",
    needs=("flex_or_spacer",),
    likely={"B-MOVED": 1},
)
def what_sits_between_the_flanges_is_known(case: Case) -> Iterator[Mismatch]:
    """A disc or spacer sits between the flanges, and its thickness or its future is not known.

    Flexible discs are taken out or put in with the new shaft; the length moves by as much. One
    that is measured and stays is only noted.
    """
    sheet = case.sheet
    if sheet.part("flex_or_spacer", "kind") in (None, "none"):
        return
    answers, thickness = ("flex_or_spacer",), sheet.part("flex_or_spacer", "thickness")
    stays = sheet.part("flex_or_spacer", "stays")
    if thickness is None:
        yield Mismatch(answers, "How thick the piece between the flanges is, is not known.")
    elif not thickness:
        return
    elif stays == "yes":
        words = "The length leaves room for the piece between the flanges, which stays."
        yield Mismatch(answers, words, severity=Severity.NOTE)
    elif stays == "no":
        yield Mismatch(answers, "The piece between the flanges will not be there afterwards.")
    else:
        words = "Whether the piece between the flanges will be there afterwards is not known."
        yield Mismatch(answers, words)


@check(
    "polished-band-evidence",
    Severity.ASK,
    ask="Where, from the coupling face, does the bright bearing band on the old shaft end?",
    source="common practice; geometry",
    inputs=LENGTHS,
    needs=("polished_bands", "old_length_face_to_thread"),
    likely={"O-OLDSHAFT": 3, "D-FWD": 2, "D-PIN": 2},
)
def the_bright_band_ends_at_the_strut(case: Case) -> Iterator[Mismatch]:
    """The bright band of the strut bearing does not end where the lengths put the strut.

    The old shaft or the strut distance is wrong, and the band tells which of them.
    """
    bands, limits = case.sheet.lists["polished_bands"], case.limits
    if not bands:
        return
    ends = max(end.nm for band in bands for end in band)
    off: dict[str, bool] = {}
    for slug, (place, u) in _strut_places(case):
        near = math.hypot(u, limits.u_polished_band.nm) * limits.polished_u
        off[slug] = abs(ends - place) > max(limits.polished_near.nm, near)
    wrong = tuple(slug for slug, is_off in off.items() if is_off)
    if wrong:
        words = "The bright band does not end where this puts the strut."
        if len(off) > len(wrong):
            words += " The other of the two lengths goes with it."
        yield Mismatch((*wrong, "polished_bands"), words)


def _strut_places(case: Case) -> Iterator[tuple[str, tuple[int, float]]]:
    """Where the strut's aft end lay along the old shaft, by that shaft and by the boat, in nm."""
    routes, sheet = case.routes, case.sheet
    old, gap = sheet.readings["old_length_face_to_thread"], sheet.readings.get("gap_now")
    if routes is None:
        return
    if routes.tail and gap:
        place = old.length.nm - routes.tail.nm - gap.length.nm
        u = math.hypot(old.u_nm, routes.tail.u_nm, gap.u_nm)
        yield "old_length_face_to_thread", (place, u)
    # The boat as she is says nothing of an old shaft that ran in another drive line.
    if routes.strut and routes.old:
        yield "face_to_strut_aft", (routes.strut.nm, routes.strut.u_nm)


@check(
    "coupling-recess",
    Severity.NOTE,
    ask="How does the shaft's front end sit in the coupling: flush, sunk, or proud?",
    needs=("front_shape",),
    likely={"D-END": 1},
)
def the_shaft_ends_at_the_coupling_face(case: Case) -> Iterator[Mismatch]:
    """The shaft's front end stands out of the coupling's face, or is sunk behind it.

    Lengths count from the machined face, not from the end of the bar; an old coupling creeps.
    """
    if not case.passes_through and case.sheet.choices["front_shape"] != "flush":
        words = "The shaft does not end at the coupling's face; lengths count from the face."
        yield Mismatch(("front_shape",), words)


CHECKS = (
    the_tail_left_over_is_a_hub,
    the_pieces_make_the_whole,
    the_old_shaft_fits_the_boat_as_she_is,
    the_strut_was_measured_to_its_metal,
    what_sits_between_the_flanges_is_known,
    the_bright_band_ends_at_the_strut,
    the_shaft_ends_at_the_coupling_face,
)
