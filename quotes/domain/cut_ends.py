"""The two ends of a shaft in a machinist's words, and what of them is not known."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.domain.keys import coupling_key_width
from intake.domain.sheet import Sheet
from intake.domain.sizes import Size
from quotes.domain.cut_facts import Rows, decimal_inches, hundredths_mm
from quotes.domain.end_rows import EndRows
from quotes.domain.order import Shaft
from quotes.domain.stations import FRONT, LARGE, NOT_KNOWN, SMALL, THREAD, TIP, Chain


def not_known(shaft: Shaft, made: Chain) -> tuple[str, ...]:
    """What somebody must say before metal is cut; empty where all is known."""
    return tuple(_missing(shaft, made))


def _missing(shaft: Shaft, made: Chain) -> Iterator[str]:
    if made.at(LARGE) is None or made.at(SMALL) is None:
        yield "the propeller end: length of the taper, small end, length of the thread"
    if not shaft.thread:
        yield "the nut's thread"
    if shaft.layout == "pass_through":
        reach = "" if made.at(FRONT) is not None else "how far it reaches, "
        yield f"the front end of a shaft right through: {reach}its seat, thread, nut and lock"
    elif shaft.forward_end == "tapered":
        yield "the taper at the coupling: its rate and small end"


def forward_end(shaft: Shaft, sheet: Sheet) -> Rows:
    """The coupling's end, line by line."""
    if shaft.layout == "pass_through" or shaft.forward_end == "tapered":
        return (("Front end", NOT_KNOWN), ("Keyway", NOT_KNOWN))
    return (
        ("Face", "square, chamfered; flush to 1/16 in behind the coupling face (common practice)"),
        ("Coupling", "to the bore of the coupling in hand"),
        ("Keyway", _forward_keyway(shaft)),
        *_measured_keyway(sheet),
        ("Length", "to the key and hub in hand; run out with the cutter's radius, no sharp corner"),
    )


def _forward_keyway(shaft: Shaft) -> str:
    straight = coupling_key_width(Size(shaft.system, shaft.diameter))
    unit = "in" if shaft.system == "inch" else "mm"
    if not shaft.key or straight is None:
        return f"{NOT_KNOWN}; the tables give no one key for both ends"
    if unit == "mm":
        return f"{shaft.key} mm key (ISO 773)"
    if straight.inch_text != shaft.key:
        return (
            f"ordered key {shaft.key} in (SAE J755), ANSI B17.1 has {straight.inch_text} in for a "
            "straight bore: measure the coupling's keyway first"
        )
    deep = Length(straight.nm // 2)
    return f"{shaft.key} in square key, {_inch_mm(deep)} deep at the side (ANSI B17.1)"


def _measured_keyway(sheet: Sheet) -> Rows:
    width = sheet.part("keyway", "coupling_width")
    return (("Measured", f"coupling's keyway {width.both()}"),) if width else ()


def propeller_end(shaft: Shaft, made: Chain, rows: EndRows) -> Rows:
    """The propeller's end, line by line, each with its source where it is not the same one."""
    if made.at(LARGE) is None:
        return tuple(_unknown_end(shaft, rows))
    return tuple(_known_end(shaft, made, rows))


def _unknown_end(shaft: Shaft, rows: EndRows) -> Iterator[tuple[str, str]]:
    taper = rows.row("taper")
    yield "Taper", f"{taper.value} (ISO 4566); length {NOT_KNOWN}" if taper else NOT_KNOWN
    yield "Small end", NOT_KNOWN
    yield "Thread", f"{shaft.thread}; length {NOT_KNOWN}" if shaft.thread else NOT_KNOWN
    yield "Keyway", NOT_KNOWN


def _known_end(shaft: Shaft, made: Chain, rows: EndRows) -> Iterator[tuple[str, str]]:
    taper, threads = rows.length("taper_length_C"), _between(made, SMALL, THREAD)
    low, high = rows.length("small_end_dia_min"), rows.length("small_end_dia_max")
    if taper and low and high:
        yield "Taper", f"1:16 on diameter (0.7500 in per ft), C {_inch_mm(taper)} long"
        small = Length((low.nm + high.nm) // 2)
        yield "Small end", f"⌀ {_inch_mm(small)} ± 0.001 in ({decimal_inches(low)[:-1]} to " \
                           f"{decimal_inches(high)[:-1]})"  # fmt: skip
    yield "Keyway", _propeller_keyway(rows)
    sure = _marked(rows, "thread_nominal", "thread_length_G")
    hand = "UNC, right hand"
    yield "Thread", f"{shaft.thread} {hand}, G {_inch_mm(threads)} from the small end{sure}"
    yield "Nose", _nose(made, rows)


def _propeller_keyway(rows: EndRows) -> str:
    low, high = rows.length("keyway_width_min"), rows.length("keyway_width_max")
    shallow, deep = rows.length("keyway_side_depth_min"), rows.length("keyway_side_depth_max")
    if not (low and high and shallow and deep):
        return NOT_KNOWN
    return (
        f"{decimal_inches(low)} to {decimal_inches(high)} in wide, {decimal_inches(shallow)} to "
        f"{decimal_inches(deep)} in deep at the side; corners with a fillet; length to the key and "
        "hub in hand (our copy of the table does not give it)"
    )


def _nose(made: Chain, rows: EndRows) -> str:
    length = _between(made, THREAD, TIP)
    if not length:
        return "none: it was said that there is none"
    pin = rows.row("cotter_pin_nominal_dia")
    hole = f", hole for a {pin.value} in cotter pin" if pin else ""
    sure = _marked(rows, "extension_beyond_taper_H", "cotter_pin_nominal_dia")
    return f"{_inch_mm(length)} past the thread{hole}{sure}; place the hole with the nuts in hand"


def _marked(rows: EndRows, *quantities: str) -> str:
    words = rows.unsure(*quantities)
    return f" ({words})" if words else ""


def _between(made: Chain, start: str, end: str) -> Length:
    first, last = made.at(start), made.at(end)
    return last - first if first is not None and last is not None else Length(0)


def _inch_mm(length: Length) -> str:
    return f"{decimal_inches(length)} in ({hundredths_mm(length)} mm)"
