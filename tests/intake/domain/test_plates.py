"""What plates and gauges say: read in every way it is written, or refused with an example."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from decimal import Decimal

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from catalog.domain.lengths import inches, mm
from intake.domain.plates import PlateError, read_power, read_ratio, read_speed, read_thread

READERS: list[Callable[[str], object]] = [read_power, read_speed, read_ratio, read_thread]


@pytest.mark.parametrize(
    ("text", "value", "unit"),
    [
        ("310 hp", "310", "hp"),
        ("310HP", "310", "hp"),
        ("310 horsepower", "310", "hp"),
        ("310 bhp", "310", "hp"),
        ("310 h.p.", "310", "hp"),
        ("231 kW", "231", "kW"),
        ("231kW", "231", "kW"),
        ("231 kilowatts", "231", "kW"),
        ("22,5 kW", "22.5", "kW"),
        ("315 PS", "315", "PS"),
        ("315 metric horsepower", "315", "PS"),
        ("３１０\u00a0ｈｐ", "310", "hp"),
    ],
)
def test_power(text: str, value: str, unit: str) -> None:
    power = read_power(text)
    assert (power.value, power.unit) == (Decimal(value), unit)


def test_three_names_of_one_power() -> None:
    assert read_power("231 kW").horsepower == pytest.approx(309.8, abs=0.05)
    assert read_power("314.07 PS").horsepower == pytest.approx(309.8, abs=0.05)


@pytest.mark.parametrize(
    ("text", "turns"),
    [("3600", 3600), ("3600 rpm", 3600), ("3,600", 3600), ("3.600", 3600), ("3 600 r/min", 3600)],
)
def test_speed(text: str, turns: int) -> None:
    assert read_speed(text) == turns


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2:1", "2"),
        ("2 : 1", "2"),
        ("2.05", "2.05"),
        ("2,05", "2.05"),
        ("2.05:1", "2.05"),
        ("2.05 to 1", "2.05"),
        ("two to one", "2"),
        ("1:2", "0.5"),
        ("1", "1"),
        ("４１：２０", "2.05"),
    ],
)
def test_ratio(text: str, value: str) -> None:
    assert read_ratio(text) == Decimal(value)


@pytest.mark.parametrize(
    ("text", "name", "pitch", "major"),
    [
        ("3/4-10", "3/4-10", "10", "3/4"),
        ("3/4 - 10", "3/4-10", "10", "3/4"),
        ("3/4 x 10", "3/4-10", "10", "3/4"),
        ("3/4×10", "3/4-10", "10", "3/4"),
        ('3/4"-10', "3/4-10", "10", "3/4"),
        ("¾-10", "3/4-10", "10", "3/4"),
        ("3/4-10 UNC", "3/4-10", "10", "3/4"),
        ("3/4-10 UNC-2A", "3/4-10", "10", "3/4"),
        ("3/4 x 10 tpi", "3/4-10", "10", "3/4"),
        ("1 1/8-7", "1-1/8-7", "7", "1 1/8"),
        ("1-1/8-7", "1-1/8-7", "7", "1 1/8"),
        ("1-8", "1-8", "8", "1"),
    ],
)
def test_inch_threads(text: str, name: str, pitch: str, major: str) -> None:
    thread = read_thread(text)
    assert (thread.text, thread.system, thread.pitch) == (name, "inch", pitch)
    assert thread.major == inches(major)


@pytest.mark.parametrize(
    ("text", "name", "pitch", "major"),
    [
        ("M20x1.5", "M20x1.5", "1.5", "20"),
        ("m20 x 1,5", "M20x1.5", "1.5", "20"),
        ("M20 × 1.50", "M20x1.5", "1.5", "20"),
        ("M 20*2", "M20x2", "2", "20"),
        ("M20", "M20", "", "20"),
        ("Ｍ２０ｘ１．５", "M20x1.5", "1.5", "20"),
    ],
)
def test_metric_threads(text: str, name: str, pitch: str, major: str) -> None:
    thread = read_thread(text)
    assert (thread.text, thread.system, thread.pitch) == (name, "mm", pitch)
    assert thread.major == mm(major)


@pytest.mark.parametrize(
    ("read", "text"),
    [
        *(
            (read_power, text)
            for text in ("", "310", "0 hp", "-3 hp", "310 cows", "1,200 hp", "hp")
        ),
        *(
            (read_speed, text)
            for text in ("", "9", "36000000", "3600 hp", "-3600", "12,34", "00", "٣٦٠٠")
        ),
        *((read_ratio, text) for text in ("", "0", "2:0", "0:1", "2:", ":1", "200:1", "-2", "2-1")),
        *((read_thread, text) for text in ("", "3/4", "3/0-10", "0/4-10", "5/4-10", "3/4-0")),
        *(
            (read_thread, text)
            for text in ("3/7-10", "M0", "M20x0", "M20x25", "M2x2", "0-8", "20x2")
        ),
        *((read, "1" + " " * 60) for read in READERS),
    ],
)
def test_nonsense_is_refused_with_an_example(read: Callable[[str], object], text: str) -> None:
    with pytest.raises(PlateError, match="such as"):
        read(text)


@given(st.text(st.sampled_from("0123456789/-xXmM.,: hpkWPSto½\u00a0x²"), max_size=14))
@example("3/0-10")
@example("9/0 x 1")
@example("00")
def test_any_text_is_read_or_refused(text: str) -> None:
    for read in READERS:
        with suppress(PlateError):
            assert read(text)
