"""What a file becomes: two bare JPEGs, or one kind sentence. Half of these files mean harm."""

from __future__ import annotations

import re
import struct
from io import BytesIO
from typing import Any

import pytest
from PIL import Image, ImageFile

from intake.photos import pictures
from intake.photos.pictures import PhotoRefused, Picture, read_picture
from tests.intake.photos.given import (
    HEIC,
    LEFT,
    POLYGLOT,
    RIGHT,
    SVG,
    animated_webp,
    as_file,
    halves,
    many_scans,
    png_bomb,
    with_place,
)

MOST = 50_000_000
# Start, plain JFIF head, tables, one frame, one scan, end: nothing that could carry a note.
BARE = {0xD8, 0xE0, 0xDB, 0xC0, 0xC4, 0xDA, 0xD9}


def taken(sent: bytes, most: int = MOST) -> Picture:
    return read_picture(sent, most_pixels=most)


def opened(jpeg: bytes) -> Image.Image:
    picture = Image.open(BytesIO(jpeg))
    picture.load()
    return picture


def markers(jpeg: bytes) -> set[int]:
    """Every marker of the file, walked as the standard says (ITU T.81, annex B)."""
    seen, at = {0xD8}, 2
    while jpeg[at + 1] != 0xDA:
        assert jpeg[at] == 0xFF
        seen.add(jpeg[at + 1])
        at += 2 + struct.unpack(">H", jpeg[at + 2 : at + 4])[0]
    seen.add(0xDA)
    rest = re.findall(rb"\xff([^\x00\xd0-\xd7])", jpeg[at + 2 :], re.DOTALL)
    return seen | {byte[0] for byte in rest}


def looks(pixel: Any, colour: tuple[int, int, int]) -> bool:
    return all(abs(a - b) < 40 for a, b in zip(pixel, colour, strict=True))


def refusal(sent: bytes, most: int = MOST) -> str:
    with pytest.raises(PhotoRefused) as refused:
        taken(sent, most)
    return str(refused.value.message)


