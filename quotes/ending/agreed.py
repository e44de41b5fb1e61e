"""What an acceptance rests on, read from a stored sheet."""

from __future__ import annotations

from catalog.domain.lengths import mm
from intake.models import SheetVersion
from quotes.domain.agreed import Agreed, agreed
from quotes.domain.choice import Choice
from quotes.domain.cut_words import stored_chain
from quotes.domain.order import read_order
from quotes.domain.tax import place_of
from quotes.domain.texts import to_confirm


def station_of(sheet: SheetVersion) -> str:
    """The boat's side as it was told."""
    boat = (sheet.body.get("answers") or {}).get("boat_name_and_station")
    return str(boat.get("station") or "") if isinstance(boat, dict) else ""


def statements(sheet: SheetVersion) -> dict[str, str]:
    """What must be confirmed before a quote on this sheet can be accepted, by short name."""
    order = read_order(sheet.body, sheet.outcome)
    return to_confirm(order.shaft is not None, sheet.readings, station_of(sheet))


def agreed_on(sheet: SheetVersion, choice: Choice) -> Agreed:
    """All facts of a sheet that was, or may be, accepted with this choice."""
    order = read_order(sheet.body, sheet.outcome, choice)
    made = stored_chain(sheet.body, sheet.outcome)
    readings = {slug: mm(reading["mm"]) for slug, reading in sheet.readings.items()}
    place = place_of(sheet.body)
    return agreed(order, made, station_of(sheet), statements(sheet), place, readings)
