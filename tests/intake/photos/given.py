"""Pictures for tests, made here; some of them mean harm."""

from __future__ import annotations

import struct
import zlib
from io import BytesIO
from typing import Any

from PIL import Image

LEFT, RIGHT = (200, 30, 20), (20, 40, 200)


def halves(width: int = 64, height: int = 48) -> Image.Image:
    """Red on the left, blue on the right: whoever turns it is seen."""
    picture = Image.new("RGB", (width, height), LEFT)
    picture.paste(RIGHT, (width // 2, 0, width, height))
    return picture


def as_file(picture: Image.Image | None = None, kind: str = "JPEG", **how: Any) -> bytes:
    file = BytesIO()
    (picture or halves()).save(file, kind, **how)
    return file.getvalue()


def numbered(number: int) -> bytes:
    """A small JPEG unlike any other number's."""
    return as_file(Image.new("RGB", (40 + number, 30), LEFT))


def with_place(orientation: int = 6) -> bytes:
    """A phone's JPEG: held upright, with the place, the camera and a comment."""
    notes = Image.Exif()
    notes[0x0112] = orientation
    notes[0x010F] = "Puddleworks"
    notes.get_ifd(0x8825).update({1: "N", 2: (50.0, 6.0, 7.0), 3: "W", 4: (1.0, 2.0, 3.0)})
    return as_file(halves(), exif=notes, comment=b"at home", icc_profile=b"a profile " * 20)


def animated_webp() -> bytes:
    more = [Image.new("RGB", (64, 48), RIGHT)]
    return as_file(halves(), "WEBP", save_all=True, append_images=more, duration=50, lossless=True)


def png_bomb(width: int = 20_000, height: int = 20_000) -> bytes:
    """A small file with a large promise: one bit a pixel, all the same, well packed."""
    line = b"\0" + bytes((width + 7) // 8)
    packer = zlib.compressobj(9)
    rows = b"".join(packer.compress(line) for _ in range(height)) + packer.flush()
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    parts = [_chunk(b"IHDR", head), _chunk(b"IDAT", rows), _chunk(b"IEND", b"")]
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


def _chunk(kind: bytes, data: bytes) -> bytes:
    check = struct.pack(">I", zlib.crc32(kind + data))
    return struct.pack(">I", len(data)) + kind + data + check


def many_scans(times: int) -> bytes:
    """A progressive JPEG whose last pass over the picture is written again and again."""
    jpeg = as_file(halves(), progressive=True)
    last = jpeg.rindex(b"\xff\xda")
    return jpeg[:last] + jpeg[last:-2] * times + jpeg[-2:]


POLYGLOT = as_file() + b"<html><script>alert(1)</script></html>"
SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'
HEIC = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + bytes(200)
