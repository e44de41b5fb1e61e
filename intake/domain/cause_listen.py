"""What to listen for, cause by cause: the words by which a caller gives it away without knowing.

For the ears of whoever asks: none of it is read out, and none tells a number that was expected.
Common practice, no source.
"""

from __future__ import annotations

LISTEN: dict[str, str] = {
    "U-MMIN": "“it says both on the tape”; a number far too big or small for the boat",
    "U-CM": "a comma or a point in the number, a tape from a sewing box or a school",
    "U-MIX": "“the other one I took with the metric tape”",
    "R-BURN-X": "“I started at one, the hook is worn”; a pause when asked what was taken off",
    "R-BURN-O": "“same tape, same way” for the old shaft; the end of the tape is bent",
    "R-TWICE": "“I had already taken it off, and then I took it off”",
    "R-TEN": "“I held it at ten, the end was out of reach”",
    "R-WHOLE": "the fraction comes at once, the whole inch after a hesitation",
    "R-FLIP": "counting marks “back from” the next inch; “one short of”",
    "R-DECFRAC": "“point five”, “forty-four point three”: then ask which mark it was",
    "R-CASE": "“I pushed the case against it and read at the opening”",
    "R-FTIN": "“three foot eight” in one breath; a tape that counts feet again from nought",
    "R-SWAP": "the digits read one by one, in another order than on the sheet",
    "D-GBACK": "“hooked it behind the flange”; “from the gearbox side”",
    "D-CBACK": "“where the shaft comes out of the coupling”; “from the back of the flange”",
    "D-HUB": "“from the end of the coupling”, “where the set screws are”",
    "D-FWD": "“to where the shaft goes into the strut”",
    "D-MID": "“to the leg”, “to the middle of the bearing”",
    "D-RUB": "“to the black”, “to where the rubber sticks out”",
    "D-SLOPE": "“along the keel”, “along the floor”, “level, with a spirit level”",
    "D-SAG": "“over the stringer”; a soft tape; nobody held the other end",
    "D-OPEN": "“the coupling was undone”; “there was a gap between the two halves”",
    "D-PIN": "“to the very end”, “to the tip”, “with the little pin”",
    "D-TAPER": "“to where the nut sits”; “to the end of the cone”",
    "D-END": "“from the end of the bar”; the coupling was off already",
    "D-REAR": "“from behind the gearbox”; the shaft shows at both ends of it",
    "G-ASSUME": "“about a thumb”; “that is what it always is”; nobody was there",
    "G-BLADE": "“to the blade”, “to where the propeller begins”",
    "G-SLID": "“I could push it to and fro”; the coupling was loose when it was taken",
    "P-RULE": "“four inches, as always”; no number for the hub",
    "P-BORE": "“it wobbles on the taper”; a propeller from another boat",
    "P-SEAT": "“pushed on by hand”; the nut was not tight",
    "E-ROUND": "“say forty-four”; “roughly”; every number is a whole or a half",
    "E-PAPERS": "“the papers say”, “I remember”; pages turning",
    "E-COPY": "the very number of the line above, or of the picture on the form",
    "I-DIAREAD": "“a bit under”; read with a tape, or over paint",
    "I-SYSTEM": "“it is the standard size”; a boat from another country than its shaft",
    "I-HUB": "“the round part”; a flange no bigger than its hub",
    "I-HOLE": "“across the corner”, “from hole to hole”: ask which two",
    "I-REVERSED": "“it is a reversing gearbox”; “it goes backwards too”",
    "I-SIDE": "“port, I mean, no, the left one as I look at her from behind”",
    "I-OTHER": "“the blue one?”; two boats in one yard; numbers from a notebook",
    "I-COMBO": "“that is what was in there”; parts of two makes",
    "O-OLDSHAFT": "“it never sat right”; “we put washers behind it”",
    "O-OLDBEARING": "“it was tight from the beginning”; “we had to sand it”",
    "B-MOVED": "a new engine, new mounts, “we lifted the box once”",
    "B-STRUT": "“we hit something”; “the strut was straightened”",
    "B-MOUNT": "soft mounts, ten years old; “she has settled”",
    "C-WRONGDIM": "two sound measurements that agree with each other, and not with us",
    "C-MISSING": "a stamp we cannot find; “it is an old make”",
    "K-TYPED": "“that is not what I told your colleague”",
    "K-SKIPPED": "“nobody asked me about that”",
    "K-VERSION": "“I sent you a new number since”",
    "S-LENGTH": "the number on the tag and their tape differ",
    "S-TAPER": "“the propeller goes on too far”, “not far enough”",
    "S-KEY": "“the key will not go in”, “it falls out”",
    "S-FACE": "“the flange runs out when I turn it”",
    "S-STRAIGHT": "“it rolls unevenly on the bench”",
    "T-BENT": "a damaged tube; “the driver dropped it”",
    "T-LOST": "the carrier says delivered, nobody signed",
    "F-ALIGN": "“it was lined up ashore”; never looked at afloat",
    "F-FORCED": "“the bolts pulled it together”",
    "F-SEAT": "“there is paint left on the taper”; the nut ran out of thread",
    "X": "whatever they say on their own: write it down in their words",
}


def listen_for(cause: str) -> str:
    """What to listen for; empty for a code that is on no list.

    >>> listen_for("D-PIN")
    '“to the very end”, “to the tip”, “with the little pin”'
    >>> listen_for("no such")
    ''
    """
    return LISTEN.get(cause, "")
