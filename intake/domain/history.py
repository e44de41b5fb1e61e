"""What is known of a boat besides its sheet."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length


@dataclass(frozen=True, slots=True)
class History:
    """Facts from earlier requests.

    ``same_open``: references of open requests of the same contact, boat and side (45 days).
    ``settled``: (check id, fingerprint of its answers) pairs that a person asked about and had
    confirmed. ``last_length`` and ``fitted_gap``: the last shaft supplied, as it was fitted.
    """

    same_open: tuple[str, ...] = ()
    settled: frozenset[tuple[str, str]] = frozenset()
    last_length: Length | None = None
    fitted_gap: Length | None = None
