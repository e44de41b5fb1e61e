"""Work of the sweep: whoever has had their shaft for a week, or a month, is asked how it fitted."""

from __future__ import annotations

from intake.jobs import chore
from quotes.outcomes import services


@chore
def ask_whether_it_fitted() -> None:
    """Each is asked once for each time; nobody's silence is an answer."""
    services.ask_by_mail()
