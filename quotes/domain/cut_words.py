"""From an accepted quote and its sheet to what the cut sheet says. Pure: days come in as words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from catalog.domain.lengths import Length, inches, mm
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet
from quotes.domain.cut_drawing import cut_drawing
from quotes.domain.cut_ends import forward_end, not_known, propeller_end
from quotes.domain.cut_facts import (
    Box,
    CutFacts,
    Rows,
    StationRow,
    both_exact,
    decimal_inches,
    hundredths_mm,
)
from quotes.domain.end_rows import EndRows, end_rows
from quotes.domain.order import Order, Shaft, alloy_words, read_order
from quotes.domain.paper_facts import boat_words
from quotes.domain.stations import FACE, NOT_KNOWN, THREAD, Chain, chain, left_long
from quotes.domain.words import both

# Section of the trade: length face to thread end, and overall (common practice).
LENGTH_OFF = inches("1/32")
LENGTH_WITHIN = "± 1/32 in (± 0.8 mm)"
NO_PIECE = "ring: no piece held"
FACE_END, CUT_END = "Coupling face to end of threads", "End as cut to end of threads"


@dataclass(frozen=True, slots=True)
class CutRow:
    """The accepted quote as plain values. ``address``: where the page is opened again;
    ``piece``: what it is sawn from, with heat, place and certificate."""

    shop: str
    number: str
    version: int
    sheet_number: int
    reference: str
    accepted: str
    address: str
    piece: str = NO_PIECE
    desk_word: str = ""


def stored_chain(body: Mapping[str, Any], record: Mapping[str, Any]) -> Chain | None:
    """The chain of a stored sheet, or None where no shaft is ordered."""
    if read_order(body, record).shaft is None:
        return None
    sheet = read_sheet(body)
    return chain(
        record["stack"], coupling=sheet.length("hub_length_coupling"), bearing=_one_bearing(sheet)
    )


def cut_facts(
    row: CutRow, body: Mapping[str, Any], record: Mapping[str, Any], order: Order | None = None
) -> CutFacts:
    """Everything the page says. ``order``: as it was accepted, with its choice of alloy; without
    one it is read from the sheet alone. Raises ValueError where no shaft is ordered."""
    order, made = order or read_order(body, record), stored_chain(body, record)
    if order.shaft is None or made is None:
        raise ValueError("no shaft is ordered")
    sheet, shaft = read_sheet(body), order.shaft
    made = left_long(made, shaft.left_long)
    rows = end_rows(shaft.system, shaft.diameter)
    lines = station_rows(made)
    return CutFacts(
        shop=row.shop,
        number=row.number,
        version=row.version,
        sheet_number=row.sheet_number,
        reference=row.reference,
        accepted=row.accepted,
        boat=boat_words(sheet),
        job=sheet.job,
        customer=sheet.contact.name,
        address=row.address,
        bar=f"{both(shaft.diameter, shaft.system)} round bar, {alloy_words(shaft.alloy)}",
        piece=row.piece,
        length=both_exact(shaft.sent, shaft.system),
        length_within=f"{LENGTH_WITHIN}, common practice",
        overall=both_exact(made.overall, shaft.system),
        drawing=cut_drawing(made, lines, shaft, small_end_of(rows)),
        stations=lines,
        sums=_sums(made, shaft.system),
        forward=(*_left_long(shaft, record), *forward_end(shaft, sheet)),
        propeller=propeller_end(shaft, made, rows),
        finish=_FINISH,
        work=work(order),
        boxes=tuple(_boxes(made, rows, shaft)),
        cautions=CAUTIONS,
        not_known=not_known(shaft, made),
        desk_word=row.desk_word,
        length_label=CUT_END if shaft.left_long else FACE_END,
    )


def _one_bearing(sheet: Sheet) -> Length | None:
    """Where there are several, nobody said where each one sits."""
    length, count = (sheet.part("bearing_length", name) for name in ("text", "count"))
    return length if isinstance(length, Length) and count in (None, 1) else None


def small_end(shaft: Shaft) -> Length | None:
    """The middle of the small end's limits, where a table gives them."""
    return small_end_of(end_rows(shaft.system, shaft.diameter))


