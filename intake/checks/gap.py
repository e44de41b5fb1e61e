"""The gap as it will be, and the taper that must not reach into the bearing."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.ends import HUB_OVERHANG
from catalog.domain.lengths import Length
from intake.checks.base import LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.verdict import Severity


@check(
    "gap-goal-by-diameter",
    Severity.NOTE,
    ask="What gap did she run with before, and how did the bearing wear?",
    source="1/2, 3/4, 1 in common practice; one diameter ABYC P-6 (from memory: verify)",
)
def the_gap_aimed_at_is_the_usual(case: Case) -> Iterator[Mismatch]:
    """A thin shaft is given a smaller gap than the usual three quarters of an inch.

    The propeller stands no further behind the strut than the shaft is thick, so one rule for all
    sizes would be too much here.
    """
    band, limits = case.band, case.limits
    if band is None:
        return
    if band.goal < case.metric_or_inch(limits.gap_goal, limits.gap_goal_metric):
        words = "A shaft this thin is given a smaller gap behind the strut than is usual."
        yield Mismatch(("dia_clean",), words)


@check(
    "gap-over-one-diameter",
    Severity.STOP,
    ask="How much room is there between strut and hub today, with the shaft hard forward?",
    source="ABYC P-6 (from memory: verify)",
    inputs=LENGTHS,
    likely={"O-OLDSHAFT": 1},
)
def the_propeller_is_not_far_behind(case: Case) -> Iterator[Mismatch]:
    """The propeller would stand further behind the strut than the shaft is thick.

    A long shaft, a thin one, or something clamped between strut and propeller that needs more.
    """
    if case.size is None:
        return
    room, gap = _room_between(case), case.gap or Length(0)
    if max(gap.nm, room.nm) > case.size.diameter.nm:
        answers = ("between_strut_and_propeller",) if room > gap else ("gap_now",)
        words = "The propeller would stand further behind the strut than the shaft is thick."
        yield Mismatch(answers, words)


def _room_between(case: Case) -> Length:
    """What is clamped on the shaft between strut and propeller, with room to either side."""
    sheet = case.sheet
    if sheet.part("between_strut_and_propeller", "kind") in (None, "nothing"):
        return Length(0)
    length = sheet.part("between_strut_and_propeller", "length")
    return length + case.limits.room_between if length else Length(0)


@check(
    "gap-proposed-band",
    Severity.NOTE,
    ask="What drill or bolt just fits the gap now?",
    inputs=LENGTHS,
    likely={"G-ASSUME": 3, "P-RULE": 2},
)
def the_new_gap_stays_in_its_band(case: Case) -> Iterator[Mismatch]:
    """The gap that is to be expected could still land outside its band.

    A gap judged by eye; something that takes room from the gap; another propeller than the one
    that was measured.
    """
    gap, band, limits = case.gap, case.band, case.limits
    if gap is None or band is None:
        return
    spread = limits.gap_doubts * case.u_nm
    reaches = gap.nm - spread < band.least.nm or gap.nm + spread > band.most.nm
    if reaches and case.probability >= limits.fit_ask:
        yield Mismatch(("gap_now",), "The gap should be fair, and could just miss its band.")
    yield from _taken_room(case, gap)
    yield from _another_propeller(case)


def _taken_room(case: Case, gap: Length) -> Iterator[Mismatch]:
    """An anode, a cutter or a spacer has to go into the gap."""
    sheet, answers = case.sheet, ("between_strut_and_propeller",)
    if sheet.part(answers[0], "kind") in (None, "nothing"):
        return
    ask = "What sits on the shaft between strut and propeller, how long is it, and does it stay?"
    if sheet.part(answers[0], "length") is None:
        words = "How long the piece between strut and propeller is, is not known."
        yield Mismatch(answers, words, severity=Severity.ASK, question=ask)
    elif _room_between(case) > gap:
        words = "What sits between strut and propeller needs more room than the gap has."
        yield Mismatch(answers, words, severity=Severity.ASK, question=ask)


def _another_propeller(case: Case) -> Iterator[Mismatch]:
    """Another hub length moves the whole tail, whichever way it was measured."""
    stays, sheet = case.sheet.choice("propeller_stays"), case.sheet
    if stays not in ("no", "unknown"):
        return
    measured = tuple(slug for slug in _OF_THE_PROPELLER if slug in sheet.readings)
    words = "Another propeller may go on than the one these lengths were taken with."
    ask = "Which propeller goes on, and how long is its hub from front face to back face?"
    yield Mismatch(
        ("propeller_stays", *measured), words, severity=Severity.ASK, question=ask,
        likely=(("P-RULE", 1.0),),
    )  # fmt: skip


_OF_THE_PROPELLER = ("hub_length", "tail_to_thread", "gap_now")


@check(
    "taper-in-bearing",
    Severity.STOP,
    ask="How long is the hub, and how much tapered shaft shows ahead of it?",
    source="SAE J755 geometry",
    inputs=LENGTHS,
    needs=("hub_length",),
    likely={"I-COMBO": 2, "C-WRONGDIM": 1},
)
def the_taper_stays_out_of_the_bearing(case: Case) -> Iterator[Mismatch]:
    """A short hub on a standard taper would put the taper inside the strut bearing.

    The taper starts C + 1/4 - hub ahead of the hub's face; the gap must be at least that.
    """
    hub = case.sheet.length("hub_length")
    if hub is None or case.end is None or case.gap is None:
        return
    ahead = case.end.taper_length + HUB_OVERHANG - hub
    if ahead > max(case.gap, Length(0)):
        words = "With this hub the standard taper would reach into the strut bearing."
        yield Mismatch(("hub_length",), words)


@check(
    "soft-mounts",
    Severity.NOTE,
    ask="What sort of feet is the engine on?",
    inputs=LENGTHS,
    needs=("engine_mounts",),
    likely={"B-MOUNT": 1},
)
def the_gap_allows_for_soft_mounts(case: Case) -> Iterator[Mismatch]:
    """On soft engine mounts the shaft moves forward under way and takes room from the gap.

    By a sixteenth to three sixteenths, so the gap wants an eighth more than the least.
    """
    gap, band = case.gap, case.band
    if case.sheet.choices["engine_mounts"] != "soft" or gap is None or band is None:
        return
    if gap < band.least + case.limits.soft_mount_room:
        words = "The engine stands on soft mounts, and the gap grows smaller under way."
        yield Mismatch(("engine_mounts",), words)


CHECKS = (
    the_gap_aimed_at_is_the_usual,
    the_propeller_is_not_far_behind,
    the_new_gap_stays_in_its_band,
    the_taper_stays_out_of_the_bearing,
    the_gap_allows_for_soft_mounts,
)
