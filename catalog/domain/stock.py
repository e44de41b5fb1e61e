"""What stands on the shelf, as frozen facts: built once, looked up quickly, changed never."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from catalog.domain.lengths import Length

_Key = TypeVar("_Key", bound=Hashable)
_EXACT = Length(0)


class Kind(StrEnum):
    BAR = "bar"
    BLANK = "blank"
    COUPLING = "coupling"
    BEARING = "bearing"
    HARDWARE = "hardware"
    SERVICE = "service"


@dataclass(frozen=True, slots=True)
class StockPart:
    """One line of the catalogue. ``on_hand`` None: not counted (work has no shelf).

    ``held``: of those on hand, promised already. It is no word of the catalogue, so two parts
    that differ in nothing else are equal.
    """

    code: str
    kind: Kind
    system: str
    diameter: Length | None = None
    description: str = ""
    price: Decimal = Decimal(0)
    per: str = "each"
    stock_length: Length | None = None
    on_hand: int | None = None
    alloy: str = ""
    flange_od: Length | None = None
    bolt_circle: Length | None = None
    direction: str = ""
    bore: Length | None = None
    shell_od: Length | None = None
    length: Length | None = None
    shell: str = ""
    held: int = field(default=0, compare=False)

    @property
    def in_stock(self) -> bool:
        """True where some on the shelf are free, or where there is nothing to count."""
        return self.enough_for(1)

    def enough_for(self, quantity: int) -> bool:
        """Whether so many are on the shelf and promised to nobody."""
        return self.on_hand is None or self.on_hand - self.held >= quantity


@dataclass(frozen=True, slots=True)
class _Shelf:
    """Parts that share everything but one size, in the order of that size."""

    sizes: list[int]
    parts: list[StockPart]

    def within(self, size: Length, tolerance: Length) -> list[StockPart]:
        first = bisect_left(self.sizes, size.nm - tolerance.nm)
        return self.parts[first : bisect_right(self.sizes, size.nm + tolerance.nm)]


_EMPTY = _Shelf([], [])


@dataclass(frozen=True, slots=True)
class Stock:
    """The whole catalogue of one version. Look-ups cost a dictionary or a bisection."""

    parts: tuple[StockPart, ...] = ()
    version: int = 0
    _by_code: Mapping[str, StockPart] = field(init=False, repr=False, compare=False)
    _by_kind: Mapping[Kind, tuple[StockPart, ...]] = field(init=False, repr=False, compare=False)
    _bars: Mapping[Hashable, tuple[StockPart, ...]] = field(init=False, repr=False, compare=False)
    _couplings: Mapping[Hashable, _Shelf] = field(init=False, repr=False, compare=False)
    _bearings: Mapping[Hashable, _Shelf] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        kinds = _grouped(self.parts, lambda part: part.kind)
        bars = kinds.get(Kind.BAR, [])
        put = object.__setattr__
        put(self, "_by_code", {part.code: part for part in self.parts})
        put(self, "_by_kind", {kind: tuple(parts) for kind, parts in kinds.items()})
        put(self, "_bars", {key: tuple(p) for key, p in _grouped(bars, _bar_key).items()})
        put(self, "_couplings", _shelves(kinds.get(Kind.COUPLING, []), _coupling_key, "flange_od"))
        put(self, "_bearings", _shelves(kinds.get(Kind.BEARING, []), _bearing_key, "shell_od"))

    def part(self, code: str) -> StockPart | None:
        """The part of that code, or None."""
        return self._by_code.get(code)

    def of_kind(self, kind: Kind | str) -> tuple[StockPart, ...]:
        """All parts of one kind, in catalogue order."""
        return self._by_kind.get(Kind(kind), ())

    def bars(self, system: str, diameter: Length, alloy: str) -> tuple[StockPart, ...]:
        """Bars of exactly that size and alloy."""
        return self._bars.get((system, diameter, alloy), ())

    def couplings(
        self,
        *,
        flange_od: Length,
        bore: Length,
        direction: str,
        within: Length = _EXACT,
        system: str | None = None,
    ) -> tuple[StockPart, ...]:
        """Couplings with that bore and direction whose flange is that size, give or take
        ``within``; nearest flange first. ``system`` None: either system will do.
        """
        found = self._couplings.get((bore, direction), _EMPTY).within(flange_od, within)
        wanted = [part for part in found if system is None or part.system == system]
        return tuple(sorted(wanted, key=lambda part: _off(part.flange_od, flange_od)))

    def bearings(
        self,
        bore: Length,
        shell_od: Length,
        length: Length | None = None,
        within_od: Length = _EXACT,
        within_length: Length = _EXACT,
    ) -> tuple[StockPart, ...]:
        """Bearings with that bore and about that shell and length (None: any length), nearest
        first.
        """
        found = self._bearings.get(bore, _EMPTY).within(shell_od, within_od)
        wanted = [part for part in found if _off(part.length, length) <= within_length.nm]
        return tuple(
            sorted(wanted, key=lambda p: (_off(p.shell_od, shell_od), _off(p.length, length)))
        )


def _bar_key(part: StockPart) -> Hashable:
    return part.system, part.diameter, part.alloy


def _coupling_key(part: StockPart) -> Hashable:
    return part.bore, part.direction


def _bearing_key(part: StockPart) -> Hashable:
    return part.bore


def _grouped(
    parts: Iterable[StockPart], key: Callable[[StockPart], _Key]
) -> dict[_Key, list[StockPart]]:
    groups: dict[_Key, list[StockPart]] = defaultdict(list)
    for part in parts:
        groups[key(part)].append(part)
    return dict(groups)


def _shelves(
    parts: Iterable[StockPart], key: Callable[[StockPart], Hashable], size: str
) -> dict[Hashable, _Shelf]:
    sized = [part for part in parts if getattr(part, size) is not None]
    sized.sort(key=lambda part: getattr(part, size))
    return {
        group: _Shelf([getattr(part, size).nm for part in shelf], shelf)
        for group, shelf in _grouped(sized, key).items()
    }


def _off(size: Length | None, wanted: Length | None) -> float:
    if wanted is None:
        return 0
    return float("inf") if size is None else abs(size.nm - wanted.nm)
