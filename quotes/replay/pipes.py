"""Messages between a process and its own children: a length, then the pickled value.

Both ends are this program, on one machine, over pipes nobody else holds; nothing from outside
comes this way.
"""

from __future__ import annotations

import pickle
from io import RawIOBase
from typing import IO, Any

_HEAD = 4
Pipe = IO[bytes] | RawIOBase


def send(pipe: Pipe, value: Any) -> None:
    """Write one message whole. OSError where nobody reads any more."""
    body = pickle.dumps(value, pickle.HIGHEST_PROTOCOL)
    left = memoryview(len(body).to_bytes(_HEAD, "big") + body)
    while left:
        left = left[pipe.write(left) or 0 :]


def receive(pipe: Pipe) -> Any:
    """Read one message. EOFError where the other end is gone."""
    size = int.from_bytes(_exactly(pipe, _HEAD), "big")
    return pickle.loads(_exactly(pipe, size))  # noqa: S301  our own child


def _exactly(pipe: Pipe, size: int) -> bytes:
    parts: list[bytes] = []
    while size:
        part = pipe.read(size)
        if not part:
            raise EOFError
        parts.append(part)
        size -= len(part)
    return b"".join(parts)
