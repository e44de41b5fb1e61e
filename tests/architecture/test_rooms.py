"""The rules of the house. A test that fails here names the line and the way out."""

from __future__ import annotations

import ast

import pytest

from tests.architecture.code import ROOMS, Module, modules

ALL = modules()
NAMES = [module.name for module in ALL]
PURE = [module for module in ALL if module.is_pure]

each_module = pytest.mark.parametrize("module", ALL, ids=NAMES)
each_pure_module = pytest.mark.parametrize("module", PURE, ids=[m.name for m in PURE])

# Outside libraries have one home each; everybody else asks that home.
HOMES = {
    "pint": ("catalog/domain/",),
    "reportlab": ("intake/paper/", "quotes/paper/"),
    "celery": ("config/celery.py", "config/__init__.py", "tasks.py"),
    "rest_framework": ("api.py", "api_", "config/throttle.py", "config/api_errors.py"),
    "drf_spectacular": ("api.py", "api_", "config/openapi.py", "config/api_errors.py"),
    "openpyxl": ("catalog/spreadsheet/",),
    "redis": ("config/",),
    "csp": ("config/",),
    "axes": ("config/",),
    "environ": ("config/settings.py",),
    "segno": ("quotes/paper/", "staff/second/square.py"),
    "babel": ("quotes/domain/currency.py",),
    "pyotp": ("staff/second/totp.py",),
    "phonenumbers": ("intake/domain/",),
    "PIL": ("intake/photos/pictures.py",),
}
NOT_PURE = (
    "django", "rest_framework", "celery", "redis", "psycopg", "requests", "urllib", "http",
    "socket", "subprocess", "threading", "asyncio", "sqlite3", "logging", "random", "secrets",
    "time", "os", "shutil", "tempfile", "pathlib", "glob",
)  # fmt: skip
# What a pure module may not say: the clock, a file, a console.
FORBIDDEN_CALLS = {"open", "print", "input", "eval", "exec", "breakpoint"}
CLOCKS = {"now", "utcnow", "today"}
READERS = {"read_text", "read_bytes", "write_text", "write_bytes"}
# Package data is opened in one place, by its own reader.
MAY_OPEN = ("catalog/domain/standards/",)
# Fonts are registered from files beside the papers, once a process.
MAY_USE_PATHS = ("intake/paper/", "quotes/paper/")
# Forces finished files to the disk, which nothing but `os` can; reads no environment.
SPEAKS_TO_THE_DISK = "staff/backup/disk.py"
SAY_OBJECTS = ("models", "selectors", "services", "admin", "jobs")


@each_module
def test_rooms_look_left(module: Module) -> None:
    right = ROOMS[ROOMS.index(module.room) + 1 :]
    wrong = [name for name in module.imports() if name.split(".")[0] in right]
    assert not wrong, f"{module.name} looks right, at {wrong}: move it, or send a signal"


@each_pure_module
def test_pure_inside(module: Module) -> None:
    banned = set(NOT_PURE) - ({"pathlib"} if module.name.startswith(MAY_USE_PATHS) else set())
    wrong = [name for name in module.imports() if name.split(".")[0] in banned]
    assert not wrong, f"{module.name} is pure and may not import {wrong}"


@each_pure_module
def test_a_pure_module_looks_at_nothing_pure_rooms_do_not_know(module: Module) -> None:
    """What it imports from the rooms is pure as well."""
    pure = {m.name.removesuffix(".py").removesuffix("/__init__").replace("/", ".") for m in PURE}
    known = {m.name.removesuffix(".py").removesuffix("/__init__").replace("/", ".") for m in ALL}
    wrong = [
        name
        for name in module.imports(checking=False)
        if name in known - pure and "." in name and not _is_package_of(name, pure)
    ]
    assert not wrong, f"{module.name} is pure but imports {wrong}"


def _is_package_of(name: str, pure: set[str]) -> bool:
    return any(inner.startswith(f"{name}.") for inner in pure)


@each_pure_module
def test_a_pure_module_reads_no_clock_and_opens_nothing(module: Module) -> None:
    wrong = [
        f"line {call.lineno}: {_called(call)}"
        for call in ast.walk(module.tree)
        if isinstance(call, ast.Call) and _looks_outside(_called(call))
    ]
    if module.name.startswith(MAY_OPEN):
        wrong = [line for line in wrong if line.split(": ")[1].split(".")[-1] not in {
            "open", "read_text", "read_bytes"}]  # fmt: skip
    assert not wrong, f"{module.name} is pure: {wrong}; pass it in"


def _called(call: ast.Call) -> str:
    return ast.unparse(call.func)


def _looks_outside(name: str) -> bool:
    last = name.split(".")[-1]
    return name in FORBIDDEN_CALLS or ("." in name and last in CLOCKS | READERS | {"open"})


@pytest.mark.parametrize("library", HOMES)
def test_one_home_for_each_library(library: str) -> None:
    wrong = [
        module.name
        for module in ALL
        if any(name.split(".")[0] == library for name in module.imports(checking=False))
        and not _at_home(module.name, HOMES[library])
    ]
    assert not wrong, f"{library} lives in {HOMES[library]}, not in {wrong}"


def _at_home(name: str, homes: tuple[str, ...]) -> bool:
    """A home is the start of a path, or the start of a file's name."""
    return any(name.startswith(home) or name.split("/")[-1].startswith(home) for home in homes)


@each_module
def test_one_door_to_the_database(module: Module) -> None:
    """Only models, selectors, services and admin (and the outbox) say .objects."""
    if module.path.stem in SAY_OBJECTS:
        return
    wrong = [
        f"line {node.lineno}"
        for node in ast.walk(module.tree)
        if isinstance(node, ast.Attribute)
        and node.attr in {"objects", "_default_manager", "_base_manager"}
    ]
    assert not wrong, f"{module.name} says .objects, {wrong}: ask a selector or a service"


@each_module
def test_no_room_reads_the_environment(module: Module) -> None:
    """Settings do, and hand it on."""
    if module.room == "config":
        return
    if module.name == SPEAKS_TO_THE_DISK:
        assert "environ" not in (said := module.path.read_text("utf-8")).replace("environment", "")
        assert "getenv" not in said
        return
    wrong = [name for name in module.imports() if name in {"os", "os.environ", "environ"}]
    assert not wrong, f"{module.name} reads the environment: make it a setting"


def test_the_rules_see_the_code() -> None:
    """A rule that looks at nothing proves nothing."""
    assert {module.room for module in ALL} == set(ROOMS)
    assert len(PURE) > 10
