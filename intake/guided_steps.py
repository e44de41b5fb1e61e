"""The guided path: the short path's questions in the order one meets them, one a screen.

Inside first, then under the boat, then the old shaft on its trestles, then what can be said from a
dry seat. Name and telephone come last: they are the most typing, wet fingers type badly, and a
phone fills them in itself. The boat and her side come first, because they name the draft and stop a
port number from being written under starboard. What else a check may ask for stands behind the
path and opens only then.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from django.utils.translation import gettext_lazy as _

from intake import short_path as short
from intake.desk_words import CHOICES, LABELS, PARTS
from intake.domain.questions import COMPOSITES, QUESTIONS
from intake.long_path import PASSES_THROUGH, PLANS
from intake.short_path import BoxPlan, Plan, length_plan

Rule = Mapping[str, Any]

_LAYOUT = "answers.drive_layout"
_SHAFT: Rule = {"wants": "shaft"}
_COUPLING: Rule = {"wants": "coupling"}
_BEARING: Rule = {"wants": "bearing"}
_THROUGH: Rule = {"wants": "shaft", "is": [_LAYOUT, PASSES_THROUGH]}


@dataclass(frozen=True, slots=True)
class Step:
    """One screen. ``opens`` None: only when a check asks; else any one of the rules, or always.

    A rule holds when all of its words do: ``wants`` a part, ``is`` a box with that value,
    ``cannot`` a question that could not be answered.
    """

    plan: Plan
    opens: tuple[Rule, ...] | None = ()
    know: str = ""
    blind: str = ""  # the box whose number stays hidden meanwhile
    key: str = ""

    @property
    def slug(self) -> str:
        """The screen's own name."""
        return self.key or self.plan.slug


def _boxes(plan: Plan, *names: str) -> Plan:
    return replace(plan, boxes=tuple(box for box in plan.boxes if box.name in names))


_LONG = "answers.face_to_strut_aft"
_HOW = Plan(
    "face_to_strut_aft",
    QUESTIONS["face_to_strut_how"].ask,
    _boxes(short.FACE, f"{_LONG}.method").boxes,
    how=_("A rod or broom handle through strut and log, measured on the bench, is best."),
    slip=_("One tape cannot pass a hull with a shaft in it."),
)
_AGAIN = replace(
    short.AGAIN,
    ask=_("Please take the long length, face to strut, a second time."),
    how=_(
        "Without looking at the first number, and if you can in another way or by somebody else. "
        "We hide the first until you have typed the second."
    ),
    cannot=_("Then one reading has to carry the length, and a person here looks at it."),
    drawn=True,
)


# A heading on a phone: the question in fewer words, the rest stands below it.
_LONG_ONE = replace(
    _boxes(short.FACE, f"{_LONG}.text"),
    ask=_("How far is it from the gearbox flange's machined face to the strut's aft metal end?"),
)
_GAP = replace(
    short.GAP,
    ask=_("How wide is the gap between the strut's metal end and the propeller hub?"),
)
_HUB = replace(short.HUB, ask=_("How long is the propeller hub, front face to back face?"))
_DIAMETER = replace(
    short.DIAMETER, ask=_("What is the shaft's diameter, on bright metal that never ran in rubber?")
)
_OLD = replace(
    short.OLD, cannot=_("No matter: then measure the long length once more. That comes next.")
)
_FLANGE = replace(short.FLANGE, ask=_("How wide is the coupling's big disc, rim to rim?"))


def _cannot(*slugs: str) -> tuple[Rule, ...]:
    return tuple({"cannot": slug} for slug in slugs)


def _told_in_parts(slug: str) -> Plan:
    shapes = COMPOSITES[slug]
    boxes = tuple(
        BoxPlan(f"answers.{slug}.{part}", word, _shape(shapes.get(part), bool(options)), options)
        for part, word, options in PARTS[slug]
    )
    return Plan(slug, QUESTIONS[slug].ask, boxes, slip="", cannot=_PASS, cannot_label=_DO_NOT_KNOW)


