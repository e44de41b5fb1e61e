"""A certificate as it was sent: a PDF or a JPEG by what is in it, not by what it is called."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

MOST_BYTES = 2_000_000


class NoScan(ValueError):
    """This cannot be kept as a certificate; the words say why and what to do."""


@dataclass(frozen=True, slots=True)
class Scan:
    """A file that begins as its kind does, with its hash."""

    kind: str
    content: bytes
    sha256: str


def read_scan(content: bytes) -> Scan:
    """A certificate of at most 2 MB. Raises NoScan.

    >>> read_scan(b"%PDF-1.7 ...").kind
    'pdf'
    """
    if len(content) > MOST_BYTES:
        raise NoScan("The file is larger than 2 MB. Scan it in grey, or at 150 dots an inch.")
    if content.startswith(b"%PDF-"):
        kind = "pdf"
    elif content.startswith(b"\xff\xd8\xff"):
        kind = "jpeg"
    else:
        raise NoScan("This is neither a PDF nor a JPEG. Save the certificate as one of them.")
    return Scan(kind, content, hashlib.sha256(content).hexdigest())
