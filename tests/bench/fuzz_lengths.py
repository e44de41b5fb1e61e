"""Millions of strings at the reader of lengths: ``python -m tests.bench.fuzz_lengths 10000000``.

Nothing but LengthError may come out, nothing may take long, every suggestion must read, and what
is accepted must be read the same by the second reader of the tests. Not part of the suite, which
runs a small slice of it. ``--seed`` gives the same strings again, on any number of processes.
"""

from __future__ import annotations

import argparse
import math
import random
import sys
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field

from catalog.domain import tape
from catalog.domain.lengths import Length, inches
from catalog.domain.tape import LengthError, Plausible, ReadLength, Unit
from tests.bench.length_texts import a_text
from tests.catalog.domain.second_reader import Refused, second_read

CHUNK = 50_000
LONGEST_S = 0.02  # processor time of one read, a hundred times what the slowest takes
UNITS: tuple[Unit | None, ...] = ("in", "in", "mm", None)
SPANS: tuple[Plausible | None, ...] = (None, (inches(8), inches(240)), (Length(0), inches(3)))


@dataclass
class Found:
    """What a run came to."""

    texts: int = 0
    accepted: int = 0
    slowest: float = 0.0
    faults: list[str] = field(default_factory=list)
    kinds: Counter[str] = field(default_factory=Counter)

    def add(self, other: Found) -> None:
        self.texts += other.texts
        self.accepted += other.accepted
        self.slowest = max(self.slowest, other.slowest)
        self.faults += other.faults
        self.kinds += other.kinds


def fuzz(count: int, seed: int) -> Found:
    """So many strings of one seed."""
    rng, found = random.Random(seed), Found()
    for _ in range(count):
        kind, text = a_text(rng)
        _try(kind, text, rng.choice(UNITS), rng.choice(SPANS), found)
    return found


def _try(kind: str, text: str, unit: Unit | None, span: Plausible | None, found: Found) -> None:
    found.texts += 1
    tape._read.cache_clear()
    start = time.thread_time()
    try:
        read = tape.read_length(text, unit, span)
    except LengthError as error:
        fault = _unkind(error) if found.texts % 20 == 0 else ""
    except Exception as error:  # anything else is what this looks for
        fault = f"{type(error).__name__}: {error}"
    else:
        found.accepted += 1
        found.kinds[kind] += 1
        fault = _disagreement(text, unit, span, read)
    taken = time.thread_time() - start
    found.slowest = max(found.slowest, taken if not fault else 0.0)
    if taken > LONGEST_S * 5:
        fault = fault or f"took {taken:.3f} s"
    if fault:
        found.faults.append(f"{text!r} {unit} {span}: {fault}")


def _unkind(error: LengthError) -> str:
    """A refusal without a sentence, or with a suggestion that does not read."""
    if not error.message or not error.suggestions:
        return "refused without a word"
    try:
        for text in error.suggestions:
            tape.read_length(text)
    except LengthError:
        return f"a suggestion does not read: {error.suggestions}"
    return ""


def _disagreement(text: str, unit: Unit | None, span: Plausible | None, read: ReadLength) -> str:
    try:
        other = second_read(text, unit, span and (span[0].nm, span[1].nm))
    except Refused:
        return f"read as {read}, refused by the second reader"
    mark = read.mark.nm if read.mark else 0
    same = other.nm == read.length.nm and other.mark == mark
    same = same and (other.unit, other.written) == (read.unit, read.unit_written)
    same = same and other.assumed == bool(read.doubts)
    if same and math.isclose(read.extra_u_nm, other.extra, rel_tol=1e-9, abs_tol=1e-6):
        return ""
    return f"read as {read}, by the second reader as {other}"


def chunks(count: int, seed: int) -> Iterator[tuple[int, int]]:
    """How many strings of which seed."""
    for number in range(math.ceil(count / CHUNK)):
        yield min(CHUNK, count - number * CHUNK), seed * 1_000_003 + number


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.bench.fuzz_lengths")
    parser.add_argument("count", type=int)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=2)
    given = parser.parse_args()
    total, start = Found(), time.monotonic()
    print(f"{given.count} strings, seed {given.seed}", flush=True)
    with ProcessPoolExecutor(given.processes) as pool:
        for found in pool.map(fuzz, *zip(*chunks(given.count, given.seed), strict=True)):
            for fault in found.faults[:20]:
                print(fault, flush=True)
            total.add(found)
            if total.texts % (20 * CHUNK) == 0:
                _tell(total, time.monotonic() - start)
    _tell(total, time.monotonic() - start)
    print("accepted by kind:", dict(total.kinds.most_common()))
    sys.exit(bool(total.faults))


def _tell(total: Found, seconds: float) -> None:
    share = 100 * total.accepted / max(total.texts, 1)
    print(
        f"{total.texts} strings in {seconds:.0f} s: {len(total.faults)} faults,"
        f" {total.accepted} accepted ({share:.0f} %), slowest {total.slowest * 1000:.1f} ms",
        flush=True,
    )


if __name__ == "__main__":
    main()
