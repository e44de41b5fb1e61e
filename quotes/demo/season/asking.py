"""Who asks for what on which day: bodies of requests as customers would send them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from random import Random
from typing import Any

from catalog.domain.stock import Kind, Stock, StockPart
from intake.season.customers import Customer, a_customer
from intake.season.sheets import a_body
from quotes.demo.season.people import HULLS, Person, a_boat, people

MONTHS, FIXED_IN = 18, 9  # the confusing question was put right in the ninth month
CONFUSED = ("D-CBACK", "D-GBACK")
CONFUSING = "face_to_strut_aft"
WRONG_BEARING = "BR-1000-1250-3"  # its shell is not the size the supplier's list says
_KEPT_BEFORE = 0.25  # of all others, so that the slip is that much more frequent until then
# How busy each month of a year is: nobody launches in December.
_BUSY = (0.6, 0.9, 1.5, 1.9, 1.6, 1.2, 1.0, 0.9, 0.7, 0.6, 0.5, 0.4)
_CHANNELS = ("form",) * 11 + ("phone",) * 9 + ("email",) * 6 + ("paper",) * 4


@dataclass(frozen=True, slots=True)
class Asked:
    """One request: when, by whom, of which boat, and the body; ``customer`` knows the truth."""

    index: int
    at: datetime
    person: Person
    customer: Customer
    body: dict[str, Any] = field(compare=False)


def requests(seed: int, how_many: int, now: datetime, stock: Stock) -> Iterator[Asked]:
    """So many requests over the last eighteen months, oldest first; the same for the same seed."""
    rng = Random(f"season {seed}")  # noqa: S311  (chance, not secrecy)
    known = people(rng, max(6, how_many // 6))
    moments = _moments(rng, how_many, now)
    fixed = moments[0] + (moments[-1] - moments[0]) * FIXED_IN / MONTHS
    customers = _customers(rng, seed, moments, fixed)
    for index, (at, customer) in enumerate(zip(moments, customers, strict=True)):
        person = known[min(int(rng.expovariate(1 / (len(known) / 3))), len(known) - 1)]
        yield Asked(index, at, person, customer, _body(rng, index, person, customer, stock, at))


def fixed_on(seed: int, how_many: int, now: datetime) -> datetime:
    """The moment the confusing question was put right."""
    rng = Random(f"season {seed}")  # noqa: S311
    people(rng, max(6, how_many // 6))
    moments = _moments(rng, how_many, now)
    return moments[0] + (moments[-1] - moments[0]) * FIXED_IN / MONTHS


def _moments(rng: Random, how_many: int, now: datetime) -> list[datetime]:
    """Working hours of the last eighteen months, busier in spring."""
    first = now - timedelta(days=round(MONTHS * 30.44))
    days = [first + timedelta(days=at) for at in range((now - first).days)]
    open_days = [day for day in days if day.weekday() < 6]
    weights = [_BUSY[day.month - 1] for day in open_days]
    chosen = rng.choices(open_days, weights, k=how_many)
    hours = (timedelta(hours=rng.uniform(8, 18), seconds=rng.uniform(0, 59)) for _ in chosen)
    return sorted(
        day.replace(hour=0, minute=0, second=0) + hour
        for day, hour in zip(chosen, hours, strict=True)
    )


def _customers(
    rng: Random, seed: int, moments: list[datetime], fixed: datetime
) -> Iterator[Customer]:
    """Until the question was put right its slip is about three times as frequent."""
    index = 0
    for at in moments:
        while True:
            customer = a_customer(f"demo {seed}", index)
            index += 1
            if at >= fixed or customer.kind in CONFUSED or rng.random() < _KEPT_BEFORE:
                break
        yield customer


def _body(
    rng: Random, index: int, person: Person, customer: Customer, stock: Stock, at: datetime
) -> dict[str, Any]:
    body = a_body(customer)
    answers = body["answers"]
    body["channel"] = rng.choice(_CHANNELS)
    body["contact"] = {"name": person.name, "phone": person.phone, "role": person.role}
    if rng.random() < 0.7:
        body["contact"]["email"] = person.email
    name = f"{a_boat(rng)} {index}" if rng.random() < 0.5 else a_boat(rng)
    answers["boat_name_and_station"] = {"name": name, "station": customer.boat.station}
    if rng.random() < 0.6:
        builder, length, year = rng.choice(HULLS)
        answers["hull_built_by_year"] = {"builder": builder, "length": length, "year": year}
    if rng.random() < 0.5:
        run = at.date() + timedelta(days=rng.randint(10, 45))
        answers["needed_by"] = {"run": run.isoformat()}
    _wants(rng, body, customer, stock)
    return body


def _wants(rng: Random, body: dict[str, Any], customer: Customer, stock: Stock) -> None:
    """Some want a coupling or a bearing too, and a few of those we do not have."""
    boat, answers = customer.boat, body["answers"]
    if boat.system != "inch" or boat.layout == "v_pass_through":
        return
    fits = [p for p in stock.parts if p.bore == boat.size and p.system == "inch"]
    if rng.random() < 0.4 and (found := _one(rng, fits, Kind.COUPLING)) and found.flange_od:
        body["wants"].append("coupling")
        size = found.flange_od.inch_text if rng.random() > 0.06 else "3 1/2"
        answers["flange_od"] = {"text": size, "method": "caliper"}
        answers["flange_direction"] = "aft"
    if rng.random() < 0.35 and (found := _one(rng, fits, Kind.BEARING)) and found.shell_od:
        body["wants"].append("bearing")
        size = found.shell_od.inch_text if rng.random() > 0.08 else "1 5/8"
        answers["shell_od"] = {"text": size, "method": "caliper_in_place"}
        length = found.length.inch_text if found.length else "4"
        answers["bearing_length"] = {"text": length, "count": 1}


def _one(rng: Random, parts: list[StockPart], kind: Kind) -> StockPart | None:
    """One of them, the one with the wrong size three times as often: it was the cheapest."""
    fits = [part for part in parts if part.kind == kind]
    favourite = [part for part in fits if part.code == WRONG_BEARING]
    return rng.choice([*fits, *favourite * 2]) if fits else None
