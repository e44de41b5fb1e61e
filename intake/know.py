"""Know-how beside the questions: which page, and which place on it, tells how to measure what."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

from django.urls import reverse
from django.utils.functional import Promise
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import get_language, gettext
from django.utils.translation import gettext_lazy as _

from intake.domain.shapes import BOLD, Drawing, Shape, Text
from intake.domain.sketches import SKETCHES
from intake.domain.svg import to_svg
from intake.short_path import ABOUT, INSIDE, PROPELLER, REST


@dataclass(frozen=True, slots=True)
class KnowPage:
    """One page: its address, its title, and in one line what it helps with."""

    slug: str
    title: Promise
    about: Promise

    @property
    def template(self) -> str:
        """Where its words stand."""
        return f"intake/know/{self.slug}.html"

    @property
    def url(self) -> str:
        """Its address."""
        return reverse("know", args=[self.slug])


PAGES: tuple[KnowPage, ...] = (
    KnowPage(
        "before-you-start",
        _("Before you start"),
        _("A safe boat, what to have with you, and a caliper made of paper."),
    ),
    KnowPage(
        "ways-to-the-length",
        _("Ways to the length"),
        _("Broom handle, three pieces, the gap by a drill, and which number to trust."),
    ),
    KnowPage(
        "no-shaft-or-broken",
        _("No shaft, a broken one, or the old one on the bench"),
        _("What the boat alone tells, and what an old shaft may add."),
    ),
    KnowPage(
        "pass-through",
        _("A shaft that passes through the gearbox"),
        _("How to tell, and the two lengths only such a drive has."),
    ),
    KnowPage(
        "bearing-at-the-strut",
        _("The bearing in its strut"),
        _("Reading the shell in place, and telling one bearing from two."),
    ),
    KnowPage(
        "coupling-off",
        _("The coupling: reading it, getting it off"),
        _("Disc, bolts and hub, then three ways to part it without harm."),
    ),
)
BY_SLUG = {page.slug: page for page in PAGES}

# question: (page, the place on it)
_PLACES: dict[str, tuple[str, str]] = {
    "wants": ("before-you-start", "also"),
    "tape_unit": ("before-you-start", "also"),
    "contact": ("before-you-start", "also"),
    "boat_name_and_station": ("before-you-start", "also"),
    "water": ("before-you-start", "also"),
    "afloat_or_ashore": ("before-you-start", "safe"),
    "dia_clean": ("before-you-start", "paper-strip"),
    "dia_journal": ("before-you-start", "paper-strip"),
    "face_to_strut_how": ("ways-to-the-length", "broom-handle"),
    "face_to_strut_aft": ("ways-to-the-length", "broom-handle"),
    "face_to_strut_fwd": ("ways-to-the-length", "broom-handle"),
    "forward_datum": ("ways-to-the-length", "broom-handle"),
    "face_to_strut_aft.again": ("ways-to-the-length", "trust"),
    "pieces": ("ways-to-the-length", "pieces"),
    "shaft_angle": ("ways-to-the-length", "pieces"),
    "gap_now": ("ways-to-the-length", "gap"),
    "coupling_state": ("ways-to-the-length", "gap"),
    "prop_seated": ("ways-to-the-length", "gap"),
    "tail_to_thread": ("ways-to-the-length", "gap"),
    "hub_length": ("no-shaft-or-broken", "hub"),
    "old_length_face_to_thread": ("no-shaft-or-broken", "old-shaft"),
    "old_length_overall": ("no-shaft-or-broken", "old-shaft"),
    "pin_end": ("no-shaft-or-broken", "old-shaft"),
    "shaft_in": ("no-shaft-or-broken", "boat-alone"),
    "changed_since_shaft": ("no-shaft-or-broken", "old-shaft"),
    "reason": ("no-shaft-or-broken", "boat-alone"),
    "drive_layout": ("pass-through", "which"),
    "gearbox_through": ("pass-through", "lengths"),
    "front_end": ("pass-through", "front-end"),
    "front_taper": ("pass-through", "front-end"),
    "shell_od": ("bearing-at-the-strut", "shell"),
    "bearing_id_or_mark": ("bearing-at-the-strut", "inside"),
    "strut_bore": ("bearing-at-the-strut", "shell"),
    "bearing_length": ("bearing-at-the-strut", "count"),
    "strut_barrel": ("bearing-at-the-strut", "count"),
    "bearing_hours": ("bearing-at-the-strut", "inside"),
    "flange_od": ("coupling-off", "flange"),
    "bolts": ("coupling-off", "flange"),
    "pilot": ("coupling-off", "flange"),
    "flange_direction": ("coupling-off", "hub-way"),
    "hub_length_coupling": ("coupling-off", "hub-way"),
    "coupling_bore": ("coupling-off", "undo"),
}
KNOW_FOR: dict[str, str] = {question: page for question, (page, _place) in _PLACES.items()}

_LABELS = {plan.slug: plan.boxes[0].label for plan in (*ABOUT, *INSIDE, *PROPELLER, *REST)}


def know_url(question: str) -> str:
    """The address that tells how to measure it, its place included; "" where there is none."""
    if question not in _PLACES:
        return ""
    page, place = _PLACES[question]
    return f"{BY_SLUG[page].url}#{place}"


def question_url(question: str) -> str:
    """Where a question is answered: its screen on the guided path."""
    return f"{reverse('guided')}#q={question}"


def question_label(question: str) -> str:
    """A question of the short path in a word or two."""
    return str(_LABELS[question])


def sketch(name: str) -> SafeString:
    """One line drawing as SVG, its words in the reader's language. Raises KeyError."""
    return _sketch(name, get_language() or "")


@lru_cache(maxsize=128)
def _sketch(name: str, language: str) -> SafeString:
    svg = to_svg(translated(SKETCHES[name]()), ident=f"sketch-{name.replace('_', '-')}")
    return mark_safe(svg)  # noqa: S308  our own drawing; to_svg has escaped every text


def translated(drawing: Drawing) -> Drawing:
    """The drawing with its words in the active language, set smaller where they would not fit."""
    return replace(
        drawing,
        shapes=tuple(_said(shape, drawing.width_mm) for shape in drawing.shapes),
        title=gettext(drawing.title),
        description=gettext(drawing.description),
    )


def _said(shape: Shape, width: float) -> Shape:
    if not isinstance(shape, Text) or not any(letter.isalpha() for letter in shape.text):
        return shape
    said = replace(shape, text=gettext(shape.text))
    left, right = said.span
    room = {"start": width - said.x, "middle": 2 * min(said.x, width - said.x), "end": said.x}
    need = (right - left) * (BOLD if said.kind == "lit" else 1)
    return replace(said, size=said.size * min(1.0, room[said.anchor] / need))