@pytest.mark.parametrize(
    "sent",
    [
        as_file(),
        as_file(kind="PNG"),
        as_file(kind="WEBP"),
        as_file(halves().convert("RGBA"), "PNG"),
        as_file(halves().quantize(16), "PNG"),
        as_file(halves().convert("CMYK")),
        as_file(halves(), progressive=True),
        with_place(1),
        animated_webp(),
        POLYGLOT,
    ],
    ids=["jpeg", "png", "webp", "clear", "palette", "cmyk", "progressive", "exif", "film", "poly"],
)
def test_what_is_kept_is_a_bare_jpeg_of_the_same_picture(sent: bytes) -> None:
    kept = taken(sent)
    for jpeg in (kept.content, kept.small):
        picture = opened(jpeg)
        assert (picture.format, picture.mode, picture.size) == ("JPEG", "RGB", (64, 48))
        assert markers(jpeg) == BARE
        assert set(picture.info) == {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
        assert looks(picture.getpixel((5, 24)), LEFT)
        assert looks(picture.getpixel((59, 24)), RIGHT)
        assert b"script" not in jpeg


def test_the_place_and_the_camera_are_gone_and_the_picture_stands_upright() -> None:
    sent = with_place(6)
    assert opened(sent).getexif().get_ifd(0x8825)
    assert b"Puddleworks" in sent
    kept = taken(sent)
    assert (kept.width, kept.height) == (48, 64)
    picture = opened(kept.content)
    assert not picture.getexif()
    assert not {b"Puddleworks", b"at home", b"profile"} & set(re.findall(rb"[\w ]+", kept.content))
    assert looks(picture.getpixel((24, 5)), LEFT)  # what was left is above now


# Where the camera's upper left corner went, by the EXIF standard (JEITA CP-3451, 4.6.4).
UPPER_LEFT = {
    1: (0, 0),
    2: (1, 0),
    3: (1, 1),
    4: (0, 1),
    5: (0, 0),
    6: (1, 0),
    7: (1, 1),
    8: (0, 1),
}


@pytest.mark.parametrize("orientation", UPPER_LEFT)
def test_each_way_of_holding_the_camera_is_undone(orientation: int) -> None:
    marked = Image.new("RGB", (96, 64), "white")
    marked.paste((0, 0, 0), (0, 0, 24, 24))
    notes = Image.Exif()
    notes[0x0112] = orientation
    picture = opened(taken(as_file(marked, exif=notes, quality=95)).content)
    assert picture.size == ((64, 96) if orientation > 4 else (96, 64))
    across, down = UPPER_LEFT[orientation]
    corner = (8 + across * (picture.width - 17), 8 + down * (picture.height - 17))
    assert looks(picture.getpixel(corner), (0, 0, 0))


@pytest.mark.filterwarnings("ignore:Corrupt EXIF data")
def test_an_illegible_note_about_the_camera_harms_nothing() -> None:
    jpeg = as_file()
    note = b"Exif\0\0MM\0*" + b"\xff" * 40
    sent = jpeg[:2] + b"\xff\xe1" + struct.pack(">H", len(note) + 2) + note + jpeg[2:]
    assert (taken(sent).width, taken(sent).height) == (64, 48)


def test_a_large_picture_is_shrunk_and_a_small_one_left_alone() -> None:
    kept = taken(as_file(halves(4032, 3024)))
    assert (kept.width, kept.height) == opened(kept.content).size == (1600, 1200)
    assert opened(kept.small).size == (320, 240)
    thin = taken(as_file(halves(9000, 2), "PNG"))
    assert (thin.width, thin.height) == (1600, 1)
    assert opened(taken(as_file(halves(40, 30))).small).size == (40, 30)


def test_what_was_transparent_is_white() -> None:
    clear = Image.new("RGBA", (8, 8), (0, 0, 0, 0))
    assert opened(taken(as_file(clear, "PNG")).content).getpixel((4, 4)) == (255, 255, 255)
    large = Image.new("RGBA", (4000, 10), (0, 0, 0, 0))
    assert opened(taken(as_file(large, "PNG")).content).getpixel((4, 2)) == (255, 255, 255)


def test_sixteen_bits_of_grey_keep_their_grey() -> None:
    grey = Image.new("I;16", (8, 8), 128 * 256)
    value = opened(taken(as_file(grey, "PNG")).content).getpixel((4, 4))
    assert looks(value, (128, 128, 128))


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        (b"", "empty"),
        (HEIC, "HEIC"),
        (SVG, "not a picture we can read"),
        (as_file(kind="GIF"), "not a picture we can read"),
        (as_file(kind="BMP"), "not a picture we can read"),
        (as_file(kind="TIFF"), "not a picture we can read"),
        (b"%PDF-1.7 " + bytes(500), "not a picture we can read"),
        (b"<html>" + as_file(), "not a picture we can read"),
        (as_file(halves(600, 400))[:-900], "damaged"),
        (as_file(halves(600, 400), "PNG")[:-60], "damaged"),
        (as_file(halves(600, 400), "WEBP", lossless=True)[:60], "damaged"),
        (many_scans(2000), "damaged"),
    ],
    ids=[
        "empty", "heic", "svg", "gif", "bmp", "tiff", "pdf", "html-first",
        "cut-jpeg", "cut-png", "cut-webp", "many-scans",
    ],
)  # fmt: skip
def test_what_is_no_photo_is_refused_in_one_kind_sentence(sent: bytes, says: str) -> None:
    said = refusal(sent)
    assert says in said
    assert "lease" in said or "send a screenshot" in said  # it says what to do
    assert len(said) < 200


def test_a_bomb_is_refused_by_its_promise() -> None:
    bomb = png_bomb()
    assert len(bomb) < 100_000
    assert "too many pixels" in refusal(bomb)
    assert "too many pixels" in refusal(png_bomb(10_000, 9_900))  # the decoder would only warn


def test_the_most_pixels_are_taken_and_one_row_more_is_not() -> None:
    assert taken(as_file(halves(100, 100)), most=10_000).width == 100
    assert "too many pixels" in refusal(as_file(halves(100, 101)), most=10_000)
    # Anything but a JPEG is decoded in full, so it may have half as many.
    assert taken(as_file(halves(100, 50), "PNG"), most=10_000).width == 100
    assert "too many pixels" in refusal(as_file(halves(100, 51), "PNG"), most=10_000)


def test_a_camera_s_scans_pass_and_a_note_full_of_marks_is_no_scan() -> None:
    assert pictures._scans(as_file()) == 1
    assert 1 < pictures._scans(as_file(progressive=True)) < pictures.MOST_SCANS
    assert taken(as_file(comment=b"\xff\xda" * 500)).width == 64
    assert pictures._scans(as_file() + b"\xff\xda\0\2" * 500) == 1  # behind the end


def test_a_picture_that_is_cut_off_is_not_guessed_at() -> None:
    """A library elsewhere must not have made the decoder lenient."""
    assert ImageFile.LOAD_TRUNCATED_IMAGES is False


def test_running_out_of_memory_is_no_fault_of_the_picture(monkeypatch: pytest.MonkeyPatch) -> None:
    def no_memory(*_args: Any, **_kwargs: Any) -> None:
        raise MemoryError

    monkeypatch.setattr(pictures, "_upright", no_memory)
    with pytest.raises(MemoryError):
        taken(as_file())
