"""Causes in plain words, as a finding names them: to the desk with shares, to the customer without.

The codes and their short labels stand in `intake.domain.causes`; these say what happened, without
blame and without a number that was expected.
"""

from __future__ import annotations

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from intake.domain.causes import CAUSES

Words = str | Promise

CAUSE_WORDS: dict[str, Words] = {
    "U-MMIN": _("millimetres were written where inches were meant, or the reverse"),
    "U-CM": _("centimetres were written where inches or millimetres were meant"),
    "U-MIX": _("two units were used on one sheet"),
    "R-BURN-X": _("the tape was started on its 1 mark at the boat, and the 1 not taken off"),
    "R-BURN-O": _("the tape was started on its 1 mark at the old shaft, and the 1 not taken off"),
    "R-TWICE": _("the start mark was taken off twice"),
    "R-TEN": _("the tape was started on its 10 mark, and the 10 not taken off"),
    "R-WHOLE": _("a neighbouring whole inch was read"),
    "R-FLIP": _("the fraction was read from the wrong side, or its marks miscounted"),
    "R-DECFRAC": _("a decimal was written where eighths were meant"),
    "R-CASE": _("the length of the tape's own case was not added"),
    "R-FTIN": _("feet and inches were run together"),
    "R-SWAP": _("two digits changed places"),
    "D-GBACK": _("measured from the back of the gearbox flange instead of its face"),
    "D-CBACK": _("measured from the aft face of the shaft flange"),
    "D-HUB": _("measured from the end of the coupling's hub"),
    "D-FWD": _("measured to the forward end of the strut"),
    "D-MID": _("measured to the middle of the strut"),
    "D-RUB": _("measured to the rubber instead of the metal"),
    "D-SLOPE": _("measured level instead of along the shaft"),
    "D-SAG": _("the tape sagged, or passed over something"),
    "D-OPEN": _("measured from the coupling's face while the two faces stood apart"),
    "D-PIN": _("the nose past the thread was counted in"),
    "D-TAPER": _("the old shaft was measured only to the end of its taper"),
    "D-END": _("the old shaft was measured from its bar end, not from the coupling's face"),
    "D-REAR": _("measured from the back of a gearbox that the shaft passes through"),
    "G-ASSUME": _("the gap was assumed rather than measured, and the old shaft was really off"),
    "G-BLADE": _("the gap was taken to the root of a blade"),
    "G-SLID": _("the shaft had slid aft as the gap was taken"),
    "P-RULE": _("the usual tail was used for another hub"),
    "P-BORE": _("the propeller's bore is not to the standard"),
    "P-SEAT": _("the propeller was not pulled home"),
    "E-ROUND": _("the number was rounded while talking"),
    "E-PAPERS": _("the number came from papers or from memory"),
    "E-COPY": _("the number was copied from an example or another line"),
    "I-DIAREAD": _("the diameter was misread"),
    "I-SYSTEM": _("an inch size was taken for a metric one, or the reverse"),
    "I-HUB": _("the coupling's hub was measured instead of the flange"),
    "I-HOLE": _("another hole, or other holes, were measured"),
    "I-REVERSED": _("“reversed” was understood in another way"),
    "I-SIDE": _("port and starboard were exchanged"),
    "I-OTHER": _("the numbers are from another boat or another shaft"),
    "I-COMBO": _("two of these parts cannot go together"),
    "O-OLDSHAFT": _("the old shaft itself had the wrong length"),
    "O-OLDBEARING": _("the old bearing itself was the wrong one"),
    "B-MOVED": _("engine, gearbox or strut has moved since the old shaft was made"),
    "B-STRUT": _("the strut was bent or replaced"),
    "B-MOUNT": _("the engine's mounts have sunk or were changed"),
    "C-WRONGDIM": _("a size in our catalogue is wrong"),
    "C-MISSING": _("the part is not in our catalogue"),
    "K-TYPED": _("it was typed wrongly at the desk"),
    "K-SKIPPED": _("it was released over a finding"),
    "K-VERSION": _("an older version was used"),
    "S-LENGTH": _("it was cut to another length"),
    "S-TAPER": _("the taper is off its size"),
    "S-KEY": _("the keyway is off its size"),
    "S-FACE": _("the coupling was not faced on the shaft"),
    "S-STRAIGHT": _("the shaft is not straight"),
    "T-BENT": _("it was bent on its way"),
    "T-LOST": _("it was lost on its way"),
    "F-ALIGN": _("the engine was not aligned"),
    "F-FORCED": _("the faces were pulled together with the bolts"),
    "F-SEAT": _("the propeller was not seated when it was fitted"),
    "X": _("something that is not on our list"),
}


def cause_words(code: str) -> Words:
    """What happened, in a few words; the short label where there are none."""
    return CAUSE_WORDS.get(code) or CAUSES.get(code, code)
