"""From any file to two harmless JPEGs, or one kind sentence. The only home of Pillow.

The kind is found by decoding, never by name or declared type. What comes out was written here from
bare pixels: no EXIF, no place, no colour profile, no comment, nothing behind the end. A wide-gamut
picture looks a shade paler without its profile; for measuring that does not matter.
"""

from __future__ import annotations

import re
import threading
from dataclasses import dataclass
from io import BytesIO

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _
from PIL import Image, UnidentifiedImageError

Words = str | Promise

LONGEST_SIDE = 1600  # px, of the picture we keep
SMALL_SIDE = 320  # px, of its small version
QUALITY = 80
# A camera writes about ten scans of a progressive JPEG. Thousands are a trap for our processor.
MOST_SCANS = 32

_KINDS = ("JPEG", "PNG", "WEBP")
_HEIF = {b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1", b"avif", b"avis"}
_NEXT_MARKER = re.compile(rb"\xff+[^\x00\xff\xd0-\xd7]")
_SCAN, _END = 0xDA, 0xD9
_TURNS = {
    2: (Image.Transpose.FLIP_LEFT_RIGHT,),
    3: (Image.Transpose.ROTATE_180,),
    4: (Image.Transpose.FLIP_TOP_BOTTOM,),
    5: (Image.Transpose.TRANSPOSE,),
    6: (Image.Transpose.ROTATE_270,),
    7: (Image.Transpose.TRANSVERSE,),
    8: (Image.Transpose.ROTATE_90,),
}
# One picture at a time in a process: a large one takes some hundred megabytes while it is decoded.
_one_at_a_time = threading.Lock()


class PhotoRefused(Exception):
    """This cannot be taken as a photo; ``message`` says why and what to do."""

    def __init__(self, message: Words) -> None:
        super().__init__(message)
        self.message = message


EMPTY = _("The file is empty. Please choose the picture once more.")
HEIC = _(
    "This picture is in the HEIC format, which we cannot read. On the phone choose the camera "
    'format "Most compatible", or send a screenshot of the picture.'
)
OTHER = _("This is not a picture we can read. Please send a JPEG, PNG or WebP photo.")
BROKEN = _("The picture is damaged or not complete. Please send it again, or take a new one.")
TOO_MANY_PIXELS = _("The picture has too many pixels. Please send a smaller version of it.")


@dataclass(frozen=True, slots=True)
class Picture:
    """What we keep: JPEG bytes, their small version, and the size in pixels."""

    content: bytes
    small: bytes
    width: int
    height: int


def read_picture(sent: bytes, *, most_pixels: int) -> Picture:
    """Decode, turn upright, shrink, and write anew. Raises PhotoRefused.

    ``most_pixels``: of a JPEG; half of it for other kinds.
    """
    if not sent:
        raise PhotoRefused(EMPTY)
    if sent[4:8] == b"ftyp" and sent[8:12] in _HEIF:
        raise PhotoRefused(HEIC)
    if sent[:2] == b"\xff\xd8" and _scans(sent) > MOST_SCANS:
        raise PhotoRefused(BROKEN)
    with _one_at_a_time:
        bare = _bare(sent, most_pixels)
    small = bare.copy()
    small.thumbnail((SMALL_SIDE, SMALL_SIDE), Image.Resampling.LANCZOS)
    return Picture(_jpeg(bare), _jpeg(small), *bare.size)


def _scans(jpeg: bytes) -> int:
    """How often the decoder would go over the picture: the scans of its own stream."""
    found, at = 0, 2
    while match := _NEXT_MARKER.search(jpeg, at):
        kind, at = jpeg[match.end() - 1], match.end()
        if kind == _END:
            break
        found += kind == _SCAN
        at += int.from_bytes(jpeg[at : at + 2], "big")
    return found


def _bare(sent: bytes, most_pixels: int) -> Image.Image:
    """Upright pixels of at most LONGEST_SIDE, and nothing else."""
    try:
        with Image.open(BytesIO(sent), formats=_KINDS) as opened:
            # A JPEG is decoded near its final size, anything else in full and in several copies.
            most = most_pixels if opened.format in ("JPEG", "MPO") else most_pixels // 2
            if opened.width * opened.height > most:
                raise PhotoRefused(TOO_MANY_PIXELS)
            return _upright(opened)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoRefused(TOO_MANY_PIXELS) from None
    except UnidentifiedImageError:
        raise PhotoRefused(OTHER) from None
    except (PhotoRefused, MemoryError):
        raise
    except Exception:
        # A decoder fed with anything may fail in any way; whatever it was, it is no picture.
        raise PhotoRefused(BROKEN) from None


def _upright(opened: Image.Image) -> Image.Image:
    opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))  # a JPEG is decoded near its final size
    opened.load()
    turns = _turns(opened)
    picture = _plain(opened)
    if picture.mode == "RGBA":  # shrinking with transparency doubles the memory: first roughly
        picture.thumbnail((2 * LONGEST_SIDE, 2 * LONGEST_SIDE), Image.Resampling.NEAREST)
    picture.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS, reducing_gap=3.0)
    for turn in turns:
        picture = picture.transpose(turn)
    paper = Image.new("RGB", picture.size, "white")  # new, so that nothing travels along
    paper.paste(picture, mask=picture if picture.mode == "RGBA" else None)
    return paper


def _turns(opened: Image.Image) -> tuple[Image.Transpose, ...]:
    """How the camera was held, where it says so legibly."""
    try:
        return _TURNS.get(opened.getexif().get(0x0112, 1), ())
    except Exception:  # the picture itself is whole; only this note about it is not
        return ()


def _plain(opened: Image.Image) -> Image.Image:
    """Red, green and blue, with transparency where there is any."""
    if opened.mode.startswith("I"):  # sixteen bits of grey
        return opened.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    clear = opened.mode in ("RGBA", "LA", "PA") or "transparency" in opened.info
    plain = "RGBA" if clear else "RGB"
    return opened if opened.mode == plain else opened.convert(plain)


def _jpeg(picture: Image.Image) -> bytes:
    kept = BytesIO()
    picture.save(kept, "JPEG", quality=QUALITY, optimize=True)
    return kept.getvalue()
