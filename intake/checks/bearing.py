"""The strut bearing: a shell round a bore, and one we can get."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.recognised import bore_of, shell_of
from intake.domain.sleeves import published_shells
from intake.domain.verdict import Severity

_SHELL = frozenset({"shell_od", "bearing_id_or_mark"}) | DIAMETER


@check(
    "bearing-wall",
    Severity.ASK,
    ask="What did you put the calipers across: rubber hole, brass shell, or strut casting?",
    holds=("bearing",),
    inputs=_SHELL,
)
def the_shell_has_a_wall(case: Case) -> Iterator[Mismatch]:
    """Shell and bore leave no wall, or one that no bearing has.

    The shaft, the hole or the strut's casting was measured for the shell.
    """
    bore, shell = bore_of(case), shell_of(case)
    if bore is None or shell is None:
        return
    if shell <= bore:
        words = "The shell is no wider than its own bore."
        yield Mismatch(("shell_od",), words, severity=Severity.STOP)
    elif not _known_pair(case, bore, shell):
        wall_nm = (shell.nm - bore.nm) / 2
        limits = case.limits
        if not limits.wall_least.nm <= wall_nm <= limits.wall_most.nm:
            words = "The wall between bore and shell is one that no listed bearing has."
            yield Mismatch(("shell_od", "bearing_id_or_mark"), words)


@check(
    "catalog-bearing-miss",
    Severity.ASK,
    ask="What is moulded or stamped on the shell?",
    source="catalogue",
    holds=("bearing",),
    inputs=_SHELL | {"bearing_length"},
)
def we_list_such_a_bearing(case: Case) -> Iterator[Mismatch]:
    """No bearing in the catalogue has this bore, shell and length.

    A metric shell, a special, or one of the three misread.
    """
    bore, shell = bore_of(case), shell_of(case)
    length = case.sheet.part("bearing_length", "text")
    if bore is None or shell is None or length is None:
        return
    limits = case.limits
    found = case.stock.bearings(
        bore, shell, length, limits.bearing_od_near, limits.bearing_length_near
    )
    if not found:
        words = "No bearing in the catalogue has this bore, shell and length."
        yield Mismatch(("shell_od", "bearing_length", "bearing_id_or_mark"), words)


def _known_pair(case: Case, bore: Length, shell: Length) -> bool:
    if shell in published_shells().get(bore, ()):
        return True
    return bool(case.stock.bearings(bore, shell))


CHECKS = (the_shell_has_a_wall, we_list_such_a_bearing)
