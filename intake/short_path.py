"""The short path: about twelve questions in the order one meets them on the boat.

The words here are for the customer's page: what to do, the usual mistake, and what happens when a
thing cannot be measured. The question itself stands in `intake.domain.questions`.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from intake.domain.methods import METHOD_WORDS
from intake.domain.printed import FORM_EXAMPLES
from intake.domain.questions import QUESTIONS

Words = str | Promise
Options = tuple[tuple[str, Words], ...]


CANNOT = _("I can't measure this")


@dataclass(frozen=True, slots=True)
class BoxPlan:
    """One box to fill: text, length, count, select, radio or checks."""

    name: str
    label: Words
    kind: str = "text"
    options: Options = ()
    autocomplete: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """One question of the page. ``cannot`` is the fallback, said beside "I can't measure this"."""

    slug: str
    ask: Words
    boxes: tuple[BoxPlan, ...]
    how: Words = ""
    slip: Words = ""
    cannot: Words = ""
    cannot_label: Words = CANNOT
    drawn: bool = False
    only_for: str = ""
    optional: bool = False  # read back only where it was answered

    @property
    def path(self) -> str:
        """Where its answer stands in the body."""
        top = ("wants", "tape_unit", "contact")
        return self.slug if self.slug in top else f"answers.{self.slug}"


def _ways(slug: str) -> Options:
    return tuple((method, METHOD_WORDS[method]) for method in QUESTIONS[slug].methods)


def length_plan(slug: str, label: Words, *, ask: Words = "", **words: Any) -> Plan:
    """A measured length: its number, and what it was measured with."""
    boxes = (
        BoxPlan(f"answers.{slug}.text", label, "length"),
        BoxPlan(f"answers.{slug}.method", _("Measured with"), "select", _ways(slug)),
    )
    return Plan(slug, ask or QUESTIONS[slug].ask, boxes, drawn=True, **words)


def _more(plan: Plan, *boxes: BoxPlan) -> Plan:
    return replace(plan, boxes=(*plan.boxes, *boxes))


WANTS: Options = (
    ("shaft", _("propeller shaft")),
    ("coupling", _("shaft coupling")),
    ("bearing", _("strut bearing")),
)
UNITS: Options = (
    ("in", _("inches")),
    ("mm", _("millimetres")),
    ("", _("both, or not sure")),
)
ROLES: Options = (
    ("owner", _("the owner")),
    ("yard", _("the yard")),
    ("crew", _("crew, measuring for the owner")),
    ("surveyor", _("a surveyor")),
)
STATIONS: Options = (
    ("single", _("her only shaft")),
    ("port", _("port")),
    ("starboard", _("starboard")),
    ("centre", _("centre")),
)
CHANGED: Options = (
    ("engine", _("engine")),
    ("gearbox", _("gearbox")),
    ("mounts", _("engine mounts")),
    ("coupling", _("coupling")),
    ("strut", _("strut")),
    ("propeller", _("propeller")),
    ("log", _("shaft log")),
    ("nothing", _("nothing")),
    ("unknown", _("don't know")),
)
LAYOUTS: Options = (
    ("inline", _("straight back from the engine")),
    ("down_angle", _("straight back, gearbox output angled down")),
    ("v_rear_flange", _("V-drive, its flange at the back")),
    ("v_pass_through", _("V-drive, the shaft passes right through it")),
)
COUPLING_STATES: Options = (
    ("tight", _("bolted up tight")),
    ("loose", _("loose, faces apart")),
    ("off", _("off")),
)
WATERS: Options = (("salt", _("salt")), ("brackish", _("brackish")), ("fresh", _("fresh")))
DIRECTIONS: Options = (
    ("aft", _("back, toward the propeller")),
    ("forward", _("forward, toward the engine")),
)

WANT = Plan(
    "wants",
    _("What do you want from us?"),
    (BoxPlan("wants", _("What you want"), "checks", WANTS),),
)
UNIT = Plan(
    "tape_unit",
    _("What is your tape marked in?"),
    (BoxPlan("tape_unit", _("Tape"), "radio", UNITS),),
    how=format_lazy(
        _(
            "We read a number without a unit in your tape's. You may always write the unit behind "
            "the number: {examples}."
        ),
        examples=", ".join(FORM_EXAMPLES),
    ),
)
CONTACT = Plan(
    "contact",
    _("Who are you, and how do we reach you while you can still reach the boat?"),
    (
        BoxPlan("contact.name", _("Your name"), autocomplete="name"),
        BoxPlan("contact.phone", _("Phone"), "tel", autocomplete="tel"),
        BoxPlan("contact.email", _("E-mail"), "email", autocomplete="email"),
        BoxPlan("contact.role", _("You are"), "select", ROLES),
    ),
    how=_("A phone number or an e-mail address is enough. Open questions go by phone if we can."),
)
BOAT = Plan(
    "boat_name_and_station",
    _("What do you call the boat, and which of her shafts is it?"),
    (
        BoxPlan("answers.boat_name_and_station.name", _("Boat")),
        BoxPlan(
            "answers.boat_name_and_station.station", _("Which shaft"), "select", STATIONS,
        ),
    ),
    slip=_("Port is left when you face the bow, also while you lie behind the propeller."),
)  # fmt: skip
LAYOUT = Plan(
    "drive_layout",
    _("From the engine, how does the drive reach the shaft?"),
    (BoxPlan("answers.drive_layout", _("Drive"), "radio", LAYOUTS),),
    slip=_("Two V-drives look alike from above: look whether the shaft ends at the gearbox or "
           "comes out of its front."),
    cannot=_("We will ask for a picture of the gearbox, and quote once we have seen it."),
    cannot_label=_("I can't tell"),
)  # fmt: skip
CHANGE = Plan(
    "changed_since_shaft",
    _("Since the old shaft went in, what has been changed or moved?"),
    (BoxPlan("answers.changed_since_shaft", _("Changed"), "checks", CHANGED),),
    slip=_("If you have not had her since then, choose “don't know”."),
)
DIAMETER = length_plan(
    "dia_clean", _("Diameter"),
    how=_("On bright, unworn metal, not where it runs in the bearing. No caliper? Wrap a strip "
          "of paper round, prick through both layers, measure between the holes and divide "
          "by 3.1416; or close a spanner on the shaft and measure its jaws."),
    slip=_("Tilted jaws, paint and growth read large; where the bearing runs, wear reads small."),
    cannot=_("We work it out from bearing, thread and coupling, and ring you if they disagree."),
)  # fmt: skip
FACE = length_plan(
    "face_to_strut_aft", _("Face to strut's metal end"),
    how=_("From the machined face of the gearbox flange, along the shaft, to the aft end of the "
          "strut. Best with the shaft out: push a broom handle through strut and log to the "
          "face, mark it at the strut's end, pull it out and measure it on the bench."),
    slip=_("Often the tape hooks on the back of the flange, half an inch out; or it stops at the "
           "rubber, which stands proud of the metal."),
    cannot=_("We go by the old shaft then, and a person here decides before anything is cut. "
             "Pieces through the log, or the shaft pulled, would be better."),
)  # fmt: skip
HUB = length_plan(
    "hub_length",
    _("Hub length"),
    how=_("Front face to back face along the shaft, without nut or fairing cap."),
    slip=_("Measure the hub itself, not to the edge of a blade."),
    cannot=_("We go by strut to thread end instead, or by the usual hub with more doubt."),
)
GAP = _more(
    length_plan(
        "gap_now", _("Gap"),
        how=_("Push the shaft hard forward. Then find the largest drill whose plain end just "
              "slides between the strut's metal and the hub: that drill is the gap."),
        slip=_("Not to the root of a blade, and not to the rubber. A propeller only pushed on by "
               "hand sits too far aft."),
        cannot=_("Then the old shaft's length tells us little, and we lean on the boat's lengths."),
    ),
    BoxPlan("answers.coupling_state.is", _("At that moment the coupling was"), "radio",
            COUPLING_STATES),
)  # fmt: skip
OLD = length_plan(
    "old_length_face_to_thread", _("Old shaft"),
    ask=_("If the old shaft is out: how long is it, machined coupling face to thread end?"),
    how=_("With the coupling on it. The plain nose with the hole, past the thread, does not "
          "count."),
    slip=_("Usual slip: measured to the tip, or from the end of the bar instead of the face."),
    cannot=_("No matter: measure the long length once more instead, just below."),
    cannot_label=_("No old shaft to measure"),
)  # fmt: skip
AGAIN = Plan(
    "face_to_strut_aft.again",
    _("No old shaft? Then please take the long length, face to strut, a second time."),
    (
        BoxPlan("answers.face_to_strut_aft.again.text", _("Second reading"), "length"),
        BoxPlan("answers.face_to_strut_aft.again.method", _("Measured with"), "select",
                _ways("face_to_strut_aft")),
        BoxPlan("answers.face_to_strut_aft.again.start_mark", _("Mark held at the start, if any")),
    ),
    how=_("Without looking at the first number, and if you can in another way or by somebody "
          "else. Two honest readings a little apart are worth more than one."),
)  # fmt: skip
FLANGE = length_plan(
    "flange_od",
    _("Flange, outside"),
    how=_("Straight across the big disc with the bolts, rim to rim, through the middle."),
    slip=_("Not the hub behind it, and not from the rim to the centre."),
    cannot=_("We choose the coupling by its bolt circle then, and ask you for that."),
)
DIRECTION = Plan(
    "flange_direction",
    _("Which way does the coupling's long hub point?"),
    (BoxPlan("answers.flange_direction", _("Hub points"), "radio", DIRECTIONS),),
    slip=_("This is about the metal's shape, not about which way anything turns."),
    cannot=_("We will ask for a picture before we pick a coupling."),
    cannot_label=_("I can't tell"),
    drawn=True,
)
SHELL = length_plan(
    "shell_od", _("Shell, outside"),
    how=_("The shell is the sleeve round the rubber. Clean the strut's aft face until the line "
          "between shell and strut shows, and measure across that line."),
    slip=_("Not the outside of the strut, and not over paint."),
    cannot=_("We will ask for the strut's bore once the bearing is out."),
    only_for="bearing",
)  # fmt: skip
BEARING = Plan(
    "bearing_length",
    _("How long is the bearing, and how many sit in the strut?"),
    (
        BoxPlan("answers.bearing_length.text", _("Length of one"), "length"),
        BoxPlan("answers.bearing_length.count", _("How many"), "count"),
    ),
    slip=_("Two short ones often sit end to end and pass for one."),
    cannot=_("We go by the length of the strut's barrel."),
    drawn=True,
    only_for="bearing",
)
WATER = Plan(
    "water",
    _("Where does she live?"),
    (
        BoxPlan("answers.water.kind", _("Water"), "radio", WATERS),
        BoxPlan("answers.water.weeks_idle", _("Longest idle, in weeks"), "count"),
    ),
    slip=_("A tidal river is brackish, even where it tastes fresh."),
)

ABOUT = (WANT, UNIT, CONTACT, BOAT)
INSIDE = (LAYOUT, CHANGE, DIAMETER, FACE)
PROPELLER = (HUB, GAP, OLD, AGAIN)
REST = (FLANGE, DIRECTION, WATER, SHELL, BEARING)
