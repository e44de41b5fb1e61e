"""What the sweep looks after here."""

from __future__ import annotations

from intake.desk_drafts import services
from intake.desk_drafts.presence.services import forget_who_left
from intake.jobs import chore


@chore
def close_abandoned() -> None:
    """Calls that nobody went on with are closed, and kept."""
    services.close_abandoned()
    forget_who_left()
