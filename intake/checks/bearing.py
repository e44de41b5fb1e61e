"""The strut bearing: a shell round a bore, as long as bearings are, and one we can get."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.recognised import (
    bore_of,
    listed_bearings,
    listed_shell,
    shell_of,
    shell_reading,
)
from intake.domain.sleeves import published_shells
from intake.domain.verdict import Severity

_SHELL = frozenset({"shell_od", "strut_bore", "bearing_id_or_mark"}) | DIAMETER


@check(
    "bearing-wall",
    Severity.ASK,
    ask="What did you put the calipers across: rubber hole, brass shell, or strut casting?",
    holds=("bearing",),
    inputs=_SHELL,
    needs=("shell_od|strut_bore", "dia_clean|bearing_id_or_mark"),
    likely={"I-HOLE": 23, "I-DIAREAD": 3, "O-OLDBEARING": 2},
)
def the_shell_has_a_wall(case: Case) -> Iterator[Mismatch]:
    """Shell and bore leave no wall, or one that no bearing has.

    The shaft, the hole or the strut's casting was measured for the shell.
    """
    reading, bore = shell_reading(case), bore_of(case)
    if reading is None or bore is None or _usual_wall(case, bore, reading.length):
        return
    shell = shell_of(case) or reading.length
    if shell <= bore:
        words = "The shell is no wider than its own bore."
        yield Mismatch((reading.slug,), words, severity=Severity.STOP)
    elif not _usual_wall(case, bore, shell) and not _known_pair(case, bore, shell):
        words = "The wall between bore and shell is one that no listed bearing has."
        bore_told = "bearing_id_or_mark" in case.sheet.readings
        also = "bearing_id_or_mark" if bore_told else "dia_clean"
        yield Mismatch((reading.slug, also), words)


def _usual_wall(case: Case, bore: Length, shell: Length) -> bool:
    limits = case.limits
    return 2 * limits.wall_least.nm <= shell.nm - bore.nm <= 2 * limits.wall_most.nm


def _known_pair(case: Case, bore: Length, shell: Length) -> bool:
    if shell in published_shells().get(bore, ()):
        return True
    return bool(case.stock.bearings(bore, shell))


@check(
    "shell-vs-strut-bore",
    Severity.ASK,
    ask="With the old bearing out, what does the strut's bore measure at both ends and two ways?",
    holds=("bearing",),
    inputs=_SHELL,
    needs=("shell_od", "strut_bore"),
    likely={"I-HOLE": 15, "I-DIAREAD": 5, "O-OLDBEARING": 5},
)
def the_shell_fits_the_strut(case: Case) -> Iterator[Mismatch]:
    """The shell and the strut's bore do not fit each other.

    A bell-mouthed end, scale, an old sleeve, or the wrong outside measured. What the tools cannot
    tell is not held against anyone: a shell near a listed one counts as that one.
    """
    sheet, limits = case.sheet, case.limits
    shell, bore = sheet.readings["shell_od"], sheet.readings["strut_bore"]
    listed = listed_shell(case)
    u = bore.u_nm if listed else (bore.u_nm**2 + shell.u_nm**2) ** 0.5
    room = bore.length.nm - (listed or shell.length).nm
    past = max(room - limits.shell_slip.nm, -room - limits.shell_press.nm)
    answers = ("strut_bore", "shell_od")
    if abs(room) > max(limits.shell_fit_ask.nm, limits.shell_fit_ask_u * u):
        yield Mismatch(answers, "The shell does not fit the strut's bore.")
    elif past > limits.shell_fit_note_u * u:
        words = "The shell is neither a slip fit nor a light press fit in the strut's bore."
        yield Mismatch(answers, words, severity=Severity.NOTE)


@check(
    "bearing-vs-barrel",
    Severity.ASK,
    ask="How many separate bearings are inside, and how far in does each go?",
    holds=("bearing",),
    needs=("bearing_length", "strut_barrel"),
    likely={"R-FLIP": 12, "I-COMBO": 6, "O-OLDBEARING": 3},
)
def the_bearings_fill_the_barrel(case: Case) -> Iterator[Mismatch]:
    """The bearings together are longer than the strut's barrel, or fill less than half of it.

    One of two was counted, or the strut's foot was measured for its barrel.
    """
    sheet, limits = case.sheet, case.limits
    length = sheet.part("bearing_length", "text")
    barrel = sheet.length("strut_barrel")
    if length is None or barrel is None or sheet.part("bearing_place", "in") == "hull":
        return
    together = length.nm * (sheet.part("bearing_length", "count") or 1)
    answers = ("bearing_length", "strut_barrel")
    if together > barrel.nm + limits.past_barrel.nm:
        yield Mismatch(answers, "The bearings are longer than the barrel they sit in.")
    elif together < barrel.nm * limits.barrel_share:
        words = "The bearings fill less than half of the barrel."
        yield Mismatch(answers, words, severity=Severity.NOTE)


@check(
    "bearing-length-ratio",
    Severity.NOTE,
    ask="Which of these is along the shaft?",
    holds=("bearing",),
    inputs=_SHELL,
    needs=("bearing_length", "dia_clean|bearing_id_or_mark"),
    likely={"I-HOLE": 5, "R-FLIP": 5},
)
def the_bearing_is_as_long_as_bearings_are(case: Case) -> Iterator[Mismatch]:
    """The bearing's length is not usual for its bore.

    Its outside was given for its length, or one was read off by a mark.
    """
    length, bore, limits = case.sheet.part("bearing_length", "text"), bore_of(case), case.limits
    if length is None or bore is None:
        return
    ratio = length.nm / bore.nm
    if not limits.bearing_ratio_least <= ratio <= limits.bearing_ratio_most:
        words = "A bearing of this bore is hardly ever that short or that long."
        yield Mismatch(("bearing_length",), words, severity=Severity.ASK)
        return
    low, high = limits.bearing_ratio_usual
    near = limits.bearing_length_near.nm
    short = any(abs(length.nm - usual.nm) <= near for usual in limits.bearing_lengths_usual)
    if not low <= ratio <= high and not short and not listed_bearings(case):
        yield Mismatch(("bearing_length",), "The bearing's length is not a usual one.")


@check(
    "shell-material",
    Severity.ASK,
    ask="What is your strut made of: does a magnet stick, does a scratch shine yellow or white?",
    source="common practice (galvanic series)",
    holds=("bearing",),
    inputs=_SHELL,
    needs=("hull_material", "bearing_length"),
    likely={"I-COMBO": 5},
)
def the_shell_suits_the_strut(case: Case) -> Iterator[Mismatch]:
    """A brass or bronze shell would sit in aluminium or steel with nothing between.

    The usual shell was taken without a look at the strut.
    """
    place = "hull" if case.sheet.part("bearing_place", "in") == "hull" else "strut"
    if case.sheet.part("hull_material", place) not in case.limits.struts_that_mind:
        return
    found = listed_bearings(case)
    if found and all(part.shell in case.limits.shells_of_metal for part in found):
        words = "The shell's metal and the metal round it corrode each other."
        yield Mismatch(("hull_material",), words)


@check(
    "catalog-bearing-miss",
    Severity.ASK,
    ask="What is moulded or stamped on the shell?",
    source="catalogue",
    holds=("bearing",),
    inputs=_SHELL | {"bearing_length"},
    needs=("bearing_length", "shell_od|strut_bore", "dia_clean|bearing_id_or_mark"),
    likely={"C-MISSING": 10, "I-HOLE": 8, "R-FLIP": 5},
)
def we_list_such_a_bearing(case: Case) -> Iterator[Mismatch]:
    """No bearing in the catalogue has this bore, shell and length.

    A metric shell, a special, or one of the three misread.
    """
    if case.sheet.part("bearing_length", "text") is None or listed_bearings(case):
        return
    words = "No bearing in the catalogue has this bore, shell and length."
    readings = case.sheet.readings
    measured = tuple(
        slug for slug in ("shell_od", "strut_bore", "bearing_id_or_mark") if slug in readings
    )
    yield Mismatch((*measured, "bearing_length"), words)


CHECKS = (
    the_shell_has_a_wall,
    the_shell_fits_the_strut,
    the_bearings_fill_the_barrel,
    the_bearing_is_as_long_as_bearings_are,
    the_shell_suits_the_strut,
    we_list_such_a_bearing,
)
