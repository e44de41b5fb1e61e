"""What else on the boat says which size the shaft is, and how loudly.

Thread, taper, keyway, bearing, flange bolts and coupling bore. Each gives one factor a size: how
likely that answer is on a shaft of that size, slips included. The shares are limits (common
practice, no source); the inch ends are SAE J755's. Of metric ends only the key widths of 25 and
30 mm are known (a table attributed to ISO 4566), so a thread or a taper speaks for its system.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, lru_cache
from typing import NamedTuple

from catalog.domain.ends import ShaftEnd, shaft_end
from catalog.domain.lengths import Length
from intake.domain.keys import propeller_key_width
from intake.domain.limits import Limits
from intake.domain.plates import PlateError, Thread, read_thread
from intake.domain.sheet import Sheet
from intake.domain.sizes import SIZES, Size

# A slipped reading lands anywhere: its share of the peak of a good one.
_ANYWHERE = 0.1
# What an answer is worth on sizes of which no table says what it should be.
_UNKNOWN = 0.2


class Evidence(NamedTuple):
    """The other answers that tell of the size; lengths in nanometres, 0 where not answered.

    ``counted``: the thread was counted along a rule, or nobody said how. ``bearing_u`` is 0 for a
    stamped mark. ``bolts`` is the system of the flange bolts, "inch" or "mm".
    """

    thread: Thread | None = None
    counted: bool = False
    large: int = 0
    small: int = 0
    between: int = 0
    key: int = 0
    bearing: int = 0
    bearing_u: float = 0.0
    bolts: str = ""
    bore: int = 0


NO_EVIDENCE = Evidence()
_TELLING = frozenset({"thread", "taper_two_dia", "keyway", "bolts", "coupling_bore"})


def evidence_of(sheet: Sheet) -> Evidence:
    """Everything on the sheet that tells of the size, besides the reading that is judged.

    The bearing is evidence only where the shaft itself was measured.
    """
    bearing = None
    if "dia_clean" in sheet.readings:
        bearing = sheet.readings.get("bearing_id_or_mark")
    if bearing is None and _TELLING.isdisjoint(sheet.parts):
        return NO_EVIDENCE
    part = sheet.part
    return Evidence(
        thread=part("thread", "text"),
        counted=part("thread", "method") != "gauge",
        large=_nm(part("taper_two_dia", "large")),
        small=_nm(part("taper_two_dia", "small")),
        between=_nm(part("taper_two_dia", "between")),
        key=_nm(part("keyway", "width")),
        bearing=bearing.length.nm if bearing else 0,
        bearing_u=bearing.u_nm if bearing else 0.0,
        bolts=thread_system(part("bolts", "size") or ""),
        bore=_nm(part("coupling_bore", "size")) if part("coupling_bore", "kind") != "taper" else 0,
    )


def _nm(length: Length | None) -> int:
    return length.nm if length else 0


def thread_system(text: str) -> str:
    """ "inch" or "mm" where the text is a thread, else an empty string."""
    thread = thread_in(text) if text else None
    return thread.system if thread else ""


@lru_cache(maxsize=1024)
def thread_in(text: str) -> Thread | None:
    """The thread that free text names, or None where it is not read as one."""
    try:
        return read_thread(text)
    except PlateError:
        return None


@lru_cache(maxsize=4096)
def weights(evidence: Evidence, limits: Limits) -> tuple[float, ...]:
    """How likely the evidence is on each size, in the order of ``SIZES``."""
    return tuple(math.prod(_factors(evidence, size, limits)) for size in SIZES)


def _factors(evidence: Evidence, size: Size, limits: Limits) -> list[float]:
    factors = []
    if evidence.thread:
        factors.append(_thread(evidence.thread, evidence.counted, size, limits))
    if _rate(evidence):
        factors.append(_taper(evidence, size, limits))
    if evidence.small:
        factors.append(_against(evidence.small, _small_end(size), limits.u_small_end, limits))
    if evidence.key:
        factors.append(_against(evidence.key, propeller_key_width(size), limits.u_keyway, limits))
    if evidence.bearing:
        factors.append(_bearing(evidence, size, limits))
    if evidence.bolts:
        same = limits.bolts_share_system
        factors.append(same if evidence.bolts == size.system else 1 - same)
    if evidence.bore:
        factors.append(_against(evidence.bore, size.diameter, limits.u_coupling_bore, limits))
    return factors


def _thread(thread: Thread, counted: bool, size: Size, limits: Limits) -> float:
    right = limits.thread_count_right if counted else limits.thread_gauge_right
    if thread.system != size.system:
        return max(1 - right, limits.end_of_other_system)
    end = _end(size)
    if end is None:
        return right
    if thread.text == end.thread:
        return right * (1 - limits.end_not_standard)
    slip = _thread_slip(thread, end.thread, limits)
    return (1 - right) * slip + limits.end_not_standard * _ANYWHERE


def _thread_slip(thread: Thread, standard: str, limits: Limits) -> float:
    """Which share of misread threads reads like this on that end."""
    true = read_thread(standard)
    if thread.major == true.major and int(thread.pitch) == int(true.pitch) + 1:
        return limits.thread_peaks_share
    worn = (true.major - thread.major).nm
    if thread.pitch == true.pitch and 0 < worn <= limits.thread_crest_worn.nm:
        return limits.thread_crest_share
    return _ANYWHERE * (1 - limits.thread_peaks_share - limits.thread_crest_share)


def _taper(evidence: Evidence, size: Size, limits: Limits) -> float:
    """By system: inch tapers are 1:16, metric ones 1:10 (ISO 4566), now and then 1:16."""
    rate = _rate(evidence)
    spread = math.hypot(
        math.sqrt(2) * limits.u_taper_diameter.nm, rate * limits.u_taper_length.nm
    ) / abs(evidence.between)
    slip = limits.evidence_slip * _ANYWHERE
    by_16 = _bell(rate - limits.taper_inch, spread)
    if size.system == "inch":
        return (1 - limits.evidence_slip) * by_16 + slip
    by_10 = _bell(rate - limits.taper_metric, spread)
    shared = limits.metric_taper_1_in_16
    return (1 - limits.evidence_slip) * ((1 - shared) * by_10 + shared * by_16) + slip


def _bearing(evidence: Evidence, size: Size, limits: Limits) -> float:
    if evidence.bearing_u == 0.0:
        same = abs(evidence.bearing - size.diameter.nm) <= limits.mark_near.nm
        return 1 - limits.mark_slip if same else limits.mark_slip * _ANYWHERE
    return _against(evidence.bearing, size.diameter, Length(round(evidence.bearing_u)), limits)


def _against(read: int, standard: Length | None, u: Length, limits: Limits) -> float:
    """How well a reading fits what the table says of a size."""
    if standard is None:
        return _UNKNOWN
    slip = limits.evidence_slip
    fits = _bell(read - standard.nm, math.hypot(u.nm, limits.u_wear.nm))
    return (1 - slip) * fits + slip * _ANYWHERE


def _bell(off: float, spread: float) -> float:
    return math.exp(-0.5 * (off / spread) ** 2)


def _rate(evidence: Evidence) -> float:
    """The taper's rate on diameter, 0 where it was not measured whole."""
    if not evidence.large or not evidence.small or not evidence.between:
        return 0.0
    return (evidence.large - evidence.small) / evidence.between


