"""What helps a shaft that does not fit: shorten it, put a spacer in, make it anew, swap a part.

A longer shaft stands the propeller further aft: what is too long shows as a gap too wide. All
limits are common practice, no source. Nothing here decides; a person does.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm

ZERO = Length(0)
SHAFT, COUPLING, BEARING, OTHER = "shaft", "coupling", "bearing", "other"
PARTS = {
    SHAFT: "the shaft",
    COUPLING: "the coupling",
    BEARING: "the bearing",
    OTHER: "another part",
}


@dataclass(frozen=True, slots=True)
class RemedyLimits:
    """``spacer_*``: between what a plate between the flanges may be thick. Thinner ones carry no
    spigot, thicker ones want longer bolts and take the coupling's support away. ``step``: to what
    a shop faces off. Common practice, no source."""

    spacer_least: Length
    spacer_most: Length
    step: Length


LIMITS = {
    "inch": RemedyLimits(inches("1/4"), inches(1), inches("1/32")),
    "mm": RemedyLimits(mm(6), mm(25), mm("0.5")),
}


@dataclass(frozen=True, slots=True)
class Misfit:
    """What is known of a part that does not fit. ``gap``: as fitted; ``excess``: too long by, as
    told (below zero: too short), used where nobody measured the gap. ``length``: coupling face to
    thread end, as made where that is known. ``overall``: tip to tip."""

    part: str
    system: str
    length: Length
    overall: Length
    least: Length
    goal: Length
    most: Length
    gap: Length | None = None
    excess: Length | None = None
    plain_end: bool = True  # straight at the coupling, and no shaft of a pass-through gearbox


@dataclass(frozen=True, slots=True)
class Advice:
    """One way out. ``by``: how much is taken off or put between; ``gap``, ``length``: as they are
    then. ``is_fair``: whether that gap lies inside the band; None where no gap is known."""

    kind: str
    words: str
    by: Length | None = None
    gap: Length | None = None
    length: Length | None = None
    is_fair: bool | None = None


def advise(misfit: Misfit, limits: RemedyLimits | None = None) -> Advice:
    """The cheapest way out that the numbers allow; ``kind`` "" where there is none to name."""
    limits = limits or LIMITS[misfit.system]
    if misfit.part in (COUPLING, BEARING, OTHER):
        return Advice("swap", f"Swap {PARTS[misfit.part]}; the shaft may stay as it is.")
    off = too_long_by(misfit)
    if off is None:
        return Advice("", "Ask for the gap as a number: without it nobody can say what helps.")
    if misfit.gap is not None and misfit.least <= misfit.gap <= misfit.most:
        return Advice("", _inside(misfit, misfit.gap), gap=misfit.gap, is_fair=True)
    by = stepped(abs(off), limits.step)
    return _shorten(misfit, by) if off > ZERO else _lengthen(misfit, by, limits)


def too_long_by(misfit: Misfit) -> Length | None:
    """How much too long for the gap that was aimed at; below zero: too short."""
    if misfit.gap is not None:
        return misfit.gap - misfit.goal
    return misfit.excess


def stepped(length: Length, step: Length) -> Length:
    """To the nearest step, half a step goes up.

    >>> stepped(inches("41/64"), inches("1/32")).inch_text
    '21/32'
    """
    return Length((length.nm * 2 + step.nm) // (step.nm * 2) * step.nm)


def _inside(misfit: Misfit, gap: Length) -> str:
    show = misfit.system
    return (
        f"A gap of {gap.show(show)} is inside the band of {misfit.least.show(show)} to "
        f"{misfit.most.show(show)}: nothing need be done to the length."
    )


def _shorten(misfit: Misfit, by: Length) -> Advice:
    length, gap = misfit.length - by, _after(misfit, -by)
    if length <= ZERO:
        return Advice("", "That is more than the whole shaft. Ask for the number once more.")
    words = f"Shorten by {by.show(misfit.system)}: {_becomes(misfit, gap)}."
    if not misfit.plain_end:
        words += " Its coupling end is not plain, so that end must be cut anew: ask the shop first."
    return Advice("shorten", words, by, gap, length, _fair(misfit, gap))


def _lengthen(misfit: Misfit, by: Length, limits: RemedyLimits) -> Advice:
    show, gap = misfit.system, _after(misfit, by)
    if limits.spacer_least <= by <= limits.spacer_most:
        words = (
            f"Too short by {by.show(show)}: a spacer of {by.show(show)} between the flanges, "
            f"and {_becomes(misfit, gap)}."
        )
        return Advice("spacer", words, by, gap, misfit.length, _fair(misfit, gap))
    why = "thinner" if by < limits.spacer_least else "thicker"
    words = (
        f"Too short by {by.show(show)}, which is {why} than a spacer may be "
        f"({limits.spacer_least.show(show)} to {limits.spacer_most.show(show)}): make it anew, "
        f"{(misfit.length + by).show(show)} long; {_becomes(misfit, gap)}."
    )
    return Advice("remake", words, by, gap, misfit.length + by, _fair(misfit, gap))


def _after(misfit: Misfit, by: Length) -> Length | None:
    return misfit.gap + by if misfit.gap is not None else None


def _fair(misfit: Misfit, gap: Length | None) -> bool | None:
    return None if gap is None else misfit.least <= gap <= misfit.most


def _becomes(misfit: Misfit, gap: Length | None) -> str:
    if gap is None:
        return "the gap was not told, so measure it before anything is cut"
    band = f"{misfit.least.show(misfit.system)} to {misfit.most.show(misfit.system)}"
    inside = "inside" if _fair(misfit, gap) else "outside"
    return f"the gap becomes {gap.show(misfit.system)}, {inside} the band of {band}"


# --- What the machinist is told ---------------------------------------------------------


def shorten_card(misfit: Misfit, by: Length) -> tuple[str, ...]:
    """The lines of the work on a shaft that is there already, one instruction each."""
    return (
        f"Measure it first, coupling face to thread end: {misfit.length.both()} is on record. "
        "Ring the desk if it is not.",
        f"Take {by.both()} off the coupling end. Nothing is done to the propeller end.",
        f"It is then {(misfit.length - by).both()} from face to thread end, and "
        f"{(misfit.overall - by).both()} overall, within 1/32 in.",
        _end_words(misfit, by),
        "Fit the coupling, face it on the shaft: run-out at the rim 0.002 in at most "
        "(common practice).",
        "Mark the new length on the face, cap both ends.",
    )


def _end_words(misfit: Misfit, by: Length) -> str:
    if not misfit.plain_end:
        return "The coupling end is not plain: cut that end anew as it was, to the same gauge."
    return (
        f"The keyway at the coupling loses {by.show(misfit.system)}: run it on by as much, same "
        "width and depth, and break its edges; square and chamfer the end."
    )
