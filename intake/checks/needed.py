"""What the desk has made a must: questions that a set of limits names."""

from __future__ import annotations

from collections.abc import Iterator

from intake.checks.base import Mismatch, check
from intake.domain.case import Case
from intake.domain.questions import QUESTIONS
from intake.domain.verdict import Severity

ALL = ("shaft", "coupling", "bearing")
_COUPLING, _BEARING = ("coupling",), ("bearing",)

# Which parts an answer concerns; the shaft where it is not named here.
CONCERNS: dict[str, tuple[str, ...]] = {
    **dict.fromkeys(("boat_name_and_station", "hull_built_by_year", "needed_by", "ship_to"), ALL),
    **dict.fromkeys(("measured_when", "reason", "afloat_or_ashore", "dia_clean"), ALL),
    **dict.fromkeys(("flange_od", "bolts", "pilot", "flange_direction"), _COUPLING),
    **dict.fromkeys(("hub_length_coupling", "coupling_bore", "reuse_coupling"), _COUPLING),
    **dict.fromkeys(("shell_od", "strut_bore", "bearing_length", "bearing_hours"), _BEARING),
    **dict.fromkeys(("bearing_play", "bearing_wear", "strut_barrel", "set_screws"), _BEARING),
    **dict.fromkeys(("bearing_id_or_mark", "dia_journal", "bearing_place"), ("shaft", "bearing")),
    **dict.fromkeys(("water", "hull_material"), ("shaft", "bearing")),
    **dict.fromkeys(("flange_thickness", "front_shape"), ("shaft", "coupling")),
}
# Asked of a shaft alone that goes right through the gearbox.
_OF_A_PASS_THROUGH = frozenset({"gearbox_through", "front_end", "front_taper"})


@check(
    "must-be-answered",
    Severity.ASK,
    ask="What stopped you getting this one?",
    source="the desk's own rule",
    holds=ALL,
)
def what_must_be_answered_is(case: Case) -> Iterator[Mismatch]:
    """A question that the desk has made a must is not answered.

    Where it was said that it cannot be had, that is an answer, and noted.
    """
    for slug in case.limits.needed:
        if case.sheet.has(slug) or not _concerns(slug, case):
            continue
        holds, ask = CONCERNS.get(slug, ("shaft",)), QUESTIONS[slug].ask
        if slug in case.sheet.states:
            words = f"The desk wants this answered, and it cannot be had: {ask}"
            yield Mismatch((slug,), words, severity=Severity.NOTE, question=ask, holds=holds)
        else:
            yield Mismatch((slug,), f"Not answered: {ask}", question=ask, holds=holds)


def _concerns(slug: str, case: Case) -> bool:
    return slug not in _OF_A_PASS_THROUGH or case.passes_through


CHECKS = (what_must_be_answered_is,)
