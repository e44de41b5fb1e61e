"""What is worth doing on this boat while the shaft is out: common practice, no source.

Only what the sheet says fits, and what says so. Nothing here knows a price.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.stock import Kind, Stock, StockPart
from intake.domain.case import Case
from intake.domain.diameter import judge_diameter
from intake.domain.diameter_evidence import evidence_of
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.recognised import listed_bearings, shell_of
from intake.domain.sheet import Sheet
from intake.domain.sizes import Size
from quotes.domain.chosen import PART, SPARE
from quotes.domain.order import Order, standard_key, standard_thread

# The section of packing is the room between shaft and gland; a tape is this far off in it.
_SECTION_OFF = inches("1/64")
_NO_HISTORY = History()


@dataclass(frozen=True, slots=True)
class Suggestion:
    """``key`` as `quotes.domain.chosen` prices it; "ask:…" where no row of the catalogue fits."""

    key: str
    text: str
    why: str


@dataclass(frozen=True, slots=True)
class Boat:
    """The sheet with its shaft's nominal size, and the shelf."""

    case: Case
    size: Size

    @property
    def sheet(self) -> Sheet:
        return self.case.sheet

    @property
    def stock(self) -> Stock:
        return self.case.stock

    @property
    def key(self) -> StockPart | None:
        """The key of the standard ends, where one key fits both and there is such a row."""
        size = standard_key(self.size.system, self.size.diameter)
        return self.stock.part(f"KY-{size.replace('/', '_')}") if size else None

    @property
    def nut(self) -> StockPart | None:
        """The nut of the standard end."""
        thread = standard_thread(self.size.system, self.size.diameter)
        return self.stock.part(f"NT-{thread.replace('/', '_')}") if thread else None


def boat_of(sheet: Sheet, record: Mapping[str, Any], stock: Stock, limits: Limits) -> Boat | None:
    """None where the shaft's size is not known."""
    size = _stored(record) or _judged(sheet, limits)
    if size is None:
        return None
    return Boat(Case(sheet, stock, _NO_HISTORY, limits, size=size), size)


def _stored(record: Mapping[str, Any]) -> Size | None:
    stack = record.get("stack") or {}
    nominal = (stack.get("nominal") or {}).get("mm")
    return Size(str(stack.get("system") or "inch"), mm(nominal)) if nominal else None


def _judged(sheet: Sheet, limits: Limits) -> Size | None:
    """As the checks judge it, where no shaft is wanted and so none was stored."""
    reading = sheet.readings.get("dia_clean") or sheet.readings.get("bearing_id_or_mark")
    if reading is None:
        return None
    told = evidence_of(sheet)
    return judge_diameter(reading.length.nm, reading.u_nm, sheet.tape_unit, limits, told).best


def suggestions(order: Order, boat: Boat) -> Iterator[Suggestion]:
    """What could be done at once, in the order in which it is met from aft forward."""
    yield from _bearing(order, boat)
    yield from _packing(boat)
    yield from _nut_and_keys(order, boat)
    yield from _second_key(order, boat)
    yield from _bolts(order, boat)
    yield from _anode(boat)


def _bearing(order: Order, boat: Boat) -> Iterator[Suggestion]:
    """The strut bearing of this shaft, where it is not ordered anyway."""
    shell = shell_of(boat.case)
    if "bearing" in order.wants or shell is None:
        return
    system = boat.size.system
    outside = shell.show("in" if system == "inch" else "mm")
    why = f"You measured its shell, {outside}. Fitting one later means drawing the shaft again."
    found = listed_bearings(boat.case)
    if not found:
        yield Suggestion("ask:bearing", "New strut bearing", why)
        return
    count = order.bearing_count
    text = "New strut bearing" if count == 1 else f"New strut bearings, {count}"
    yield Suggestion(f"{PART}:{count}:{found[0].code}", text, why)


def _packing(boat: Boat) -> Iterator[Suggestion]:
    """Packing by the room between log and shaft, where she has a packed gland."""
    log, sheet = boat.sheet.length("log_id"), boat.sheet
    if sheet.choices.get("gland_type") != "packed" or log is None:
        return
    section = Length((log.nm - boat.size.diameter.nm) // 2)
    for part in boat.stock.of_kind(Kind.HARDWARE):
        size = _section(part)
        if size and abs(size.nm - section.nm) <= _SECTION_OFF.nm:
            unit = "in" if part.system == "inch" else "mm"
            why = (
                f"Your gland is packed, and your log leaves {size.show(unit)} round the shaft. "
                "Hold it against the old rings: the gland's own bore decides."
            )
            yield Suggestion(f"{PART}:1:{part.code}", "New gland packing", why)
            return


def _section(part: StockPart) -> Length | None:
    """The section of a packing, by its code. No graphite on a stainless shaft."""
    words = part.description.casefold()
    if not part.code.startswith("PK-") or "graphite" in words.replace("non-graphite", ""):
        return None
    size = part.code.removeprefix("PK-").replace("_", "/")
    try:
        return mm(size) if part.system == "mm" else inches(size)
    except ValueError:
        return None


def _nut_and_keys(order: Order, boat: Boat) -> Iterator[Suggestion]:
    """With a new shaft they are in the price; without one they come off with the old."""
    if order.shaft is not None or not order.wants & {"coupling", "bearing"}:
        return
    name = boat.size.name
    if nut := boat.nut:
        why = f"The nut comes off with the propeller; this one fits the standard end of {name}."
        yield Suggestion(f"{PART}:1:{nut.code}", "New propeller nut set", why)
    if key := boat.key:
        why = f"Both keys come out with the shaft; these fit the standard keyways of {name}."
        yield Suggestion(f"{PART}:2:{key.code}", "New keys, two", why)


def _second_key(order: Order, boat: Boat) -> Iterator[Suggestion]:
    if order.shaft is None or (key := boat.key) is None:
        return
    why = f"A key is easily lost; this one fits both ends of your {boat.size.name} shaft."
    yield Suggestion(f"{SPARE}:1:{key.code}", "Second key", why)


def _bolts(order: Order, boat: Boat) -> Iterator[Suggestion]:
    """Bolts of the flange as they were told, where it is opened."""
    count, said = (boat.sheet.part("bolts", name) for name in ("count", "size"))
    if not count or not order.wants & {"shaft", "coupling"}:
        return
    size = str(said or "").strip()
    words = f"{count} bolts {size}".strip()
    why = f"The flange is parted anyway, and you counted {words}."
    row = boat.stock.part(f"FB-{size.replace('/', '_').replace(' ', '')}") if size else None
    key = f"{PART}:{count}:{row.code}" if row else "ask:bolts"
    yield Suggestion(key, "New flange bolts", why)


def _anode(boat: Boat) -> Iterator[Suggestion]:
    """Only where one is fitted now, and the catalogue has one for this shaft."""
    if boat.sheet.part("between_strut_and_propeller", "kind") != "anode":
        return
    for part in boat.stock.of_kind(Kind.HARDWARE):
        if part.code.startswith("AN-") and part.diameter == boat.size.diameter:
            why = "You have an anode between strut and propeller; it comes off with the shaft."
            yield Suggestion(f"{PART}:1:{part.code}", "New shaft anode", why)
            return