def small_end_of(rows: EndRows) -> Length | None:
    """The same from rows already found."""
    low, high = rows.length("small_end_dia_min"), rows.length("small_end_dia_max")
    return Length((low.nm + high.nm) // 2) if low and high else None


def station_rows(made: Chain) -> tuple[StationRow, ...]:
    """The table's lines, from forward to aft; drawing and table take the same values."""
    pieces = {piece.end: f"{piece.name} {decimal_inches(piece.length)}" for piece in made.pieces}
    return tuple(
        StationRow(
            letter=letter,
            name=one.name,
            inch=decimal_inches(one.x) if one.x is not None else "—",
            fraction=one.x.inch_text if one.x is not None else "",
            mm=hundredths_mm(one.x) if one.x is not None else "",
            piece=pieces.get(one.key, ""),
            source=one.source,
        )
        for letter, one in zip("ABCDEFGHIJ", made.stations, strict=False)
    )


def _sums(made: Chain, system: str) -> str:
    """The chain check in words, from the pieces themselves."""
    keys = [piece.start for piece in made.pieces]
    held = [piece for piece in made.pieces[keys.index(FACE) :] if piece.start != THREAD]
    overall, to_thread = (
        both_exact(Length(sum(piece.length.nm for piece in pieces)), system)
        for pieces in (made.pieces, held)
    )
    return (
        f"Chain checked: the {len(keys)} pieces come to {overall} overall, {to_thread} from the "
        "face to the end of the threads."
    )


# SAE J755 (MAY2015) names the finish; straightness and run-out are common practice, no source.
_FINISH: Rows = (
    ("Finish", "32 µin (0.8 µm) or better on taper, key sides, bearing journal (SAE J755)"),
    ("Straight", "0.002 in per foot (0.17 mm per m), run-out at most 0.005 in (0.13 mm) TIR at any "
                 "journal (common practice)"),
    ("Coupling", "faced on the shaft; face run-out at most 0.002 in (0.05 mm) at the rim "
                 "(common practice)"),
    ("Contact", "taper to gauge or propeller, 70 % or more by marking, heavier at the large end "
                "(common practice)"),
)  # fmt: skip


def work(order: Order) -> tuple[str, ...]:
    """The order of work (common practice). One that is left long is finished at the boat."""
    if order.shaft is not None and order.shaft.left_long:
        return _work_left_long(order.shaft)
    coupling = "Fit the customer's coupling" if order.coupling_comes else "Fit the coupling"
    return (
        "Certify the bar: alloy, diameter, heat.",
        "Straighten; write down the run-out.",
        "Propeller end: taper, keyway, thread, nose.",
        "Coupling end, left 1/8 in (3 mm) long.",
        f"{coupling}; face it on the shaft.",
        "Final length, from the faced coupling.",
        "Inspect; fill in the boxes.",
        "Stamp with the quote's number.",
    )


def _work_left_long(shaft: Shaft) -> tuple[str, ...]:
    left = both(shaft.left_long, shaft.system)
    return (
        "Certify the bar: alloy, diameter, heat.",
        "Straighten; write down the run-out.",
        "Propeller end: taper, keyway, thread, nose.",
        f"Coupling end: square, left {left} long; the yard faces it.",
        "Final length as left long, from the cut end.",
        "Inspect; fill in the boxes.",
        "Stamp with the quote's number.",
    )


def _boxes(made: Chain, rows: EndRows, shaft: Shaft) -> Iterator[Box]:
    label = "Cut end to thread end" if shaft.left_long else "Face to thread end"
    yield Box(label, _within(shaft.sent))
    yield Box("Overall", _within(made.overall))
    low, high = rows.length("small_end_dia_min"), rows.length("small_end_dia_max")
    yield Box("Small end ⌀", f"{_three(low)} to {_three(high)} in" if low and high else NOT_KNOWN)
    for place in ("coupling end", "bearing", "taper"):
        yield Box(f"TIR, {place}", "at most 0.005 in")
    yield Box("Face run-out", "at most 0.002 in")
    yield Box("Taper contact", "at least 70 %")
    yield Box("Bar: heat", "from the certificate")
    yield Box("Remnant: id, length", "back to the rack")


def _within(length: Length) -> str:
    low, high = length - LENGTH_OFF, length + LENGTH_OFF
    return f"{_three(low)} to {_three(high)} in"


def _three(length: Length) -> str:
    """Inches to a thousandth, as a caliper shows them."""
    thousandths = round(length.nm / 25_400)
    return f"{thousandths // 1000}.{thousandths % 1000:03d}"


CAUTIONS = (
    "Keyways and threads cut: no gloves at the lathe, gloves at the bench; eyes covered. Bar that "
    "stands out of the headstock is guarded. Two people lift a long bar, ends capped. No hammer on "
    "the shaft end. We check whether measured lengths agree; we do not certify strength, whip or "
    "alignment."
)


def _left_long(shaft: Shaft, record: Mapping[str, Any]) -> Rows:
    """What is left long for a yard to face at the boat, or what the checks would rather leave."""
    if shaft.left_long:
        left, to = (both(one, shaft.system) for one in (shaft.left_long, shaft.length))
        return (("Left long", f"by {left}; the yard faces it to {to}. Face nothing off here."),)
    trim = (record.get("stack") or {}).get("trim_length")
    if not trim:
        return ()
    words = f"the checks would send it {mm(trim).both()} long: ring the desk before this end is cut"
    return (("Left long?", words),)
