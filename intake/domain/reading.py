"""Reading a body: the one door by which form, desk and API turn answers into a `Sheet`.

The body is the API's JSON object, kept as typed for ever. Whatever cannot be read is refused with
one sentence at its path; unknown fields are refused, never ignored; all errors come at once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from intake.domain.answers import read_answers
from intake.domain.refusals import LONGEST_TEXT, Reader, choice, listed, name_of, one_of
from intake.domain.sheet import Contact, Sheet, SheetErrors

CHANNELS = ("form", "phone", "email", "paper", "api")
UNITS = ("in", "mm")
SIDES = ("port", "starboard", "centre")
WANTS = ("shaft", "coupling", "bearing")
ROLES = ("owner", "yard", "crew", "surveyor")
USES = ("pleasure", "work", "passenger")
_TOP = {"channel", "tape_unit", "wants", "contact", "answers", "job", "alloy", "use"}
_PHONE = re.compile(r"[\d\s()+./-]{1,40}")
_EMAIL = re.compile(r"[^@\s]+@[^@\s.]+(\.[^@\s.]+)+")
_ALLOY = re.compile(r"[A-Z]\d{5}|\d\.\d{4}")


def read_sheet(body: Mapping[str, Any], *, contact_needed: bool = False) -> Sheet:
    """Turn a body into a sheet, or raise `SheetErrors` with a sentence for every bad answer.

    ``contact_needed``: the request will be stored, so somebody must be reachable (a finding says
    so, for a number to ring may be had later).
    """
    reader = _reader(body, _TOP)
    return _finished(reader, _sheet(reader, body, contact_needed=contact_needed))


def read_pair(body: Mapping[str, Any]) -> tuple[Sheet, Sheet | None]:
    """A sheet and the other side that travels along as ``sister``, where one does.

    The other side is read with the same tape, and is asked for in the same request: metal, use and
    contact are those of the first. Raises `SheetErrors` for both at once.
    """
    reader = _reader(body, _TOP | {"sister"})
    sheet = _sheet(reader, body, contact_needed=False)
    sister = _sister(reader, sheet, body["sister"]) if "sister" in body else None
    return _finished(reader, sheet), sister


def _reader(body: Mapping[str, Any], known: set[str]) -> Reader:
    """A reader in the tape's unit; what is not known is refused, never ignored."""
    if not isinstance(body, Mapping):
        raise SheetErrors({"": ["Send one JSON object."]})
    unit = body.get("tape_unit")
    reader = Reader(unit if unit in UNITS else None)
    for name in body:
        if name not in known:
            reader.refuse(name_of(name), "This field is not known.")
    if unit is not None and unit not in UNITS:
        reader.refuse("tape_unit", one_of((*UNITS, "null")))
    return reader


def _sheet(reader: Reader, body: Mapping[str, Any], *, contact_needed: bool) -> Sheet:
    answers = read_answers(reader, body.get("answers", {}), "answers")
    return Sheet(
        channel=choice(reader, "channel", body.get("channel", "api"), CHANNELS),
        tape_unit=reader.unit,
        wants=_wants(reader, body.get("wants")),
        contact=_contact(reader, body.get("contact", {})),
        contact_needed=contact_needed,
        job=_text_at(reader, "job", body.get("job", ""), 40),
        alloy=_alloy(reader, body.get("alloy", "")),
        use=choice(reader, "use", body["use"], USES) if "use" in body else "",
        **answers,
    )


def _finished(reader: Reader, sheet: Sheet) -> Sheet:
    if reader.errors:
        raise SheetErrors(reader.errors)
    return sheet


def _sister(reader: Reader, sheet: Sheet, given: Any) -> Sheet | None:
    if not isinstance(given, Mapping) or set(given) - {"station", "answers"}:
        reader.refuse("sister", "Give the other side as station and answers.")
        return None
    station = choice(reader, "sister.station", given.get("station"), SIDES)
    if station and station == sheet.station:
        reader.refuse("sister.station", "The other side cannot be this side.")
    answers: dict[str, Any] = read_answers(reader, given.get("answers", {}), "sister.answers")
    boat = {"name": sheet.boat_name, "station": station}
    answers["parts"] = {**answers["parts"], "boat_name_and_station": boat}
    return replace(sheet, **answers)


def _wants(reader: Reader, given: Any) -> tuple[str, ...]:
    if not isinstance(given, (list, tuple)) or not given or not all(w in WANTS for w in given):
        reader.refuse("wants", f"Say what is wanted: a list of {listed(WANTS)}.")
        return ()
    return tuple(want for want in WANTS if want in given)


def _contact(reader: Reader, given: Any) -> Contact:
    if not isinstance(given, Mapping):
        reader.refuse("contact", "Give the contact as name, phone, email and role.")
        return Contact()
    for name in given:
        if name not in ("name", "phone", "email", "role"):
            reader.refuse(f"contact.{name_of(name)}", "This field is not known.")
    role = given.get("role") or ""
    return Contact(
        name=_text_at(reader, "contact.name", given.get("name") or "", LONGEST_TEXT),
        phone=_phone(reader, given.get("phone") or ""),
        email=_email(reader, given.get("email") or ""),
        role=choice(reader, "contact.role", role, ROLES) if role else "",
    )


def _phone(reader: Reader, given: Any) -> str:
    digits = sum(letter.isdigit() for letter in given) if isinstance(given, str) else 0
    if given and not (isinstance(given, str) and _PHONE.fullmatch(given) and 7 <= digits <= 15):
        reader.refuse(
            "contact.phone", "A phone number has 7 to 15 digits, such as +1 202 555 0100."
        )
        return ""
    return given.strip() if given else ""


def _email(reader: Reader, given: Any) -> str:
    fits = isinstance(given, str) and len(given) <= 254 and _EMAIL.fullmatch(given.strip())
    if given and not fits:
        reader.refuse("contact.email", "An e-mail address looks like name@example.org.")
        return ""
    return given.strip() if given else ""


def _alloy(reader: Reader, given: Any) -> str:
    if given and not (isinstance(given, str) and _ALLOY.fullmatch(given)):
        reader.refuse("alloy", "Name the alloy by UNS or EN number, such as S20910 or 1.4462.")
        return ""
    return given or ""


def _text_at(reader: Reader, path: str, given: Any, longest: int) -> str:
    if not isinstance(given, str) or len(given) > longest or "\x00" in given:
        reader.refuse(path, f"Give this as text of at most {longest} characters.")
        return ""
    return given.strip()
