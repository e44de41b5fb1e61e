"""Why a change of an account was not made."""

from __future__ import annotations


class Refused(Exception):
    """Against the rules of the house; the text says which one and the way out."""


class Overtaken(Refused):
    """Somebody else (or a second click) changed it after the page was shown."""

    def __init__(self) -> None:
        super().__init__(
            "This was changed after you opened the page, by somebody else or by a second click. "
            "The page now shows it as it is: look, and decide again."
        )
