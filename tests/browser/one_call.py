"""The record of one call: a practised clerk, keyboard only, with every key press counted.

`python -m tests.browser.one_call` (or `WRITE_ONE_CALL=1 pytest tests/browser/test_one_call.py`)
writes docs/one_call.md anew; the suite fails while the page is not what the run produced.
"""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Literal

from playwright.sync_api import Page, expect

PAGE = Path(__file__).resolve().parents[2] / "docs" / "one_call.md"
WRITES = "WRITE_ONE_CALL"


@dataclass(frozen=True, slots=True)
class Said:
    """One thing the caller says; ``wrong`` where it is asked again and corrected."""

    what: str
    text: str
    kind: Literal["text", "choice"] = "text"
    wrong: bool = False

    @property
    def needed(self) -> int:
        """Characters that no way of typing could save; what turns out to be wrong needs none."""
        if self.wrong:
            return 0
        return len(self.text) if self.kind == "text" else 1


@dataclass
class Counted:
    """A keyboard that counts. Every key press is one, also those that move about."""

    page: Page
    presses: int = 0
    needed: int = 0
    lines: list[tuple[str, str, int, int]] = field(default_factory=list)

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)
        self.presses += len(key.split("+"))  # a key held down is pressed too

    def type(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.presses += len(text)

    def say(self, said: Said, *, first: bool = False) -> None:
        """Go to its box and type it."""
        before = self.presses
        if not first:
            self.press("Enter")
        self.type(said.text)
        self.note(said.what, said.text, said.needed, before)

    def note(self, what: str, text: str, needed: int, before: int) -> None:
        self.needed += needed
        self.lines.append((what, text, needed, self.presses - before))


# A clean boat with its drive straight back; the first reading begins on the 1 mark of the tape.
CALL = (
    Said("phone beside the boat", "+1 202 555 0142"),
    Said("name", "Odile Marsh"),
    Said("e-mail", "odile.marsh@example.org"),
    Said("boat", "Biscuit Barrel"),
    Said("which shaft", "s", "choice"),
    Said("drive", "s", "choice"),
    Said("why now", "w", "choice"),
    Said("face to strut, aft end, an inch out", "45 1/8 rod", wrong=True),
    Said("gap", "3/4 drill"),
    Said("propeller hub", "2 15/16 cal"),
    Said("strut to thread end", "4 7/8"),
    Said("old shaft, face to thread end", "49"),
    Said("diameter", "1 cal"),
    Said("flange outside", "4"),
    Said("coupling hub points", "a", "choice"),
    Said("bearing shell", "1 1/4"),
    Said("bearing length", "2"),
)
CORRECTED = "44 1/8 rod"
SPELT = 4  # the first lines are words the page cannot shorten: phone, name, e-mail, boat


def perform(page: Page) -> Counted:
    """Take the whole call; the page is open and its first box has the cursor."""
    keyboard = Counted(page)
    for number, said in enumerate(CALL):
        keyboard.say(said, first=number == 0)
    asked = page.locator("[data-asked=fa]")
    expect(asked).to_be_visible()  # the next question asks for the length again
    before = keyboard.presses
    keyboard.press("F2")
    keyboard.press("Enter")  # to what is asked next
    keyboard.type(CORRECTED)
    keyboard.note("asked again: face to strut, aft end", CORRECTED, len(CORRECTED), before)
    expect(page.locator("#desk-panel .verdict-release")).to_be_visible()
    before = keyboard.presses
    keyboard.press("F2")
    keyboard.press(".")
    keyboard.note("save", "", 0, before)
    return keyboard


def report(counted: Counted, loads: int) -> str:
    """The page docs/one_call.md."""
    rows = [
        f"| {what} | {text} | {needed} | {keys} |" for what, text, needed, keys in counted.lines
    ]
    ratio = counted.presses / counted.needed
    return "\n".join([*_HEAD, *rows, *_tail(counted, ratio, loads)])


_HEAD = (
    "# One call, counted",
    "",
    "A customer the desk does not know rings beside the boat: a clean boat with its drive",
    "straight back, whose first length was read an inch too long. The clerk types what is said in",
    "the order it is said, sees that the two ways to the length differ, asks the next question",
    "while the customer is still there, corrects the length, saves, and sees the quote go out.",
    "Keyboard only.",
    "",
    "Written by `python -m tests.browser.one_call` from a run in a real browser; the suite",
    "performs the same call and fails while this page says something else.",
    "",
    "**How it is counted.** Every key press is one: each character typed, each Enter, F2 and",
    "letter of a chord. Shift for a capital or a sign is not counted, on either side. *Needed*",
    "are the characters of the answers themselves, with the way of measuring in the shortest word",
    "the page reads, and one for a choice. The wrong length, moving about and saving need none:",
    "they are pressed all the same. What the clerk must look at is not counted, nor is the time to",
    "think. It is one call that goes well; it says nothing about one that does not.",
    "",
    "| said | typed | needed | pressed |",
    "|---|---|---:|---:|",
)


def _tail(counted: Counted, ratio: float, loads: int) -> tuple[str, ...]:
    measured = counted.lines[SPELT:]
    needed, keys = (sum(line[column] for line in measured) for column in (2, 3))
    return (
        f"| **together** | | **{counted.needed}** | **{counted.presses}** |",
        "",
        f"Key presses for each needed character: **{ratio:.2f}** (at most 1.3).",
        "Words that must be spelt out make that look better than the numbers alone: without phone,",
        f"name, e-mail and boat it is {keys} for {needed}, or **{keys / needed:.2f}**.",
        f"Page loads: **{loads}** (at most 2): the call page, and the request with its quote.",
        "",
        *_SLOW,
    )


_SLOW = (
    "## What still slows a clerk down",
    "",
    "- A known caller is best looked for before anything is typed: a boat opened from the finder",
    "  starts a call of its own, and what was typed before stays behind in an unfinished one.",
    "- A choice is picked by its first letter. Where two begin alike the letter is pressed again.",
    "- Enter passes what few callers say, such as where the tape began or the flange bolts. It is",
    "  reached by its two letters, which one has to know, or by many a Tab.",
    "- The quote goes out by itself only where the catalogue has every price and the login may",
    "  quote; else somebody completes it by hand on a page of its own.",
    "- Below 960 px the panel stands under the form, so the question is a jump away.",
    "",
)


def check_or_write(text: str) -> None:
    """Compare with the page in the repository; with WRITE_ONE_CALL=1 write it first."""
    if os.environ.get(WRITES) == "1":
        PAGE.write_text(text, "utf-8")
    assert PAGE.read_text("utf-8") == text, "stale: python -m tests.browser.one_call"


if __name__ == "__main__":
    command = [
        sys.executable,
        "-m",
        "pytest",
        "-q",
        "-p",
        "no:xdist",
        "tests/browser/test_one_call.py",
    ]
    raise SystemExit(subprocess.call(command, env={**os.environ, WRITES: "1"}))
