"""What stands on the measuring sheet: the short path's questions, filled with what a draft says."""

from __future__ import annotations

import string
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from intake.long_path import PASSES_THROUGH, THROUGH
from intake.paper.sheet_facts import Choice, Code, Measure, SheetFacts, Tick
from intake.said import asked, drawing_words, said
from intake.short_path import (
    AGAIN,
    BEARING,
    BOAT,
    CHANGE,
    CONTACT,
    DIAMETER,
    DIRECTION,
    FACE,
    FLANGE,
    GAP,
    HUB,
    LAYOUT,
    OLD,
    SHELL,
    UNIT,
    WANT,
    WATER,
    BoxPlan,
    Plan,
)

_MEASURED = (DIAMETER, FACE, HUB, GAP, OLD, FLANGE, SHELL, BEARING)
# Fixed, so that two sheets of two drives letter the same length alike.
LETTERS: Mapping[str, str] = {
    **{plan.slug: letter for plan, letter in zip(_MEASURED, string.ascii_uppercase, strict=False)},
    AGAIN.slug: "B",
    "gearbox_through": "K",
}


@dataclass(frozen=True, slots=True)
class Draft:
    """What was typed so far, by the names of the form's boxes; nothing for an empty sheet."""

    values: Mapping[str, Any]

    def all(self, name: str) -> tuple[str, ...]:
        """Everything typed or ticked in one box."""
        value = self.values.get(name, ())
        return (value,) if isinstance(value, str) else tuple(str(one) for one in value)

    def one(self, name: str) -> str:
        """What stands in one box, or nothing."""
        return (self.all(name) or ("",))[-1].strip()

    def ticks(self, box: BoxPlan) -> tuple[Tick, ...]:
        """The box's choices, those of the draft ticked."""
        chosen = self.all(box.name)
        return tuple(Tick(said(words), value in chosen) for value, words in box.options)

    def cannot(self, plan: Plan) -> bool:
        """Whether the draft says that this cannot be measured."""
        return bool(self.one(f"{plan.path}.state"))


def sheet_facts(values: Mapping[str, Any], code: Code) -> SheetFacts:
    """The whole sheet in the language of the moment; ``values`` as a handed-over draft has them."""
    draft = Draft(values)
    layout = draft.one("answers.drive_layout")
    return SheetFacts(
        shop=_("Otterhithe Shaft Desk"),
        title=_("Measuring sheet"),
        lead=_(
            "Write every number as you read it, in either system, and tick in or mm beside it. "
            "What you can't measure, tick so: we find another way."
        ),
        cautions=(
            _(
                "Under her only while the keel is blocked and the stands are chained in pairs on "
                "firm ground, never on jack, trailer winch or slings; somebody knows you are there."
            ),
            _(
                "Battery off and its key in your pocket, gear lever tied in neutral, exhaust cool. "
                "Gloves and eye protection. If the log will be open: ashore only."
            ),
        ),
        who=_who(draft),
        about=tuple(_about(draft)),
        measures=tuple(_measures(draft, layout)),
        choices=tuple(_choices(draft)),
        heads=(_("What is asked, with its letter in the drawing"), _("Number"),
               _("Measured with"), _("Can't")),
        foot=_("Then type it in, or ring us with the sheet in hand. Metal is cut only after every "
               "number was read back to you."),
        code=code,
        stack={"layout": layout} if layout else {},
        drawing_words=drawing_words(),
    )  # fmt: skip


def _who(draft: Draft) -> tuple[tuple[str, str], ...]:
    name, phone, email, _role = CONTACT.boxes
    boat = BOAT.boxes[0]
    boxes = (name, phone, email, boat)
    said = [(str(box.label), draft.one(box.name)) for box in boxes]
    return (*said, (_("Measured on (day)"), draft.one("answers.measured_when")))


def _about(draft: Draft) -> Iterator[Choice]:
    for box in (CONTACT.boxes[3], BOAT.boxes[1], WANT.boxes[0]):
        yield Choice(str(box.label), draft.ticks(box), half=box is not CONTACT.boxes[3])


def _choices(draft: Draft) -> Iterator[Choice]:
    """What is ticked rather than measured, after the lengths."""
    yield Choice(str(UNIT.boxes[0].label), draft.ticks(UNIT.boxes[0]), half=True)
    yield Choice(_("Coupling at gap D"), draft.ticks(GAP.boxes[2]), half=True)
    for plan in (LAYOUT, CHANGE):
        yield _choice(draft, plan)
    yield _choice(draft, DIRECTION)
    kind, idle = WATER.boxes
    weeks = (str(idle.label), draft.one(idle.name))
    held = (_("Tape began at, if not 0"), draft.one("answers.face_to_strut_aft.start_mark"))
    yield Choice(str(kind.label), draft.ticks(kind), (weeks, held))


def _choice(draft: Draft, plan: Plan) -> Choice:
    (box,) = plan.boxes
    ticks = draft.ticks(box)
    if plan.cannot:
        ticks = (*ticks, Tick(str(plan.cannot_label), draft.cannot(plan)))
    return Choice(str(box.label), ticks)


def _measures(draft: Draft, layout: str) -> Iterator[Measure]:
    for plan in _MEASURED:
        yield _measure(draft, plan)
        if plan is FACE:
            yield _measure(draft, AGAIN)
            if layout == PASSES_THROUGH:
                yield _measure(draft, THROUGH[0])


def _measure(draft: Draft, plan: Plan) -> Measure:
    number = plan.boxes[0]
    value = draft.one(number.name)
    hidden = _("Read already; hidden for a blind second reading.")
    blind = plan is FACE and value and not _has_witness(draft)
    return Measure(
        letter=LETTERS[plan.slug],
        slug=plan.slug,
        name=_("Bearing, length of one") if plan is BEARING else str(number.label),
        ask=asked(plan.slug, plan.ask),
        value="" if blind else value,
        unit=_units(draft, "" if blind else value),
        ways=_ways(draft, plan),
        cannot=Tick(_no(plan), draft.cannot(plan)) if plan.cannot else None,
        hidden=hidden if blind else "",
        written=_("If in another way than the first, which:") if plan is AGAIN else "",
    )


def _ways(draft: Draft, plan: Plan) -> tuple[Tick, ...]:
    if plan is BEARING:
        return _bearings(draft)
    return () if plan is AGAIN else draft.ticks(plan.boxes[1])


def _has_witness(draft: Draft) -> bool:
    """The long length was read twice, or the old shaft stands beside it."""
    return bool(draft.one(AGAIN.boxes[0].name) or draft.one(OLD.boxes[0].name))


def _units(draft: Draft, value: str) -> tuple[Tick, ...]:
    """in and mm; the tape's own is ticked where the number says none itself."""
    unit = draft.one("tape_unit") if value and not any(map(str.isalpha, value)) else ""
    return (Tick("in", unit == "in"), Tick("mm", unit == "mm"))


def _bearings(draft: Draft) -> tuple[Tick, ...]:
    count = draft.one(BEARING.boxes[1].name)
    words = {"1": _("one bearing in the strut"), "2": _("two, end to end")}
    return tuple(Tick(said, count == number) for number, said in words.items())


def _no(plan: Plan) -> str:
    return _("none") if plan is OLD else _("can't")
