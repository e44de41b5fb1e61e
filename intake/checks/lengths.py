"""The ways to the length against each other."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import J755, LENGTHS, OLD, STRUT, TAIL, Mismatch, check
from intake.domain.case import Case
from intake.domain.loosest import loosest_answers
from intake.domain.slip_words import ASK_ABOUT, likely_slips, share_of
from intake.domain.slips import OK
from intake.domain.strut import agrees, datum_is_settled
from intake.domain.verdict import Severity

_BOTH = ("face_to_strut_aft", "old_length_face_to_thread")


@check(
    "route-boat-vs-old",
    Severity.ASK,
    ask="What exactly was the hook of the tape touching at the forward end?",
    inputs=LENGTHS,
    needs=("face_to_strut_aft|pieces", "old_length_face_to_thread"),
)
def boat_and_old_shaft_agree(case: Case) -> Iterator[Mismatch]:
    """The boat and the old shaft ask for lengths further apart than measuring explains.

    One of the two was measured from, or to, another point; or the old shaft never fitted.
    """
    severity = _how_far_apart(case)
    if severity is None:
        return
    words = "The boat's own measurements and the old shaft do not give the same length."
    likely = likely_slips(case)
    ask = ASK_ABOUT.get(likely[0][0], "") if likely else ""
    yield Mismatch(_BOTH, words, severity=severity, question=ask, likely=likely)


def _how_far_apart(case: Case) -> Severity | None:
    """What the difference of the two routes makes happen, if anything."""
    routes, limits = case.routes, case.limits
    if routes is None or routes.difference is None:
        return None
    apart = abs(routes.difference.nm)
    z = apart / routes.difference.u_nm
    far = case.metric_or_inch(limits.route_ask, limits.route_ask_metric).nm
    very_far = case.metric_or_inch(limits.route_stop, limits.route_stop_metric).nm
    # An assumed gap says nothing finer than its own spread, so distance alone is no evidence.
    if apart > very_far and (routes.gap_measured or z > limits.route_z_ask):
        return Severity.ASK if _boat_is_sure(case) else Severity.STOP
    if z > limits.route_z_ask or (apart > far and routes.gap_measured):
        return Severity.NOTE if _boat_is_sure(case) else Severity.ASK
    return Severity.NOTE if z > limits.route_z_note else None


def _boat_is_sure(case: Case) -> bool:
    """The boat was measured twice and agrees: what is left of the difference is the old shaft's."""
    strut = case.sheet.readings.get("face_to_strut_aft")
    return bool(strut and agrees(strut, case.limits) and case.fit >= case.limits.fit_ask)


@check(
    "single-route",
    Severity.ASK,
    ask=(
        "Could you measure it once more from the start, holding another mark of the tape at the "
        "flange, and tell me both numbers you read?"
    ),
    source="derived from slips and their weights; limit common practice",
    inputs=LENGTHS,
)
def a_second_witness_agrees(case: Case) -> Iterator[Mismatch]:
    """Only one way to the length is left, so nothing on the sheet could show a slip in it.

    The old shaft is lost or elsewhere; the boat is not at hand; there was no time.
    """
    routes, limits = case.routes, case.limits
    if routes is None or routes.best is None or routes.independent > 1:
        return
    slug = "face_to_strut_aft" if routes.boat else "old_length_face_to_thread"
    reading = case.sheet.readings.get(slug)
    if reading and reading.again and not agrees(reading, limits):
        words = f"Two readings differ: {reading.text} and {reading.again.text}."
        yield Mismatch((slug,), words)
    elif case.fit_that_can_show < limits.fit_ask:
        words = "One way to the length only: a slip in it would not show."
        yield Mismatch((slug,), words, likely=likely_slips(case))


@check(
    "route-tail-vs-hub",
    Severity.ASK,
    ask="Where on the shaft's tip did you stop: at the last thread, or at the very end?",
    source=J755,
    inputs=TAIL,
    needs=("tail_to_thread", "hub_length", "gap_now"),
    likely={"D-PIN": 14, "P-SEAT": 8, "G-BLADE": 6},
)
def taped_tail_and_hub_agree(case: Case) -> Iterator[Mismatch]:
    """The tail as taped and the hub with its nut and thread give different tails.

    The tail went to the tip of the nose, the nut was counted with the hub, or the propeller was
    not pulled home.
    """
    routes, limits = case.routes, case.limits
    if routes is None or routes.hub_tail is None or routes.taped_tail is None:
        return
    difference = routes.taped_tail.minus(routes.hub_tail)
    if abs(difference.nm) > max(limits.tail_vs_hub.nm, limits.tail_vs_hub_u * difference.u_nm):
        words = "The tail as measured does not go with the hub length and a standard thread."
        yield Mismatch(("tail_to_thread", "hub_length"), words)


