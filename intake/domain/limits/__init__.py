"""Every limit a check compares with, as data: the desk's defaults, common practice unless named.

Checks never hold a number of their own, so a limit can be changed and a season judged again.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from intake.domain.limits.bearing import BearingLimits
from intake.domain.limits.calls import CallLimits
from intake.domain.limits.coupling import CouplingLimits, FasteningLimits
from intake.domain.limits.desk import DeskLimits
from intake.domain.limits.diameter import DiameterLimits
from intake.domain.limits.ends import EndsLimits
from intake.domain.limits.entry import EntryLimits
from intake.domain.limits.gap import GapLimits
from intake.domain.limits.layout import LayoutLimits
from intake.domain.limits.lengths import LengthsLimits
from intake.domain.limits.pieces import PiecesLimits
from intake.domain.limits.slips import SlipsLimits
from intake.domain.limits.strength import StrengthLimits


@dataclass(frozen=True, eq=False)
class Limits(
    EntryLimits,
    LengthsLimits,
    PiecesLimits,
    GapLimits,
    DiameterLimits,
    BearingLimits,
    CouplingLimits,
    FasteningLimits,
    EndsLimits,
    StrengthLimits,
    LayoutLimits,
    DeskLimits,
    CallLimits,
    SlipsLimits,
):
    """One set of limits. Probabilities 0 to 1; factors are ratios; u is one standard deviation.

    ``severities``: by check, stop, ask, note or off, where it is another than the check's own.
    ``needed``: questions that must be answered, in the order in which they are asked.

    Two sets are the same only if they are one object: what is computed once for a set is kept
    under it.
    """

    name: str = "2026.1"
    severities: Mapping[str, str] = field(default_factory=dict)
    needed: tuple[str, ...] = ()

    # The groups compare by their own fields; a set must not inherit that.
    __eq__ = object.__eq__
    __hash__ = object.__hash__


DEFAULT_LIMITS = Limits()
