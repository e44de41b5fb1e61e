"""``python -m scripts.words``: find every text, keep what is translated, say what is missing."""

from __future__ import annotations

import json
import sys

from scripts.words import po
from scripts.words.collect import READER, ROOT, everything

LANGUAGE = "es"
FOLDER = ROOT / "locale" / LANGUAGE / "LC_MESSAGES"


def main() -> int:
    """Merge, write the catalogue and its compiled form; the count of what is missing."""
    known = po.read(FOLDER / "django.po") if (FOLDER / "django.po").exists() else {}
    found = everything()
    for text, entry in found.items():
        if text in known:
            entry.said = known[text].said
    po.write(FOLDER / "django.po", found.values(), LANGUAGE)
    (FOLDER / "django.mo").write_bytes(po.compiled(found, LANGUAGE))
    (FOLDER / "reader.json").write_text(reader_table(found), "utf-8")
    missing = [entry for entry in found.values() if not entry.is_done]
    for entry in missing:
        print(f"{min(entry.places)}: {entry.text}")
    print(f"{len(found)} texts, {len(missing)} not translated", file=sys.stderr)
    return len(missing)


def reader_table(found: dict[str, po.Entry]) -> str:
    """English to the language, of what the reader in the browser can say."""
    said = {
        text: entry.said[0]
        for text, entry in sorted(found.items())
        if entry.is_done and any(READER.match(place) for place in entry.places)
    }
    return json.dumps(said, ensure_ascii=False, indent=0) + "\n"


if __name__ == "__main__":
    sys.exit(1 if main() else 0)