def _shape(kind: Any, few: bool) -> str:
    if few:
        return "radio"
    return kind if kind in ("length", "count") else "text"


_PASS = _("No matter. The desk asks you for it if it is needed.")
_DO_NOT_KNOW = _("I don't know")


def _any_plan(slug: str) -> Plan:
    """A screen for any question, in the form's words where it has them, else in the desk's."""
    written = {plan.slug: plan for plan in PLANS}
    if slug in written:
        plan = written[slug]
        return plan if plan.cannot else replace(plan, cannot=_PASS, cannot_label=_DO_NOT_KNOW)
    if QUESTIONS[slug].kind == "measured":
        return length_plan(slug, LABELS.get(slug, _("Length")), cannot=_PASS)
    if slug in PARTS:
        return _told_in_parts(slug)
    box = BoxPlan(f"answers.{slug}", LABELS.get(slug, _("Answer")), "radio", CHOICES[slug])
    return Plan(slug, QUESTIONS[slug].ask, (box,), cannot=_PASS, cannot_label=_DO_NOT_KNOW)


def _fallback(slug: str, *of: str, know: str = "") -> Step:
    return Step(_any_plan(slug), _cannot(*of), know)


def _through(slug: str) -> Step:
    return Step(_any_plan(slug), (_THROUGH,), "pass-through")


_WAYS, _STRUT, _OFF = "ways-to-the-length", "bearing-at-the-strut", "coupling-off"
PATH: tuple[Step, ...] = (
    Step(short.WANT, know="before-you-start"),
    Step(short.BOAT),
    Step(short.LAYOUT, (_SHAFT, _COUPLING), "pass-through"),
    Step(_FLANGE, (_COUPLING,), _OFF),
    _fallback("bolts", "flange_od", know=_OFF),
    Step(short.DIRECTION, (_COUPLING,), _OFF),
    Step(_HOW, (_SHAFT,), _WAYS, key="face_to_strut_how"),
    Step(_LONG_ONE, (_SHAFT,), _WAYS),
    _fallback("pieces", "face_to_strut_aft", know=_WAYS),
    _through("gearbox_through"),
    _through("front_end"),
    _through("front_taper"),
    _through("forward_datum"),
    Step(_GAP, (_SHAFT,), _WAYS),
    Step(_HUB, (_SHAFT,), _WAYS),
    _fallback("tail_to_thread", "gap_now", "hub_length", know=_WAYS),
    Step(_DIAMETER),
    _fallback("bearing_id_or_mark", "dia_clean", know=_STRUT),
    _fallback("thread", "dia_clean"),
    Step(replace(short.SHELL, only_for=""), (_BEARING,), _STRUT),
    _fallback("strut_bore", "shell_od", know=_STRUT),
    Step(replace(short.BEARING, only_for=""), (_BEARING,), _STRUT),
    _fallback("strut_barrel", "bearing_length", know=_STRUT),
    Step(_OLD, (_SHAFT,), "no-shaft-or-broken"),
    Step(_AGAIN, _cannot("old_length_face_to_thread"), _WAYS, blind=f"{_LONG}.text"),
    Step(short.CHANGE, (_SHAFT,), "no-shaft-or-broken"),
    Step(short.WATER, (_SHAFT, _BEARING)),
    Step(short.CONTACT),
)


def _can_be_asked(slug: str) -> bool:
    question = QUESTIONS[slug]
    return question.kind == "measured" or slug in CHOICES or slug in PARTS


def further() -> tuple[Step, ...]:
    """Screens that no path leads to: a check opens them."""
    there = {step.plan.slug for step in PATH}
    return tuple(
        Step(_any_plan(slug), None)
        for slug in QUESTIONS
        if slug not in there and _can_be_asked(slug)
    )
