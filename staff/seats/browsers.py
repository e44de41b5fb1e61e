"""A browser in plain words, from what it says of itself."""

from __future__ import annotations

# The first that is found counts; several call themselves by the names of others as well.
_BROWSERS = (
    *(("Edg", "Edge"), ("OPR/", "Opera"), ("SamsungBrowser", "Samsung Internet")),
    *(("Firefox/", "Firefox"), ("FxiOS", "Firefox"), ("CriOS", "Chrome")),
    *(("Chrome/", "Chrome"), ("Chromium/", "Chromium"), ("Safari/", "Safari")),
)
_SYSTEMS = (
    *(("iPhone", "an iPhone"), ("iPad", "an iPad"), ("Android", "Android")),
    *(("Windows", "Windows"), ("Mac OS X", "a Mac"), ("CrOS", "a Chromebook"), ("Linux", "Linux")),
)


def in_words(says: str) -> str:
    """Browser and machine, as a person would name them.

    >>> in_words("Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0")
    'Firefox on Linux'
    >>> in_words("curl/8")
    'a browser we do not know'
    """
    browser = next((name for mark, name in _BROWSERS if mark in says), "")
    system = next((name for mark, name in _SYSTEMS if mark in says), "")
    if browser and system:
        return f"{browser} on {system}"
    return browser or (f"a browser on {system}" if system else "a browser we do not know")
