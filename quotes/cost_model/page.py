"""The page of costs and targets as data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import groupby

from quotes.cost_model.models import CostSet
from quotes.domain.cost_fields import FIELDS, CostField, model_from, shown
from quotes.domain.cost_model import CostModel


@dataclass(frozen=True, slots=True)
class CostRow:
    """One figure: in force, as typed, what is wrong with it."""

    field: CostField
    current: str
    typed: str
    error: str

    @property
    def id(self) -> str:
        """The id of its box."""
        return f"cost-{self.field.name}"


@dataclass(frozen=True)
class CostsPage:
    """Everything the page shows; ``sets`` newest first."""

    now: CostModel
    sets: Sequence[CostSet]
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def groups(self) -> list[tuple[str, list[CostRow]]]:
        """Figures under their headings."""
        rows = [
            CostRow(
                one,
                shown(one, getattr(self.now, one.name)),
                self.typed.get(one.name, ""),
                self.errors.get(one.name, ""),
            )
            for one in FIELDS.values()
        ]
        grouped = groupby(rows, key=lambda row: row.field.group)
        return [(title, list(some)) for title, some in grouped]

    @property
    def history(self) -> list[tuple[CostSet, list[str]]]:
        """Each set with what it set."""
        return [(row, self._changes(row)) for row in self.sets]

    def _changes(self, row: CostSet) -> list[str]:
        new = model_from(row.values)
        return [
            f"{FIELDS[name].words}: {shown(FIELDS[name], getattr(new, name))} {FIELDS[name].unit}"
            for name in row.values
            if name in FIELDS
        ]

    @property
    def newest(self) -> int:
        """The number of the newest set."""
        return self.sets[0].number if self.sets else 0
