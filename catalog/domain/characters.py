"""Characters that only look different, made plain: full width, thin spaces, curly quotes.

Not Unicode's own normal form: that makes ``58½`` into ``581/2``. Here every fraction keeps a space
in front, and digits are never moved together.
"""

from __future__ import annotations

import re

_ONE_FOR_ONE = {code: code - 0xFEE0 for code in range(0xFF01, 0xFF5F)}  # full width
_SPACES = (0x09, 0xA0, 0x1680, 0x202F, 0x205F, 0x3000, *range(0x2000, 0x200B))
_PLAIN: dict[int, int | str] = {**_ONE_FOR_ONE, **dict.fromkeys(_SPACES, " ")}
_PLAIN |= dict.fromkeys(map(ord, "‐‑‒–—―−﹣"), "-")
_PLAIN |= dict.fromkeys(map(ord, "″”“‟ʺ〃"), '"')
_PLAIN |= dict.fromkeys(map(ord, "′’‘‛ʹ`´"), "'")
_PLAIN |= {ord("∕"): "/", ord("⁄"): "/", ord("⌀"): "ø", ord("Ø"): "ø"}
_PLAIN |= {ord("㎜"): "mm", ord("㎝"): "cm", ord("→"): "->"}
_RAISED, _LOWERED, _DIGITS = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉", "0123456789"
_TO_DIGITS = str.maketrans(_RAISED + _LOWERED, _DIGITS * 2)
_INVISIBLE = "\u00ad\u200b\u200c\u200d\u200e\u2060\ufe0e\ufe0f\ufeff"
# Between two digits nothing tells whether they belong together: there it is left, and refused.
_UNSEEN = re.compile(f"(?<![0-9])[{_INVISIBLE}]++|[{_INVISIBLE}]++(?![0-9{_INVISIBLE}])")
_STACKED = re.compile(f"([{_RAISED}]++) ?[/] ?([{_LOWERED}]++|[0-9]++)(?![0-9{_LOWERED}])")
_ONE_OVER = re.compile(f"⅟ ?([{_LOWERED}]++|[0-9]++)(?![0-9{_LOWERED}])")
_SIGNS = {"½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5"}
_SIGNS |= {"⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8"}
_SIGNS |= {"⅝": "5/8", "⅞": "7/8", "⅑": "1/9", "⅒": "1/10", "↉": "0/3"}
_SIGN = re.compile(f"([{''.join(_SIGNS)}])(?![0-9{''.join(_SIGNS)}])")


def plain(text: str) -> str:
    """The same text in plain characters and small letters, with single spaces.

    What has no plain form stays as it is, for the reader to refuse.

    >>> plain("５８⁵⁄₈ ″")
    '58 5/8 "'
    """
    if not text.isascii():
        text = _plain(text)
    text = text.strip(" \t\r\n").lower().replace("\t", " ")
    if "'" in text or "`" in text:
        text = text.replace("`", "'").replace("''", '"')
    return " ".join(filter(None, text.split(" "))) if "  " in text else text


def _plain(text: str) -> str:
    text = _UNSEEN.sub("", text.translate(_PLAIN))
    text = _STACKED.sub(_stacked, text)
    text = _ONE_OVER.sub(lambda found: f" 1/{found[1].translate(_TO_DIGITS)}", text)
    return _SIGN.sub(lambda found: f" {_SIGNS[found[1]]}", text)


def _stacked(found: re.Match[str]) -> str:
    top, bottom = found[1].translate(_TO_DIGITS), found[2].translate(_TO_DIGITS)
    return f" {top}/{bottom}"
