"""What only the plausible range can tell: the unit of a bare number, the meaning of a comma."""

from __future__ import annotations

from catalog.domain import refusals
from catalog.domain.lengths import Length
from catalog.domain.readings import NM, STEPS, TEN, Plausible
from catalog.domain.refusals import refuse

_UNIT_DOUBT = "No unit is written; we read {}, because {} would not fit here. Is that right?"
_COMMA_DOUBT = "We read the comma so that this is {}, because {} would not fit. Is that right?"
_NAMES = {"in": "inches", "mm": "millimetres"}


def which_unit(
    number: str, decimals: str, plausible: Plausible | None
) -> tuple[str, tuple[str, ...]]:
    """The one unit in which a bare number fits the plausible range, with the doubt that says so."""
    digits, scale = int(number + decimals), TEN[len(decimals)]
    if not digits:
        return "in", ()
    fits = [unit for unit in _NAMES if fitting(digits * NM[unit], scale, plausible)]
    if len(fits) != 1:
        refuse(refusals.either_unit(f"{number or 0}.{decimals}".rstrip(".")))
    return fits[0], unit_doubt(fits[0])


def unit_doubt(unit: str) -> tuple[str, ...]:
    """The sentence for a unit (in, mm) that was chosen because the other does not fit."""
    return (_UNIT_DOUBT.format(_NAMES[unit], _NAMES["mm" if unit == "in" else "in"]),)


def fitting(nm: int, scale: int, plausible: Plausible | None) -> bool:
    """True where nm / scale lies in the range; never without a range."""
    return plausible is not None and plausible[0].nm * scale <= nm <= plausible[1].nm * scale


def either_comma(
    number: str, decimals: str, unit: str | None, written: str, plausible: Plausible | None
) -> tuple[str, int, Length | None, tuple[str, ...]]:
    """``1,489``: a decimal comma or one between thousands, as only one of them fits the range."""
    senses = _senses(number)
    fits = [
        (known, scale)
        for known in ((unit,) if unit else _NAMES)
        for scale in senses
        if fitting(int(number + decimals) * NM[known], scale, plausible)
    ]
    if len(fits) != 1:
        refuse(refusals.either_comma(number, decimals, written))
    known, scale = fits[0]
    nm, rest = divmod(int(number + decimals) * NM[known], scale)
    if rest:
        refuse(refusals.TOO_FINE)
    doubts = () if unit else unit_doubt(known)
    if len(senses) > 1:
        texts = (f"{number}{decimals}", f"{number}.{decimals}")
        doubts = (_COMMA_DOUBT.format(*(texts if scale == 1 else reversed(texts))), *doubts)
    return known, nm, STEPS[known][0 if scale == 1 else 3], doubts


def _senses(number: str) -> tuple[int, ...]:
    """What may divide the digits around a comma: 1000 as decimals, 1 where it parts thousands."""
    return (1, 1000) if len(number) in (1, 2, 3) and number[0] != "0" else (1000,)