@check(
    "tail-rule-valid",
    Severity.ASK,
    ask="How long is the propeller's hub from its front face to its back face?",
    source="fixed tail common practice; SAE J755 geometry",
    inputs=TAIL,
    likely={"P-RULE": 1},
)
def the_tail_is_known(case: Case) -> Iterator[Mismatch]:
    """Neither hub nor tail is measured, and the fixed tail does not hold for this shaft.

    The 4-3/4 in habit fits hubs of about 2-13/16 in on 1 and 1-1/8 in shafts, no other.
    """
    routes = case.routes
    if routes is None or routes.strut is None or routes.tail is not None:
        return
    if "hub_length" in case.sheet.readings:
        words = "No thread length is on file for this shaft size, so the hub alone is not enough."
        ask = "How far is it from the strut's aft end to the end of the threads?"
        yield Mismatch(("tail_to_thread", "gap_now"), words, question=ask)
    else:
        words = "The hub length decides the tail of this shaft, and it is not measured."
        yield Mismatch(("hub_length", "tail_to_thread"), words)


@check(
    "barrel-difference",
    Severity.ASK,
    ask=(
        "Which end of the strut is nearer the propeller, and which of your two numbers belongs to "
        "it?"
    ),
    needs=("face_to_strut_aft", "face_to_strut_fwd", "strut_barrel"),
    likely={"D-FWD": 10, "D-MID": 2, "R-WHOLE": 5},
)
def strut_ends_differ_by_the_barrel(case: Case) -> Iterator[Mismatch]:
    """The two strut distances do not differ by the length of the strut barrel.

    Aft and forward end exchanged, or the strut's foot measured.
    """
    sheet = case.sheet
    aft, forward = sheet.length("face_to_strut_aft"), sheet.length("face_to_strut_fwd")
    barrel = sheet.length("strut_barrel")
    if aft is None or forward is None or barrel is None:
        return
    if abs((aft - forward).nm - barrel.nm) > case.limits.barrel.nm:
        words = "The two strut distances do not differ by the strut barrel's length."
        yield Mismatch(("face_to_strut_aft", "face_to_strut_fwd", "strut_barrel"), words)


@check(
    "order-of-lengths",
    Severity.STOP,
    ask="Starting at the gearbox, which comes first along the shaft, and how far is each?",
    source="logic",
    inputs=STRUT | OLD | {"face_to_strut_fwd", "old_length_overall"},
    likely={"K-TYPED": 3, "I-OTHER": 3, "D-FWD": 2},
)
def lengths_come_in_order(case: Case) -> Iterator[Mismatch]:
    """Along the shaft the points come in an order that cannot be.

    Two answers exchanged, or the strut distance taken to the shaft's end.
    """
    sheet = case.sheet
    aft, forward = sheet.length("face_to_strut_aft"), sheet.length("face_to_strut_fwd")
    old, overall = sheet.length("old_length_face_to_thread"), sheet.length("old_length_overall")
    if aft and forward and forward >= aft:
        words = "The strut's forward end lies no nearer than its aft end."
        yield Mismatch(("face_to_strut_fwd", "face_to_strut_aft"), words)
    if aft and old and aft.nm >= old.nm - case.limits.old_past_strut.nm:
        yield Mismatch(_BOTH, "The old shaft would hardly reach past the strut.")
    if old and overall and old > overall:
        words = "The whole bar is shorter than its part from face to thread end."
        yield Mismatch(("old_length_face_to_thread", "old_length_overall"), words)


@check(
    "pin-end-included",
    Severity.ASK,
    ask="Past the last thread, what is there?",
    source="SAE J755 (nose lengths from memory: verify)",
    inputs=LENGTHS | {"old_length_overall"},
    needs=("old_length_face_to_thread",),
    likely={"D-PIN": 14, "D-END": 4, "D-TAPER": 4},
)
def the_nose_is_not_in_the_length(case: Case) -> Iterator[Mismatch]:
    """The old length seems to run to the tip of the plain nose, not to the last thread.

    'Length' is easily taken to the very end.
    """
    sheet, end = case.sheet, case.end
    old = sheet.length("old_length_face_to_thread")
    if old is None or end is None or case.passes_through or sheet.choice("pin_end") == "no":
        return
    overall = sheet.length("old_length_overall")
    if overall is None:
        if _nose_explains_the_difference(case, end.nose.nm):
            words = "The old shaft is longer than the boat asks for by about the nose of its end."
            answers = ("old_length_face_to_thread", "pin_end")
            yield Mismatch(answers, words, likely=likely_slips(case))
        return
    past = overall.nm - old.nm
    if past == 0 and sheet.part("nuts", "kind") == "self_locking":
        return
    if past >= 0 and abs(past - end.nose.nm) > case.limits.nose_near.nm:
        words = "Whole bar less face to thread end is not the nose of a standard end."
        yield Mismatch(("old_length_face_to_thread", "old_length_overall", "pin_end"), words)


