"""What both drawings must draw: ``python -m tests.intake.domain.drawing_vectors`` writes it anew.

Parts that are the same under several questions are kept once ("backs"); a case names its own.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import groupby
from pathlib import Path
from typing import Any

from intake.domain.drawing import ASKED, drive_line, gap_picture
from intake.domain.drawing_words import ENGLISH
from intake.domain.shape_rows import rows
from intake.domain.shapes import Drawing

VECTORS = Path(__file__).parents[2] / "vectors" / "drawing.json"

LAYOUTS = ("inline", "down_angle", "v_rear_flange", "v_pass_through")
FULL: dict[str, Any] = {
    "system": "inch", "nominal": {"mm": "25.400000", "inch": "1"},
    "x_strut_aft": "1120.775000", "x_strut_fwd": "1044.575000", "gap_goal": "19.050000",
    "hub_length": "74.612500", "nut_standoff": "30.162500", "nose": "7.937500",
    "taper_length": "69.850000", "length": "1244.600000", "overall": "1252.537500",
    "predicted_gap": "19.050000", "tail": "123.825000",
    "marks": {"face_to_strut_aft": "measured", "gap": "computed", "hub_length": "measured",
              "tail": "computed", "length": "computed", "overall": "assumed"},
}  # fmt: skip
METRIC: dict[str, Any] = {
    "system": "mm", "nominal": {"mm": "40.000000"}, "x_strut_aft": "2211.25",
    "x_strut_fwd": "2050", "predicted_gap": "21.75", "hub_length": "131.5", "length": "2412.25",
    "nut_standoff": "48", "nose": "0", "marks": {"hub_length": "assumed", "length": "desk"},
}  # fmt: skip
PASSING = {"front_length": "101.6", "gearbox_through": "254"}


def _asked_of_each_drive() -> Iterator[dict[str, Any]]:
    for layout in LAYOUTS:
        for slug in ("", *ASKED):
            yield {"stack": {"layout": layout}, "options": {"lit": slug}}


def _stacks() -> Iterator[dict[str, Any]]:
    stations = ("single", "port", "starboard", "centre")
    for layout, station in zip(LAYOUTS, stations, strict=True):
        more = PASSING if layout == "v_pass_through" else {}
        for numbers in (FULL, METRIC):
            stack = numbers | more | {"layout": layout, "station": station}
            for options in ({}, {"lit": "gap_now"}, {"lit": "boat_name_and_station"},
                            {"shorten": False}, {"widthMm": 170.0}):  # fmt: skip
                yield {"stack": stack, "options": options}


def _numbers_as_they_come_in() -> Iterator[dict[str, Any]]:
    stack: dict[str, Any] = {"layout": "inline", "system": "inch"}
    for key in ("nominal", "x_strut_aft", "hub_length", "predicted_gap", "length"):
        stack = stack | {key: FULL[key]}
        yield {"stack": stack, "options": {"lit": "tail_to_thread"}}
        yield {"stack": stack, "options": {"readings": {"gap_now": "3/4"}}}


def _odd_ones() -> Iterator[dict[str, Any]]:
    keys = ("x_strut_aft", "hub_length", "predicted_gap", "nut_standoff", "nose", "length")
    for bad in ("0", "-5", "999999999"):
        yield {"stack": dict.fromkeys(keys, bad) | {"nominal": {"mm": bad}}, "options": {}}
    yield {"stack": FULL, "options": {"lit": "gap_now", "hook": "here <b>", "thumb": "there & so"}}
    said = {"face_to_strut_aft": "44 <script>", "dia_clean": "1 1/8", "flange_od": "4"}
    for lit in ("", "all", "dia_clean", "flange_od"):
        yield {"stack": FULL, "options": {"lit": lit, "readings": said}}


def gaps() -> list[dict[str, Any]]:
    """Stacks for the picture of the gap: known or not, sure or not, slips weighed or not."""
    band = {"gap_min": "12.7", "gap_max": "25.4", "gap_goal": "19.05"}
    slips = [[0.9, 0.0, 1.4], [0.06, 12.7, 1.6], [0.04, -0.8, 6.0]]
    known = [
        {"predicted_gap": gap, "u_mm": u}
        for gap in ("19.05", "22.225", "11.1", "0.3", "0", "-3", "61")
        for u in ("0", "0.7", "1.45", "6")
    ]
    stacks: list[dict[str, Any]] = [{}, band, {"system": "mm"}, *(band | one for one in known)]
    stacks += [band | one | {"system": "mm"} for one in known]
    return stacks + [band | one | {"explained": slips} for one in known[:12]]


def cases() -> list[dict[str, Any]]:
    """Every stack with its options, as both drawings take them."""
    return [*_asked_of_each_drive(), *_stacks(), *_numbers_as_they_come_in(), *_odd_ones()]


def drawn(case: dict[str, Any]) -> Drawing:
    """One case as Python draws it."""
    options = dict(case["options"])
    if "widthMm" in options:
        options["width_mm"] = options.pop("widthMm")
    return drive_line(case["stack"], **options)


def as_data(drawing: Drawing) -> dict[str, Any]:
    """A drawing as plain data: its shapes by slug and part."""
    groups = groupby(drawing.shapes, key=lambda shape: (shape.slug, shape.part))
    return {
        "width": drawing.width_mm, "height": drawing.height_mm, "title": drawing.title,
        "description": drawing.description,
        "groups": [[slug, part, rows(shapes)] for (slug, part), shapes in groups],
    }  # fmt: skip


def vectors() -> dict[str, Any]:
    """All of it, shared parts once."""
    backs: list[Any] = []
    told = []
    for case in cases():
        expected = as_data(drawn(case))
        back = expected["groups"].pop(0)[2]
        if back not in backs:
            backs.append(back)
        told.append(case | {"back": backs.index(back), "expected": expected})
    drawn_gaps = [{"stack": stack, "expected": as_data(gap_picture(stack))} for stack in gaps()]
    return {"words": ENGLISH, "backs": backs, "cases": told, "gaps": drawn_gaps}


def main() -> None:
    VECTORS.parent.mkdir(exist_ok=True)
    short = {"ensure_ascii": False, "separators": (",", ":")}
    found = vectors()
    parts = {
        key: [json.dumps(one, **short) for one in found[key]] for key in ("backs", "cases", "gaps")
    }
    lines = [f'{{"words":{json.dumps(found["words"], **short)}']
    lines += [f'"{key}":[\n' + ",\n".join(rows) + "\n]" for key, rows in parts.items()]
    VECTORS.write_text(",\n".join(lines) + "}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
