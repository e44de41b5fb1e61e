"""The twelve checks against what stands outside the project: which they are and where each is.

A file for each, its source in its docstring. One that is lost, renamed, emptied, or no longer names
its source, fails here.
"""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

HERE = Path(__file__).parent
# File: the published source, as its docstring names it.
TWELVE = {
    "test_01_j755_small_end.py": "SAE J755",
    "test_02_j755_hub_overhang.py": "SAE J755",
    "test_03_b17_1_key_depths.py": "Machinery's Handbook Pocket Companion",
    "test_04_shaft_diameter.py": "D. Gerr, Boat Mechanical Systems Handbook",
    "test_05_torque_limit.py": "J. Gere, Mechanics of Materials",
    "test_06_bearing_spacing.py": "Euler-Bernoulli",
    "test_07_iso_286_fits.py": "ISO 286-2",
    "test_08_din_6885_keys.py": "DIN 6885-1",
    "test_09_gum_h1_end_gauge.py": "JCGM 100:2008",
    "test_10_ansi_b4_1_interference.py": "ANSI B4.1-1967",
    "test_11_jcgm_106_conformance.py": "JCGM 106:2012",
    "test_12_resolution_and_boundary.py": "ISO/IEC 17043",
}
OUR_ROOMS = {"catalog", "intake", "quotes"}


def _numbered() -> list[str]:
    return sorted(path.name for path in HERE.glob("test_[0-9][0-9]_*.py"))


def _tests_that_assert(tree: ast.Module) -> list[str]:
    return [
        node.name
        for node in tree.body
        if isinstance(node, ast.FunctionDef)
        and node.name.startswith("test_")
        and any(isinstance(inside, ast.Assert) for inside in ast.walk(node))
    ]


def test_there_are_twelve_and_no_other() -> None:
    assert _numbered() == list(TWELVE)
    assert [name[5:7] for name in TWELVE] == [f"{number:02}" for number in range(1, 13)]


@pytest.mark.parametrize("name", TWELVE)
def test_each_names_its_source_and_tests_our_code(name: str) -> None:
    tree = ast.parse((HERE / name).read_text("utf-8"))
    said = ast.get_docstring(tree) or ""
    assert said.startswith(f"Outside check {int(name[5:7])}:")
    assert TWELVE[name] in " ".join(said.split())
    assert len(_tests_that_assert(tree)) >= 2
    imported = {node.module or "" for node in tree.body if isinstance(node, ast.ImportFrom)}
    assert OUR_ROOMS & {module.partition(".")[0] for module in imported}
