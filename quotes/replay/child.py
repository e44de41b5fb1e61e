"""A process that judges what its parent sends, until the parent is gone or silent for long.

``python -m quotes.replay.child``: it knows no database and no settings. When the parent dies, its
pipe ends, and so does the child.
"""

from __future__ import annotations

import select
import signal
import sys
from contextlib import suppress
from io import FileIO

from quotes.replay.judging import Judge
from quotes.replay.pipes import receive, send

IDLE_SECONDS = 60.0


def main() -> None:
    """Judge batch after batch. A `Task` sets the limits for the batches after it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent decides when it is over
    reads, writes = FileIO(0, "rb", closefd=False), FileIO(1, "wb", closefd=False)
    sys.stdout = sys.stderr  # nothing but answers goes into the pipe
    judge: Judge | None = None
    with suppress(EOFError, OSError):
        while select.select([reads], [], [], IDLE_SECONDS)[0]:
            kind, told = receive(reads)
            if kind == "task":
                judge = Judge(told)
            elif judge is not None:
                send(writes, judge.many(told))


if __name__ == "__main__":
    main()