def agreeing(evidence: Evidence, best: Size, rival: Size, limits: Limits) -> tuple[str, ...]:
    """The kinds of evidence that speak for the best size and not for the rival beside it."""
    if evidence is NO_EVIDENCE:
        return ()
    return tuple(name for name, speaks in _SPEAKS if speaks(evidence, best, rival, limits))


def _thread_speaks(evidence: Evidence, best: Size, _rival: Size, _limits: Limits) -> bool:
    thread, end = evidence.thread, _end(best)
    if thread is None:
        return False
    return thread.text == end.thread if end else thread.system == best.system


def _mark_speaks(evidence: Evidence, best: Size, rival: Size, limits: Limits) -> bool:
    if not evidence.bearing:
        return False
    near = max(limits.mark_near.nm, limits.rival_u * evidence.bearing_u)
    return _only(evidence.bearing, best.diameter, rival.diameter, near)


def _taper_speaks(evidence: Evidence, best: Size, _rival: Size, limits: Limits) -> bool:
    rate = _rate(evidence)
    usual = limits.taper_inch if best.system == "inch" else limits.taper_metric
    return bool(rate) and abs(rate - usual) <= limits.taper_near


def _key_speaks(evidence: Evidence, best: Size, rival: Size, limits: Limits) -> bool:
    width = propeller_key_width(best)
    if not evidence.key or width is None:
        return False
    near = limits.rival_u * limits.u_keyway.nm
    return _only(evidence.key, width, propeller_key_width(rival), near)


_Speaks = Callable[[Evidence, Size, Size, Limits], bool]
_SPEAKS: tuple[tuple[str, _Speaks], ...] = (
    ("thread", _thread_speaks),
    ("mark", _mark_speaks),
    ("taper", _taper_speaks),
    ("keyway", _key_speaks),
)


def _only(read: int, best: Length, rival: Length | None, near: float) -> bool:
    """True where a reading is the best size's and could not be the rival's."""
    if abs(read - best.nm) > near:
        return False
    return rival is None or abs(read - rival.nm) > near


def _small_end(size: Size) -> Length | None:
    end = _end(size)
    return end.small_end if end else None


@cache
def _end(size: Size) -> ShaftEnd | None:
    return shaft_end(size.system, size.diameter)
