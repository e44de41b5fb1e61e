"""Which limits a check reads, found in its code: nobody has to write it down a second time.

The instructions of the check are walked, and those of every function of ours that it calls: an
attribute taken from something called ``limits`` is a limit that is read.
"""

from __future__ import annotations

import dis
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from types import CodeType, FunctionType, ModuleType
from typing import Any

from intake.domain.case import Case, build_case
from intake.domain.limit_values import limit_fields

_LIMITS = {"limits", "DEFAULT_LIMITS"}
_TAKES = {"LOAD_ATTR", "LOAD_METHOD"}
_STORES = {"STORE_FAST", "STORE_DEREF"}
# Where the whole sheet is computed: what is read there is the ground of every check, not of one.
_GROUND = {build_case}
_OURS = ("intake.", "catalog.")


@lru_cache(maxsize=1024)
def limits_read(look: Any) -> tuple[str, ...]:
    """The names of the limits a function reads, in the order of the checks."""
    read: set[str] = set()
    seen: set[FunctionType] = set()
    waiting = [look]
    while waiting:
        function = _plain(waiting.pop())
        if function is None or function in seen or function in _GROUND:
            continue
        seen.add(function)
        known = set(_LIMITS)
        for code in _codes(function.__code__):
            read |= _attributes(code, known)
            waiting += _called(code, function.__globals__)
    return tuple(name for name in limit_fields() if name in read)


def severities_of(look: Any) -> set[str]:
    """The severities a check's own code names: "STOP", "ASK", "NOTE" where it grades."""
    function = _plain(look)
    if function is None:
        return set()
    named: set[str] = set()
    for code in _codes(function.__code__):
        steps = list(dis.get_instructions(code))
        named |= {
            str(step.argval)
            for before, step in pairwise(steps)
            if step.opname in _TAKES and before.argval == "Severity"
        }
    return named


def weighs_causes(look: Any) -> bool:
    """Whether a check names its causes by the sheet at hand rather than the usual ones."""
    function = _plain(look)
    codes = _codes(function.__code__) if function else ()
    named = (const for code in codes for const in code.co_consts if isinstance(const, tuple))
    return any("likely" in names for names in named)


def _plain(thing: Any) -> FunctionType | None:
    """The function behind a cached one, a property or a method; None for what is not ours."""
    thing = getattr(thing, "fget", None) or thing
    thing = getattr(thing, "__wrapped__", thing)
    ours = isinstance(thing, FunctionType) and thing.__module__.startswith(_OURS)
    return thing if ours else None


def _codes(code: CodeType) -> Iterator[CodeType]:
    """A function's code and that of the comprehensions and functions inside it."""
    yield code
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield from _codes(constant)


def _attributes(code: CodeType, known: set[str]) -> set[str]:
    """The attributes taken from limits; another name that limits are given joins ``known``."""
    read: set[str] = set()
    steps = list(dis.get_instructions(code))
    for before, step in pairwise(steps):
        name = _last_name(before)
        if name not in known:
            continue
        if step.opname in _TAKES:
            read.add(str(step.argval))
        elif step.opname in _STORES:
            known.add(str(step.argval))
    return read


def _last_name(step: dis.Instruction) -> str:
    """The name an instruction has just put on the stack; some load two names at once."""
    told = step.argval
    return str(told[-1]) if isinstance(told, tuple) and told else str(told)


def _called(code: CodeType, scope: dict[str, Any]) -> Iterator[Any]:
    """What the names of a code may stand for: functions, functions of modules, a case's own."""
    modules = []
    for name in code.co_names:
        found = scope.get(name)
        if isinstance(found, ModuleType):
            modules.append(found)
        elif found is not None:
            yield found
    for name in code.co_names:
        yield from (vars(module)[name] for module in modules if name in vars(module))
        if name in vars(Case):
            yield vars(Case)[name]
