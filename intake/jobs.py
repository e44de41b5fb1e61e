"""Work for later."""


def start_thread() -> None:
    """Comes with the outbox."""
