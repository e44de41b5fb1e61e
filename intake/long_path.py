"""The customer's whole form: the short path, and what is folded away until it is needed.

A V-drive that the shaft passes through needs a few more lengths; they open when it is chosen. What
else helps is asked last and may be left out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from django.utils.translation import gettext_lazy as _

from intake.desk_words import CHOICES, PARTS
from intake.domain.questions import QUESTIONS
from intake.short_path import ABOUT, INSIDE, PROPELLER, REST, BoxPlan, Plan, Words, length_plan

PASSES_THROUGH = "v_pass_through"


@dataclass(frozen=True, slots=True)
class Part:
    """Some questions under one heading; ``opens_for`` a drive layout, ``folded`` until opened."""

    key: str
    title: Words
    plans: tuple[Plan, ...]
    folded: bool = False
    opens_for: str = ""
    about: Words = ""


def _choice(slug: str, label: Words, *, slip: Words = "", only_for: str = "") -> Plan:
    """A question with a few answers to choose from."""
    boxes = (BoxPlan(f"answers.{slug}", label, "radio", CHOICES[slug]),)
    return Plan(slug, QUESTIONS[slug].ask, boxes, slip=slip, only_for=only_for, optional=True)


def _told_in_parts(
    slug: str, lengths: tuple[str, ...] = (), *, cannot: Words = "", only_for: str = ""
) -> Plan:
    """A question told in parts, with the desk's words for them."""
    boxes = tuple(
        BoxPlan(
            f"answers.{slug}.{part}",
            word,
            "select" if options else "length" if part in lengths else "text",
            options,
        )
        for part, word, options in PARTS[slug]
    )
    ask = QUESTIONS[slug].ask
    return Plan(slug, ask, boxes, cannot=cannot, only_for=only_for, optional=True)


THROUGH = (
    replace(
        length_plan(
            "gearbox_through",
            _("Through the gearbox"),
            how=_("From the front coupling's machined face, along the shaft, to where it leaves "
                  "the gearbox at the back."),
            slip=_("The coupling's flange belongs to it, not only the gearbox's housing."),
            cannot=_("We look for a drawing of the gearbox, and ask before anything is cut."),
        ),
        optional=True,
    ),
    _told_in_parts("front_end", ("showing",), cannot=_(
        "We ask you for a picture of the front end before anything is cut.")),
    _told_in_parts("front_taper", cannot=_(
        "We go by the old shaft or the coupling in hand, and ask before anything is cut.")),
    _choice(
        "forward_datum",
        _("The tape began at"),
        slip=_("On such a drive every length counts from the front face; if yours began at the "
               "back of the gearbox, say so, and we add what lies between."),
    ),
)  # fmt: skip
MORE = (
    _choice("shaft_in", _("The old shaft was")),
    _choice("engine_mounts", _("Engine mounts")),
    _choice("propeller_stays", _("The same propeller goes back on")),
    _told_in_parts("between_strut_and_propeller", ("length",)),
    _told_in_parts("bearing_place"),
    _told_in_parts("bearing_hours"),
    _choice("bearing_wear", _("The rubber is thin"), only_for="bearing"),
)
PARTS_OF_FORM = (
    Part("about", _("You and the boat"), ABOUT),
    Part("inside", _("Along the shaft"), INSIDE),
    Part(
        "through",
        _("Where the shaft passes through the gearbox"),
        THROUGH,
        folded=True,
        opens_for=PASSES_THROUGH,
        about=_("Only for a V-drive whose shaft comes out of the gearbox's front."),
    ),
    Part("propeller", _("At the propeller"), PROPELLER),
    Part("rest", _("Coupling, water, bearing"), REST),
    Part(
        "more",
        _("More, if you know it"),
        MORE,
        folded=True,
        about=_("None of it is needed; each answer makes us surer, or saves you a call."),
    ),
)
PLANS = tuple(plan for part in PARTS_OF_FORM for plan in part.plans)