def _nose_explains_the_difference(case: Case, nose_nm: int) -> bool:
    """Within 2 u of one nose, likelier than no slip at all, and no open datum to explain it."""
    difference = case.routes.difference if case.routes else None
    if difference is None or not datum_is_settled(case.sheet, case.limits):
        return False
    near = abs(difference.nm + nose_nm) <= case.limits.slip_u * difference.u_nm
    return near and share_of(case, "D-PIN") > share_of(case, OK)


@check(
    "old-shaft-only",
    Severity.ASK,
    ask="With the old shaft out, what can you pass through the log to reach the gearbox flange?",
    inputs=LENGTHS,
    needs=("old_length_face_to_thread",),
    likely={"O-OLDSHAFT": 3, "B-MOVED": 2, "D-PIN": 2},
)
def the_boat_was_measured(case: Case) -> Iterator[Mismatch]:
    """Only the old shaft gives a length; a shaft proves only that it was once fitted.

    The shaft is out already, or the boat is elsewhere.
    """
    routes = case.routes
    if routes is not None and routes.old is not None and routes.strut is None:
        words = "The length rests on the old shaft alone; the boat was not measured."
        yield Mismatch(("face_to_strut_aft",), words)


@check(
    "datum-forward",
    Severity.ASK,
    ask="What did the forward end of your tape touch, and how thick is that disc?",
    inputs=STRUT,
    needs=("face_to_strut_aft",),
    likely={"D-CBACK": 14, "D-GBACK": 10, "D-HUB": 8},
)
def the_tape_started_on_the_gearbox_face(case: Case) -> Iterator[Mismatch]:
    """The long measurement did not start on the gearbox flange's face.

    With the coupling bolted up the face is hidden, so the hook goes where it can.
    """
    sheet = case.sheet
    if "face_to_strut_aft" not in sheet.readings or datum_is_settled(sheet, case.limits):
        return
    hub_end = sheet.choice("forward_datum") == "hub_end"
    needed = "hub_length_coupling" if hub_end else "flange_thickness"
    words = "The long measurement started at another place than the gearbox flange's face."
    yield Mismatch(("forward_datum", needed), words)


@check(
    "fit-probability",
    Severity.ASK,
    ask=(
        "Of these, which can you reach now: the hub's length, the start of the tape, or the gap "
        "with a drill shank?"
    ),
    source="propagation by JCGM 100; thresholds common practice",
    inputs=LENGTHS,
)
def the_gap_will_be_fair(case: Case) -> Iterator[Mismatch]:
    """Measured like this, the gap is not sure enough to land in its band.

    An uncertain way of measuring, or a cut length far from the exact one.
    """
    routes, limits = case.routes, case.limits
    if case.exact is None or routes is None:
        return
    if case.probability < limits.fit_ask:
        words = f"The gap lands where it should with a probability of {case.probability:.0%}."
        stop = case.probability < limits.fit_stop
        yield Mismatch(loosest_answers(case, 3), words, severity=Severity.STOP if stop else None)
    elif case.fit < limits.fit_ask and routes.independent > 1 and not _routes_are_asked(case):
        words = f"With the slips that could be in it, the gap is right with {case.fit:.0%} only."
        yield Mismatch(loosest_answers(case, 3), words, likely=likely_slips(case))


def _routes_are_asked(case: Case) -> bool:
    """The two routes are asked about already, and that is why the gap is not sure."""
    return _how_far_apart(case) in (Severity.ASK, Severity.STOP)


CHECKS = (
    boat_and_old_shaft_agree,
    a_second_witness_agrees,
    taped_tail_and_hub_agree,
    the_tail_is_known,
    strut_ends_differ_by_the_barrel,
    lengths_come_in_order,
    the_nose_is_not_in_the_length,
    the_boat_was_measured,
    the_tape_started_on_the_gearbox_face,
    the_gap_will_be_fair,
)
