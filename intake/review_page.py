"""Everything as understood, before it is sent: each answer in words and in both systems."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext_lazy as _

from catalog.domain.lengths import Length
from intake.desk_show import Shown
from intake.domain.drawing import drive_line
from intake.domain.methods import METHOD_WORDS
from intake.domain.sheet import Reading, Sheet
from intake.domain.svg import to_svg
from intake.long_path import PLANS
from intake.measure_page import chosen, read_back
from intake.said import drawing_words, language_now, said, spoken_in, with_local_numbers
from intake.short_path import BoxPlan, Plan, Words

_DRAWN = {  # slug: its mark in the stack
    "face_to_strut_aft": "face_to_strut_aft",
    "gap_now": "gap",
    "hub_length": "hub_length",
    "old_length_face_to_thread": "length",
}


@dataclass(frozen=True, slots=True)
class Line:
    """One answer as understood. ``state`` is given, cannot, or missing."""

    plan: Plan
    state: str
    understood: Words = ""
    typed: str = ""
    spoken: str = ""
    method: Words = ""
    more: tuple[str, ...] = ()
    doubts: tuple[str, ...] = ()

    @property
    def anchor(self) -> str:
        """Where its question stands on the form."""
        return "q-" + self.plan.slug.replace(".", "-")


@dataclass(frozen=True, slots=True)
class ReviewPage:
    """What the customer reads before sending."""

    typed: QueryDict
    sheet: Sheet
    outcome: Mapping[str, Any]

    @property
    def lines(self) -> list[Line]:
        """Every question with what we understood; a second reading only where there is one."""
        wanted = [
            plan
            for plan in PLANS
            if (not plan.only_for or plan.only_for in self.sheet.wants)
            and (not plan.slug.endswith(".again") or self.typed.get(plan.boxes[0].name, "").strip())
        ]
        lines = [self._line(plan) for plan in wanted]
        return [line for line in lines if line.state != "missing" or not line.plan.optional]

    def _line(self, plan: Plan) -> Line:
        if plan.cannot and self.sheet.cannot(plan.slug):
            return Line(plan, "cannot", plan.cannot)
        told = [(box, words) for box in plan.boxes if (words := self._words(box))]
        if reading := _reading(self.sheet, plan.slug):
            return _measured(
                plan, reading, [_labelled(*one) for one in told if one[0].kind == "radio"]
            )
        if not told:
            return Line(plan, "missing")
        main = [words for box, words in told if box.kind != "count"]
        counts = [_labelled(box, words) for box, words in told if box.kind == "count"]
        if plan.optional and len(told) > 1:  # told in parts: each by its name
            main, counts = main[:1], [_labelled(*one) for one in told[1:]]
        return Line(plan, "given", ", ".join(main), more=tuple(counts))

    def _words(self, box: BoxPlan) -> str:
        """What stands in one box, in the page's words; a length in both systems."""
        typed = [text.strip() for text in self.typed.getlist(box.name) if text.strip()]
        if box.name == "tape_unit" and not typed:
            return said(chosen(box.options, ""))
        if box.kind == "length" and typed:
            return read_back("", typed[0], self.sheet.tape_unit).both or typed[0]
        return ", ".join(
            said(words) if (words := chosen(box.options, text)) != text else text for text in typed
        )

    @property
    def shown(self) -> Shown:
        """The verdict, as the pages show it."""
        return Shown(self.outcome)

    @property
    def drawing(self) -> SafeString:
        """The customer's own numbers on the drive line."""
        return own_numbers(self.sheet)


def own_numbers(sheet: Sheet) -> SafeString:
    """The drive line with what was measured, and nothing that was worked out from it."""
    drawing = drive_line(_stack(sheet), readings=_texts(sheet), words=drawing_words())
    return mark_safe(to_svg(with_local_numbers(drawing), ident="yours"))  # noqa: S308 (escaped by to_svg)


def _reading(sheet: Sheet, slug: str) -> Reading | None:
    if slug.endswith(".again"):
        first = sheet.readings.get(slug.removesuffix(".again"))
        return first.again if first else None
    return sheet.readings.get(slug)


def _labelled(box: BoxPlan, words: str) -> str:
    return f"{box.label}: {words}"


def _measured(plan: Plan, reading: Reading, more: list[str]) -> Line:
    words = METHOD_WORDS.get(reading.method, reading.method)
    system = "in" if reading.unit in ("in", "ft") else "mm"
    return Line(
        plan,
        "given",
        said(reading.length.both()),
        reading.text,
        spoken_in(reading.length, system, language_now()),
        said(words),
        tuple(more),
        tuple(map(said, reading.doubts)),
    )


def _system(sheet: Sheet) -> str:
    metric = sum(reading.unit not in ("in", "ft") for reading in sheet.readings.values())
    return "mm" if metric * 2 > len(sheet.readings) else "inch"


def _stack(sheet: Sheet) -> dict[str, Any]:
    """Only what was measured, for the drawing."""
    dia, gap = sheet.length("dia_clean"), sheet.length("gap_now")
    hub = sheet.length("hub_length")
    return {
        "layout": sheet.choice("drive_layout"),
        "system": _system(sheet),
        "nominal": {"mm": dia.mm_text} if dia else None,
        "gap_goal": gap.mm_text if gap else None,
        "hub_length": hub.mm_text if hub else None,
        "marks": {mark: "measured" for slug, mark in _DRAWN.items() if slug in sheet.readings},
    }


def _texts(sheet: Sheet) -> dict[str, str]:
    """The numbers to print: bare in the sheet's main system, with their unit in the other."""
    main = _system(sheet)
    return {
        slug: _bare(reading.length, main)
        if (reading.unit in ("in", "ft")) == (main == "inch")
        else reading.length.show("mm" if main == "inch" else "in")
        for slug, reading in sheet.readings.items()
        if slug in _DRAWN
    }


def _bare(length: Length, system: str) -> str:
    return length.show("mm" if system == "mm" else "in").rsplit(" ", 1)[0]


_NEXT: dict[str, tuple[Words, Words]] = {
    "release": (
        _("It adds up"),
        _("Your numbers agree with each other. Send them, and the quote follows by itself."),
    ),
    "ask": (
        _("A question"),
        _(
            "Something is still to settle. Answer it now by changing a number, or send it as it "
            "is and we ask you."
        ),
    ),
    "stop": (
        _("It does not add up yet"),
        _(
            "Something cannot be as written. Look at it below; or send it as it is, and we speak "
            "with you before anything is cut."
        ),
    ),
}


def next_step(verdict: str) -> tuple[Words, Words]:
    """Each call in the customer's words, and what happens after sending."""
    return _NEXT[verdict]
