"""A catalogue of words as gettext keeps it: read, written, and compiled to what Django loads.

Only what we use: a context never, plurals with two forms, references in comments.
"""

from __future__ import annotations

import ast
import struct
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

_HEADER = """\
Project-Id-Version: fairgap
Language: {language}
MIME-Version: 1.0
Content-Type: text/plain; charset=UTF-8
Content-Transfer-Encoding: 8bit
Plural-Forms: nplurals=2; plural=(n != 1);
"""


@dataclass(slots=True)
class Entry:
    """One text and its translation. ``plural`` "" where there is one form only."""

    text: str
    plural: str = ""
    said: tuple[str, ...] = ()
    places: list[str] = field(default_factory=list)

    @property
    def key(self) -> str:
        """What gettext looks it up by."""
        return f"{self.text}\0{self.plural}" if self.plural else self.text

    @property
    def is_done(self) -> bool:
        """Said in full."""
        return len(self.said) == (2 if self.plural else 1) and all(self.said)


def read(path: Path) -> dict[str, Entry]:
    """Every entry of a catalogue by its text; the header is left out."""
    entries: dict[str, Entry] = {}
    for block in path.read_text("utf-8").split("\n\n"):
        entry = _entry(block)
        if entry.text:
            entries[entry.text] = entry
    return entries


def _entry(block: str) -> Entry:
    parts: dict[str, str] = {}
    places: list[str] = []
    now = ""
    for line in block.splitlines():
        if line.startswith("#: "):
            places.append(line[3:])
        elif line.startswith("msg"):
            now, _space, quoted = line.partition(" ")
            parts[now] = ast.literal_eval(quoted)
        elif line.startswith('"'):
            parts[now] += ast.literal_eval(line)
    said = tuple(words for name, words in parts.items() if name.startswith("msgstr"))
    return Entry(parts.get("msgid", ""), parts.get("msgid_plural", ""), said, places)


def write(path: Path, entries: Iterable[Entry], language: str) -> None:
    """The catalogue in the order given."""
    blocks = ['msgid ""\nmsgstr ""\n' + "".join(_lines(_HEADER.format(language=language)))]
    blocks += ["".join(_block(entry)) for entry in entries]
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text("\n".join(blocks), "utf-8")


def _block(entry: Entry) -> Iterator[str]:
    for place in sorted(set(entry.places)):
        yield f"#: {place}\n"
    if "{" in entry.text:
        yield "#, python-brace-format\n"
    elif "%(" in entry.text:
        yield "#, python-format\n"
    yield f"msgid {_quoted(entry.text)}\n"
    if not entry.plural:
        yield f"msgstr {_quoted(entry.said[0] if entry.said else '')}\n"
        return
    yield f"msgid_plural {_quoted(entry.plural)}\n"
    for number in range(2):
        words = entry.said[number] if number < len(entry.said) else ""
        yield f"msgstr[{number}] {_quoted(words)}\n"


def _lines(text: str) -> Iterator[str]:
    for line in text.splitlines(keepends=True):
        yield f"{_quoted(line)}\n"


def _quoted(text: str) -> str:
    safe = text.replace("\\", "\\\\").replace('"', '\\"')
    return '"' + safe.replace("\n", "\\n").replace("\t", "\\t") + '"'


def compiled(entries: Mapping[str, Entry], language: str) -> bytes:
    """The same bytes for the same words: GNU's machine form, sorted, without a hash table."""
    pairs = {"": _HEADER.format(language=language)}
    pairs |= {one.key: "\0".join(one.said) for one in entries.values() if one.is_done}
    texts = sorted((key.encode(), words.encode()) for key, words in pairs.items())
    count, start = len(texts), 28
    keys = b"".join(key + b"\0" for key, _words in texts)
    body = b"".join(words + b"\0" for _key, words in texts)
    first = start + 16 * count
    head = struct.pack("<7I", 0x950412DE, 0, count, start, start + 8 * count, 0, first)
    at_keys = _offsets([key for key, _words in texts], first)
    at_words = _offsets([words for _key, words in texts], first + len(keys))
    return head + at_keys + at_words + keys + body


def _offsets(texts: Iterable[bytes], at: int) -> bytes:
    table = bytearray()
    for text in texts:
        table += struct.pack("<2I", len(text), at)
        at += len(text) + 1
    return bytes(table)
