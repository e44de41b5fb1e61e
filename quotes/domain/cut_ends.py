"""The two ends of a shaft in a machinist's words, and what of them is not known."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.lengths import Length
from intake.domain.keys import coupling_key_width
from intake.domain.sheet import Sheet
from intake.domain.sizes import Size
from quotes.domain.cut_facts import Rows, decimal_inches, hundredths_mm
from quotes.domain.end_rows import EndRows, end_rows
from quotes.domain.order import Shaft
from quotes.domain.stations import FRONT, LARGE, NOT_KNOWN, SMALL, THREAD, TIP, Chain


def not_known(shaft: Shaft, made: Chain) -> tuple[str, ...]:
    """What somebody must say before metal is cut; empty where all is known."""
    return tuple(_missing(shaft, made))


def _missing(shaft: Shaft, made: Chain) -> Iterator[str]:
    if made.at(LARGE) is None or made.at(SMALL) is None:
        rows = end_rows(shaft.system, shaft.diameter)
        thread = "" if rows.row("thread_length") else ", length of the thread"
        which = "which length of the taper" if rows.row("taper_length") else "length of the taper"
        yield f"the propeller end: {which}, small end{thread}, depth of the keyway"
    if not shaft.thread:
        yield "the nut's thread"
    if shaft.layout == "pass_through":
        reach = "" if made.at(FRONT) is not None else "how far it reaches, "
        yield f"the front end of a shaft right through: {reach}its seat, thread, nut and lock"
    elif shaft.forward_end == "tapered":
        yield "the taper at the coupling: its rate and small end"


def forward_end(shaft: Shaft, sheet: Sheet) -> Rows:
    """The coupling's end, line by line."""
    if shaft.layout == "pass_through":
        return (("Front end", NOT_KNOWN), *_told_of_front(sheet), ("Keyway", NOT_KNOWN))
    if shaft.forward_end == "tapered":
        return (("Taper", f"rate and small end {NOT_KNOWN}"), *_told_of_taper(sheet),
                ("Keyway", NOT_KNOWN))  # fmt: skip
    return (
        ("Face", "square, chamfered; recess 0 to 1/16 in behind the coupling face "
                 "(common practice)"),
        ("Fit", _FIT),
        ("Screws", _screws(sheet)),
        ("Keyway", _forward_keyway(shaft)),
        *_measured_keyway(sheet),
        ("Length", "to the key and hub in hand; run out with the cutter's radius, no sharp corner"),
    )  # fmt: skip


# What is published of a straight bore does not agree, so the coupling's own paper decides.
_FIT = (
    "bore measured first; 0.0005 to 0.001 in clear (trade guidance) or a light drive fit (an "
    "engine maker's data): the coupling's own paper decides"
)


def _screws(sheet: Sheet) -> str:
    """Set screws as the customer told them; else as the coupling has them."""
    count, size = sheet.part("set_screws", "count"), sheet.part("set_screws", "size")
    kind = sheet.part("set_screws", "kind")
    if kind == "press":
        return "none was told: held by its fit; ring the desk if the coupling has holes for them"
    if count or size:
        told = " × ".join(str(part) for part in (count, size) if part)
        return f"{told} as told; shaft dimpled under each, wired or locked (common practice)"
    return "as the coupling in hand; shaft dimpled under each, wired or locked (common practice)"


def _told_of_front(sheet: Sheet) -> Rows:
    """What the customer told of the end that shows in front: to be checked, not to be cut from."""
    told = [sheet.part("front_end", part) for part in ("thread", "hand", "nut", "lock")]
    words = ", ".join(str(part) for part in told if part)
    showing = sheet.part("front_end", "showing")
    rows = (("As told", words), ("Showing", showing.both() if showing else ""))
    return tuple((label, value) for label, value in (*rows, *_told_of_taper(sheet)) if value)


def _told_of_taper(sheet: Sheet) -> Rows:
    rate = sheet.part("front_taper", "rate")
    return (("Rate told", f"{rate}; prove it on the coupling"),) if rate else ()


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
    """The rows that were seen of ISO 4566, as far as they go; the rest is asked, never invented."""
    taper, long = rows.row("taper"), _range(rows, "taper_length")
    if taper is None:
        yield "Taper", NOT_KNOWN
    elif long:
        low, high = long
        yield "Taper", f"{taper.value} (ISO 4566), {low} to {high} mm long: which, {RING}"
    else:
        yield "Taper", f"{taper.value} (ISO 4566); length {NOT_KNOWN}"
    yield "Small end", _metric_small(shaft, long)
    yield "Thread", _metric_thread(shaft, rows)
    yield "Undercut", NOT_KNOWN
    yield "Keyway", _metric_key(rows)
    if boss := rows.row("boss_length"):
        yield "Hub", f"{boss.value} mm long in the same row (ISO 4566)"


RING = "ring the desk"


def _range(rows: EndRows, quantity: str) -> tuple[str, str] | None:
    """A value that the table gives as a range of whole millimetres."""
    row = rows.row(quantity)
    low, dash, high = row.value.partition("-") if row else ("", "", "")
    return (low, high) if dash else None


def _metric_small(shaft: Shaft, long: tuple[str, str] | None) -> str:
    """D - L/10 (arithmetic) at both ends of the range."""
    if long is None:
        return NOT_KNOWN
    ends = [Length(shaft.diameter.nm - int(size) * 100_000) for size in reversed(long)]
    low, high = (hundredths_mm(end) for end in ends)
    return f"D - L/10: ⌀ {low} to {high} mm, by the length (arithmetic); {RING}"


def _metric_thread(shaft: Shaft, rows: EndRows) -> str:
    if not shaft.thread:
        return NOT_KNOWN
    long = rows.row("thread_length")
    return (
        f"{shaft.thread}, {long.value} mm long (ISO 4566)"
        if long
        else f"{shaft.thread}; length {NOT_KNOWN}"
    )


def _metric_key(rows: EndRows) -> str:
    key, wide = rows.row("key"), rows.row("key_width")
    size = f"{key.value} mm key" if key else f"key {wide.value} mm wide" if wide else ""
    return f"{size} (ISO 4566); depth {NOT_KNOWN}" if size else NOT_KNOWN


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
    yield "Undercut", "none in our copy of the table; the thread runs out clean, no sharp corner"
    yield "Nose", _nose(made, rows)


def _propeller_keyway(rows: EndRows) -> str:
    low, high = rows.length("keyway_width_min"), rows.length("keyway_width_max")
    shallow, deep = rows.length("keyway_side_depth_min"), rows.length("keyway_side_depth_max")
    if not (low and high and shallow and deep):
        return NOT_KNOWN
    return (
        f"{decimal_inches(low)} to {decimal_inches(high)} in wide, {decimal_inches(shallow)} to "
        f"{decimal_inches(deep)} in deep at the side; corners with a fillet, radius and length to "
        "the key and hub in hand (our copy of the table gives neither)"
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
