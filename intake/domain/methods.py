"""How sure each way of measuring is: standard uncertainties (one sigma, Type B).

Rectangular half-width a gives a / sqrt 3 (JCGM 100); the component figures behind each row are
common practice, no source. A question's own figure beats the table of methods.
"""

from __future__ import annotations

from catalog.domain.lengths import inches

_METHODS = {
    "caliper": "0.002",
    "caliper_in_place": "0.004",
    "paper_strip": "0.006",
    "wrench_32": "0.018",
    "wrench_16": "0.030",
    "tape_across": "0.06",
    "tape_short": "0.03",
    "tape": "0.045",
    "tape_helper": "0.06",
    "tape_one_hand": "0.08",
    "rod": "0.05",
    "pieces": "0.15",
    "laser": "0.07",
    "along_old_shaft": "0.10",
    "drill_shank": "0.025",
    "rule": "0.02",
    "eye": "0.12",
    "papers": "0.5",
    "mark": "0",
    "plug": "0.01",
    "feeler": "0.005",
}

_OWN = {
    ("gap_now", "rule"): "0.03",
    ("hub_length", "caliper"): "0.01",
    ("shell_od", "caliper"): "0.003",
    ("shell_od", "caliper_in_place"): "0.01",
    ("strut_bore", "caliper"): "0.003",
    ("bearing_play", "eye"): "0.03",
    ("flange_od", "caliper"): "0.01",
    ("flange_od", "tape_short"): "0.04",
    ("flange_od", "tape"): "0.04",
    ("gland_position", "tape_short"): "0.06",
    ("gland_position", "tape"): "0.06",
    ("rubber_proud", "rule"): "0.03",
    ("rudder_clear", "tape_short"): "0.1",
    ("rudder_clear", "tape"): "0.1",
    ("gearbox_through", "rule"): "0.05",
    ("gearbox_through", "tape_short"): "0.05",
    ("gearbox_through", "tape"): "0.05",
}

METHODS: tuple[str, ...] = tuple(_METHODS)
_U_NM = {method: float(inches(u).nm) for method, u in _METHODS.items()}
_OWN_NM = {key: float(inches(u).nm) for key, u in _OWN.items()}

METHOD_WORDS: dict[str, str] = {
    "caliper": "caliper",
    "caliper_in_place": "caliper, in place",
    "paper_strip": "paper strip wrapped round",
    "wrench_32": "spanner closed on it, read to 1/32",
    "wrench_16": "spanner closed on it, read to 1/16",
    "tape_across": "tape laid across",
    "tape_short": "short tape or rule end",
    "tape": "tape, both ends held",
    "tape_helper": "tape with a helper",
    "tape_one_hand": "tape, one hand",
    "rod": "rod through the log",
    "pieces": "in pieces through the hull",
    "laser": "laser off a squared card",
    "along_old_shaft": "along the old shaft",
    "drill_shank": "drill shank that just fits",
    "rule": "steel rule",
    "eye": "by eye",
    "papers": "from papers or memory",
    "mark": "stamped or moulded mark",
    "plug": "bar or drill that just slides in",
    "feeler": "feeler gauge",
}


def uncertainty_nm(slug: str, method: str) -> float:
    """Standard uncertainty of one reading, in nanometres.

    Raises KeyError for a method that is not in ``METHODS``.

    >>> uncertainty_nm("face_to_strut_aft", "rod") == inches("0.05").nm
    True
    """
    own = _OWN_NM.get((slug, method))
    return _U_NM[method] if own is None else own
