"""Lengths as they are said in Spanish: ``cincuenta y ocho y cinco octavos de pulgada``."""

from __future__ import annotations

from math import gcd

from catalog.domain.lengths import NM_PER_64TH, NM_PER_INCH, NM_PER_MM, Length

_SMALL = (
    *("cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez"),
    *("once", "doce", "trece", "catorce", "quince", "dieciséis", "diecisiete", "dieciocho"),
    *("diecinueve", "veinte", "veintiuno", "veintidós", "veintitrés", "veinticuatro"),
    *("veinticinco", "veintiséis", "veintisiete", "veintiocho", "veintinueve"),
)
_TENS = ("", "", "", "treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa")
_HUNDREDS = (
    *("", "ciento", "doscientos", "trescientos", "cuatrocientos", "quinientos", "seiscientos"),
    *("setecientos", "ochocientos", "novecientos"),
)
_PARTS = {2: "medio", 4: "cuarto", 8: "octavo", 16: "dieciseisavo", 32: "treintaidosavo"}
_PARTS |= {64: "sesentaicuatroavo"}


def whole(number: int) -> str:
    """A whole number from 0 to 999 999 in words.

    >>> whole(1489), whole(21), whole(100)
    ('mil cuatrocientos ochenta y nueve', 'veintiuno', 'cien')
    """
    if number >= 1000:
        many, rest = divmod(number, 1000)
        thousands = "mil" if many == 1 else f"{before_noun(many)} mil"
        return f"{thousands} {whole(rest)}" if rest else thousands
    if number == 100:
        return "cien"
    if number > 100:
        rest = number % 100
        return f"{_HUNDREDS[number // 100]} {whole(rest)}" if rest else _HUNDREDS[number // 100]
    if number >= 30:
        ones = f" y {_SMALL[number % 10]}" if number % 10 else ""
        return f"{_TENS[number // 10]}{ones}"
    return _SMALL[number]


def before_noun(number: int, *, feminine: bool = False) -> str:
    """The number before what is counted, where "uno" is shortened and hundreds agree.

    >>> before_noun(21), before_noun(201, feminine=True), before_noun(1)
    ('veintiún', 'doscientas una', 'un')
    """
    words = whole(number)
    if feminine:
        words = words.replace("cientos", "cientas").replace("quinientos", "quinientas")
        return f"{words[:-1]}a" if words.endswith("uno") else words
    if words.endswith("veintiuno"):
        return f"{words[:-3]}ún"
    return words[:-1] if words.endswith("uno") else words


def part(top: int, bottom: int) -> str:
    """A proper fraction in lowest terms: ``cinco octavos``, ``un medio``."""
    return f"{before_noun(top)} {_PARTS[bottom]}{'' if top == 1 else 's'}"


def mixed(number: int, top: int, bottom: int) -> str:
    """Inches on a tape with their unit.

    >>> mixed(58, 5, 8)
    'cincuenta y ocho y cinco octavos de pulgada'
    >>> mixed(0, 1, 2), mixed(1, 0, 1), mixed(2, 1, 2)
    ('media pulgada', 'una pulgada', 'dos pulgadas y media')
    """
    if not top:
        return f"{before_noun(number, feminine=True)} {'pulgada' if number == 1 else 'pulgadas'}"
    if not number:
        return "media pulgada" if bottom == 2 else f"{part(top, bottom)} de pulgada"
    if bottom == 2:
        return f"{mixed(number, 0, 1)} y media"
    if number >= 30 and number % 10 == 0:
        # "Treinta y cinco octavos" would be heard as 35/8.
        return f"{mixed(number, 0, 1)} y {part(top, bottom)}"
    return f"{whole(number)} y {part(top, bottom)} de pulgada"


def decimal(number: int, digits: str) -> str:
    """A number with decimal places, digit by digit: ``uno coma cero cinco``."""
    return f"{whole(number)} coma {' '.join(_SMALL[int(digit)] for digit in digits)}"


def spoken(length: Length, system: str) -> str:
    """A length as it is said, in "in" (or "inch") or in "mm".

    >>> from catalog.domain.lengths import mm
    >>> spoken(mm("148.9"), "mm")
    'ciento cuarenta y ocho coma nueve milímetros'
    """
    words = _inches if system in ("in", "inch") else _millimetres
    return f"menos {words(-length.nm)}" if length.nm < 0 else words(length.nm)


def _inches(nm: int) -> str:
    number, rest = divmod(nm, NM_PER_INCH)
    if rest % NM_PER_64TH == 0:
        return _marks(number, rest // NM_PER_64TH)
    if rest * 10_000 % NM_PER_INCH == 0:
        return f"{decimal(number, _digits(rest * 10_000 // NM_PER_INCH, 4))} pulgadas"
    marks = (nm * 2 + NM_PER_64TH) // (NM_PER_64TH * 2)
    return f"alrededor de {_marks(*divmod(marks, 64))}"


def _marks(number: int, marks: int) -> str:
    common = gcd(marks, 64)
    return mixed(number, marks // common, 64 // common)


def _millimetres(nm: int) -> str:
    exact = nm % 1000 == 0
    number, rest = divmod(nm if exact else (nm + 50_000) // 100_000 * 100_000, NM_PER_MM)
    about = "" if exact else "alrededor de "
    if rest:
        return f"{about}{decimal(number, _digits(rest // 1000, 3))} milímetros"
    return f"{about}{before_noun(number)} {'milímetro' if number == 1 else 'milímetros'}"


def _digits(number: int, places: int) -> str:
    return f"{number:0{places}d}".rstrip("0")
