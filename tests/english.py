"""Finds English that was left in a page or a paper that should speak another language."""

from __future__ import annotations

import html
import re

# Words that no Spanish sentence has, and hardly an English one does without.
_STOP = [
    *("the", "and", "of", "with", "your", "you", "is", "are", "from", "what", "this", "that", "it"),
    *("be", "for", "not", "we", "by", "on", "or", "at", "was", "were", "which", "have", "has"),
    *("will", "can", "one", "two", "any", "more", "its", "our", "they", "how", "where", "when"),
    *("here", "there", "if", "over", "each", "end"),
    # and those of the trade
    *("shaft", "strut", "hub", "gap", "taper", "keyway", "thread", "boat", "flange", "coupling"),
    *("bearing", "engine", "gearbox", "bar", "bore", "nut", "shell", "rod", "datum"),
]
_WORD = re.compile(rf"\b(?:{'|'.join(_STOP)})\b", re.IGNORECASE)
_NAMES = re.compile(r"(?:Otterhithe )?Shaft Desk|Biscuit Barrel|Wilmot Tarpley")
_UNSEEN = re.compile(r"<(script|style|noscript)\b.*?</\1>|<!--.*?-->", re.DOTALL)
_SPOKEN = re.compile(r'\b(?:alt|aria-label|title|placeholder|content)="([^"]*)"')
_OTHER = re.compile(r'<(a|button|span)\b[^>]*\blang="en"[^>]*>.*?</\1>', re.DOTALL)


def seen(page: str) -> str:
    """What a page says: its text, and what is read to who cannot see it."""
    page = _OTHER.sub(" ", _UNSEEN.sub(" ", page))
    page = re.sub(r'<meta name="(?:viewport|robots|color-scheme)"[^>]*>', " ", page)
    spoken = " | ".join(_SPOKEN.findall(page))
    return html.unescape(re.sub(r"<[^>]*>", " | ", page) + " | " + spoken)


def english_left(text: str) -> list[str]:
    """Each English word with its surroundings."""
    plain = re.sub(r"\s+", " ", _NAMES.sub(" ", text))
    return [plain[max(0, m.start() - 40) : m.end() + 40] for m in _WORD.finditer(plain)]
