"""What the phone keeps to work without a signal, and the version of it all.

The list holds the shell and the questions in every language, the modules, the style sheets and the
know-how pages; never a page that belongs to a person. The version is a hash of the contents: the
worker's text changes when, and only when, something it keeps has changed.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from django.conf import settings
from django.templatetags.static import static
from django.urls import NoReverseMatch, reverse
from django.utils.translation import gettext as _

from intake.guided_path import guided_path
from intake.guided_steps import PATH, further
from intake.wording.selectors import version as wording_version

_FOLDER = "fairgap/guided"
_WORKER = f"{_FOLDER}/worker.js"
# Linked by their hashed names from the pages; modules import each other by their plain ones.
_LINKED = (
    "fairgap/fairgap.css",
    "fairgap/guided/guided.css",
    "fairgap/guided/app.js",
    "fairgap/mark.svg",
)
_OF_KNOW_HOW = ("fairgap/know.css", "fairgap/page.js")
_TEMPLATES = ("base.html", "_mark.html", "_nav.html", "_limits.html", "intake/guided.html")
_KNOW_TEMPLATES = "intake/know"


def languages() -> list[str]:
    """Codes of the languages the site speaks here."""
    named = [code for code, _name in settings.LANGUAGES]
    return named if len(named) < 20 else [settings.LANGUAGE_CODE.partition("-")[0]]


def _static_root() -> Path:
    return Path(settings.STATICFILES_DIRS[0])


def modules() -> list[str]:
    """Static names of every module and picture the path may load."""
    root = _static_root()
    found = sorted((root / _FOLDER).rglob("*.js")) + sorted((root / _FOLDER).glob("icon-192.png"))
    return [path.relative_to(root).as_posix() for path in found if path.name != "worker.js"]


def kept_files() -> list[str]:
    """Addresses of the static files the phone keeps."""
    there = [name for name in (*_LINKED, *_OF_KNOW_HOW) if (_static_root() / name).exists()]
    plain = [f"{_static_url()}{name}" for name in modules()]
    return list(dict.fromkeys([*map(static, there), *plain]))


def _static_url() -> str:
    url = str(settings.STATIC_URL)
    return url if url.startswith("/") else f"/{url}"


def kept_pages() -> list[str]:
    """Addresses of the know-how pages, which are kept when they are there."""
    slugs = sorted({step.know for step in (*PATH, *further()) if step.know})
    return [*_known("know-index"), *(page for slug in slugs for page in _known("know", slug))]


def _known(name: str, *args: str) -> Iterator[str]:
    try:
        yield reverse(name, args=args)
    except NoReverseMatch:
        return


def version() -> str:
    """The version of everything kept; computed once a process, anew each time while debugging."""
    return _hash() if settings.DEBUG else _hash_once(wording_version())


@lru_cache(maxsize=2)
def _hash_once(wording: int) -> str:
    return _hash()


def _hash() -> str:
    seen = hashlib.sha256()
    root = _static_root()
    for name in sorted({*_LINKED, *_OF_KNOW_HOW, *modules(), _WORKER}):
        if (root / name).exists():
            seen.update(name.encode() + (root / name).read_bytes())
    for path in _template_files():
        seen.update(path.read_bytes())
    for code in languages():
        seen.update(guided_path(code)["version"].encode())
    return seen.hexdigest()[:16]


def _template_files() -> list[Path]:
    """The text of the pages kept, and of their translations."""
    root = Path(settings.BASE_DIR)
    pages = [root / "templates" / name for name in _TEMPLATES]
    pages += sorted((root / "templates" / _KNOW_TEMPLATES).rglob("*.html"))
    pages += sorted((root / "locale").rglob("*.mo"))
    return [page for page in pages if page.exists()]


def worker_text() -> str:
    """The service worker: what it keeps, then the code that keeps it."""
    kept = {
        "version": version(),
        "languages": languages(),
        "home": reverse("guided"),
        "questions": reverse("guided-questions"),
        "files": kept_files(),
        "pages": kept_pages(),
        "scripts": [f"{_static_url()}{_FOLDER}/{name}.js" for name in ("store", "outbox")],
    }
    code = (_static_root() / _WORKER).read_text("utf-8")
    return f"self.kept = {json.dumps(kept)};\n{code}"


def manifest() -> dict[str, Any]:
    """What a phone must know to put us on its first screen."""
    home = reverse("guided")

    def icon(name: str, size: int, purpose: str) -> dict[str, str]:
        source = static(f"{_FOLDER}/{name}.png")
        return {"src": source, "sizes": f"{size}x{size}", "type": "image/png", "purpose": purpose}

    return {
        "id": home,
        "name": _("Otterhithe Shaft Desk"),
        "short_name": _("Shaft Desk"),
        "description": _("Measure your boat for a new shaft, also without a signal."),
        "start_url": home,
        "scope": "/",
        "display": "standalone",
        "background_color": "#fbf7ef",
        "theme_color": "#fbf7ef",
        "icons": [
            icon("icon-192", 192, "any"),
            icon("icon-512", 512, "any"),
            icon("icon-512-maskable", 512, "maskable"),
        ],
    }
