"""Every word of the sketches, so that it can be translated; the sketches themselves are pure."""

from __future__ import annotations

from django.utils.translation import gettext_noop as _

SKETCH_WORDS: tuple[str, ...] = (
    _("A boat that is safe to lie under"),
    _(
        "Seen from ahead: the keel rests on blocks, a stand on either side holds the hull, the "
        "two stands are joined by a chain below the keel, and the ground is firm."
    ),
    _("keel on blocks"),
    _("stands chained in pairs"),
    _("boat, from ahead"),
    _("What to have with you"),
    _(
        "A broom handle or other straight rod, a slim tape, a set of drills, a rule, a caliper "
        "or else a spanner with a sliding jaw, and a phone for pictures."
    ),
    _("broom handle or other straight rod"),
    _("slim tape"),
    _("drills"),
    _("rule"),
    _("caliper"),
    _("or a spanner"),
    _("phone"),
    _("Diameter by a strip of paper"),
    _(
        "Left: a strip of paper wraps once round the shaft and overlaps; a pin goes through "
        "both layers. Right: the strip laid flat has two holes; the distance between them "
        "divided by 3.1416 is the diameter."
    ),
    _("shaft"),
    _("wrap, prick through both"),
    _("hole to hole"),
    _("÷ 3.1416 = diameter"),
    _("lay it flat"),
    _("A broom handle through strut and log"),
    _(
        "Side view, engine left. A rod runs through the strut and the log to the machined face "
        "of the gearbox flange. It is marked at the aft metal end of the strut; face to mark is"
        " measured on the bench."
    ),
    _("measured on the bench"),
    _("machined face"),
    _("mark"),
    _("Three pieces along the shaft"),
    _(
        "Side view, engine left, shaft in place. Piece 1: coupling face to the inner end of the"
        " log. Piece 2: the log itself. Piece 3: outer end of the log to the aft metal end of "
        "the strut."
    ),
    _("log"),
    _("The empty boat, read twice"),
    _(
        "Side view, engine left, no shaft. The distance from the machined face of the gearbox "
        "flange to the aft metal end of the strut is taken twice, the second time with the "
        "first number covered."
    ),
    _("first reading, written down"),
    _("second reading, the first one covered"),
    _("Lengths through the gearbox"),
    _(
        "Side view, engine side left. The shaft passes through the gearbox and is held by a "
        "coupling in front of it. Two lengths count from the machined face of that coupling: to"
        " the back of the gearbox, and to the aft metal end of the strut."
    ),
    _("through the gearbox"),
    _("front face to strut"),
    _("gearbox"),
    _("strut"),
    _("The gap by a drill shank"),
    _(
        "The shaft is pushed hard forward, to the left. The largest drill whose plain shank "
        "slides between the aft metal end of the strut and the front face of the propeller hub "
        "is the gap. The rubber stands a little proud of the metal and does not count. The hub "
        "is measured from front face to back face, without the nut."
    ),
    _("gap"),
    _("hub"),
    _("largest drill"),
    _("that slides in"),
    _("rubber: not here"),
    _("The propeller hub by itself"),
    _(
        "A propeller hub from the side. Its length runs along the shaft from the front face, "
        "where the tapered bore is wide, to the back face. Nut, cap and blades do not count."
    ),
    _("hub: face to face"),
    _("nut does"),
    _("not count"),
    _("front, the wide end"),
    _("The aft face of the strut"),
    _(
        "Rings from outside to inside: the strut's metal, a fine line, the bearing's shell, its"
        " rubber, the shaft. The shell is measured across, from the fine line on one side to "
        "the line on the other."
    ),
    _("across the line"),
    _("the line"),
    _("shell"),
    _("rubber"),
    _("Two short bearings in one strut"),
    _(
        "A strut cut open along the shaft. Two bearings of half its length sit end to end; only"
        " a seam in the middle shows that there are two."
    ),
    _("seam"),
    _("one"),
    _("two"),
    _("strut's barrel"),
    _("A flange seen on its face"),
    _(
        "A round flange with four bolt holes. It is measured from rim to rim through the "
        "middle; the bolt circle by the distance from the centre of one hole to the centre of "
        "its neighbour. In the middle there may be a raised or sunk ring."
    ),
    _("hole to its"),
    _("neighbour"),
    _("ring: raised,"),
    _("sunk or none"),
    _("rim to rim"),
    _("bolts: count them"),
    _("Which way the hub points"),
    _(
        "Side views, engine left. First: the coupling sits behind the gearbox, its long hub "
        "points back to the propeller. Second: the coupling sits in front of the gearbox, its "
        "hub points forward, and the shaft passes through."
    ),
    _("hub points back"),
    _("hub points forward"),
    _("Three ways to draw a coupling off"),
    _(
        "One: long bolts draw the shaft's half toward the gearbox half over a packing piece "
        "that stands on the shaft's end. Two: a drilled plate is bolted to the coupling, and a "
        "screw in its middle bears on the shaft's end. Three: an extractor screws into a thread"
        " in the coupling and bears on the shaft's end."
    ),
    _("Two V-drives"),
    _(
        "Side views, bow left. First: the shaft ends at a flange on the back of the gearbox. "
        "Second: the shaft passes through the gearbox; coupling and nut show in front of it."
    ),
    _("ends at the back"),
    _("comes out in front"),
    _("bow"),
    _("The shaft's front end"),
    _(
        "Side view, bow left. In front of the gearbox the shaft is held in its coupling by a "
        "nut with washer and lock. The length asked for runs from the coupling's machined face,"
        " which bears on the gearbox, forward to the tip."
    ),
    _("how far it reaches"),
    _("nut, washer and lock"),
)
