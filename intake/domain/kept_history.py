"""What was known beside a sheet when it was judged, as JSON that reads back the same.

It is kept with the sheet so that it can be judged again by what was known then. Only what there
was is written. Nobody is named in it: references of requests, lengths, months, and the number of
the other side's sheet, which is read where it stands (and is blanked there when it is erased).
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from catalog.domain.lengths import Length
from intake.domain.batch import Alike
from intake.domain.history import History, Misfit
from intake.domain.sheet import Sheet

KEY = "beside"  # where it stands in what is stored of a judgement
_LENGTHS = ("last_length", "fitted_gap", "last_diameter")
_PLAIN = ("last_alloy", "last_month", "sister_station", "fitted_orders")


def kept_history(history: History, sister: int | None = None) -> dict[str, Any]:
    """Facts as JSON, in whole nanometres. ``sister``: the key of the other side's sheet."""
    told: dict[str, Any] = {name: getattr(history, name) for name in _PLAIN}
    told |= {name: _nm(getattr(history, name)) for name in _LENGTHS}
    told["today"] = history.today.isoformat() if history.today else None
    told["same_open"] = list(history.same_open)
    told["settled"] = [list(pair) for pair in sorted(history.settled)]
    told["last_by_side"] = [[side, length.nm] for side, length in history.last_by_side]
    told["family"] = [length.nm for length in history.family_lengths]
    told["batch"] = [[one.reference, list(one.answers), one.days] for one in history.batch]
    if history.misfit:
        told["misfit"] = [history.misfit.station, _nm(history.misfit.off)]
    if history.sister is not None:
        told["sister"] = sister
    zero = [name for name in _LENGTHS if told[name] == 0]  # a gap of nothing was measured
    return {name: value for name, value in told.items() if value or name in zero}


def history_again(kept: Mapping[str, Any], sister: Sheet | None = None) -> History:
    """The facts as they were; ``sister`` as its sheet reads today."""
    misfit, today = kept.get("misfit"), kept.get("today")
    return History(
        last_length=_length(kept.get("last_length")),
        fitted_gap=_length(kept.get("fitted_gap")),
        last_diameter=_length(kept.get("last_diameter")),
        last_alloy=kept.get("last_alloy", ""),
        last_month=kept.get("last_month", ""),
        sister_station=kept.get("sister_station", ""),
        fitted_orders=kept.get("fitted_orders", 0),
        today=date.fromisoformat(today) if today else None,
        same_open=tuple(kept.get("same_open", ())),
        settled=frozenset((check, mark) for check, mark in kept.get("settled", ())),
        last_by_side=tuple((side, Length(nm)) for side, nm in kept.get("last_by_side", ())),
        family_lengths=tuple(map(Length, kept.get("family", ()))),
        batch=tuple(Alike(ref, tuple(said), days) for ref, said, days in kept.get("batch", ())),
        misfit=Misfit(misfit[0], _length(misfit[1])) if misfit else None,
        sister=sister,
    )


def _nm(length: Length | None) -> int | None:
    return None if length is None else length.nm


def _length(nm: int | None) -> Length | None:
    return None if nm is None else Length(nm)
