"""For the second reader: characters that only look different, made plain one by one."""

from __future__ import annotations

import re
import unicodedata

_UNSEEN = "\u00ad\u200b\u200c\u200d\u200e\u2060\ufe0e\ufe0f\ufeff"
_LOOKS = {"`": "'", "´": "'", "ʹ": "'", "′": "'", "’": "'", "‘": "'", "‛": "'"}
_LOOKS |= {'"': '"', "″": '"', "”": '"', "“": '"', "‟": '"', "ʺ": '"', "〃": '"', "∕": "/"}
_LOOKS |= {"⁄": "/", "⌀": "ø", "Ø": "ø", "→": "->", "―": "-", "−": "-", "﹣": "-"}


def plain(text: str) -> str:
    text = _without_unseen(text.replace("\t", " "))
    text = "".join(" " if unicodedata.category(sign) == "Zs" else sign for sign in text)
    out = ""
    at = 0
    while at < len(text):
        piece, at = _one_character(text, at)
        out += piece
    out = out.strip(" \r\n").lower().replace("''", '"')
    while "  " in out:
        out = out.replace("  ", " ")
    return out


def _without_unseen(text: str) -> str:
    kept = ""
    for at, sign in enumerate(text):
        before = next((c for c in reversed(text[:at]) if c not in _UNSEEN), " ")
        after = next((c for c in text[at + 1 :] if c not in _UNSEEN), " ")
        if sign not in _UNSEEN or (_figure(before) and _figure(after)):
            kept += sign
    return kept


def _figure(sign: str) -> bool:
    return sign in "0123456789０１２３４５６７８９"


def _small(text: str, at: int, tag: str) -> tuple[str, int]:
    """The raised or lowered digits from here on, as digits."""
    digits = ""
    while at < len(text) and unicodedata.decomposition(text[at]).startswith(tag):
        digits += str(unicodedata.digit(text[at], "?"))
        at += 1
    return digits, at


def _digits(text: str, at: int) -> tuple[str, int]:
    start = at
    while at < len(text) and _figure(text[at]):
        at += 1
    return unicodedata.normalize("NFKC", text[start:at]), at


def _one_character(text: str, at: int) -> tuple[str, int]:
    sign = text[at]
    top, end = _small(text, at, "<super>")
    if top:
        return _stacked(text, end, top)
    if sign == "⅟":
        return _stacked(text, at + 1, "1", slash=False)
    shape = unicodedata.decomposition(sign)
    if shape.startswith("<fraction>") or sign == "↉":
        numbers = unicodedata.normalize("NFKC", sign).split("⁄") if sign != "↉" else ["0", "3"]
        next_one = text[at + 1 : at + 2]
        if next_one and (_figure(next_one) or unicodedata.numeric(next_one, 0) % 1):
            return "?", at + 1
        return f" {numbers[0]}/{numbers[1]}", at + 1
    if sign in _LOOKS:
        return _LOOKS[sign], at + 1
    if unicodedata.category(sign) == "Pd":
        return "-", at + 1
    if shape.startswith(("<wide>", "<square>")):
        return unicodedata.normalize("NFKC", sign), at + 1
    return sign, at + 1


def _stacked(text: str, at: int, top: str, slash: bool = True) -> tuple[str, int]:
    if slash:
        over = re.compile(" ?[/⁄∕／] ?").match(text, at)
        if not over:
            return "?", at
        at = over.end()
    elif text[at : at + 1] == " ":
        at += 1
    for taken in (_small(text, at, "<sub>"), _digits(text, at)):
        bottom, end = taken
        if bottom:
            more = text[end : end + 1]
            clear = not (_figure(more) or unicodedata.decomposition(more or " ").startswith("<sub"))
            return (f" {top}/{bottom}" if clear or not more else "?"), end
    return "?", at
