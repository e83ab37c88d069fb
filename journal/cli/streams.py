"""Standard input and output made safe to use: of any encoding, closed, full or left alone."""

import os
import signal
import sys
from errno import EINVAL
from pathlib import Path
from typing import IO, Any

_WINDOWS = os.name == "nt"
_STREAMS = (("stdin", "r"), ("stdout", "w"), ("stderr", "w"))


def prepare_streams() -> None:
    """UTF-8 into files and pipes on every system, and a reader that leaves early leaves quietly.

    A terminal keeps its own encoding; what it cannot show becomes `?` instead of an error. A stream
    that was closed before the start takes everything and gives nothing.
    """
    if hasattr(signal, "SIGPIPE"):
        signal.signal(signal.SIGPIPE, signal.SIG_DFL)
    for name, mode in _STREAMS:
        # in this order each takes the number that is its own, which no file must get
        if getattr(sys, name) is None:
            setattr(sys, name, _nowhere(mode))
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            if stream.isatty():
                stream.reconfigure(errors="replace")
            else:
                stream.reconfigure(encoding="utf-8", errors="replace")


def _nowhere(mode: str) -> IO[Any]:
    return Path(os.devnull).open(mode, encoding="utf-8")


def refusal_of(refused: OSError) -> str:
    """What to say when a stream cannot be written, as a line: nothing where its reader has left.

    Whatever the streams still hold is given up.
    """
    for name in ("stdout", "stderr"):
        try:
            getattr(sys, name).flush()
        except OSError:
            # else the interpreter tries once more at its end, and tells of it
            setattr(sys, name, _nowhere("w"))
    # Windows says that a pipe without a reader is no place to write to
    if isinstance(refused, BrokenPipeError) or (_WINDOWS and refused.errno == EINVAL):
        return ""
    reason = (refused.strerror or str(refused)).lower()
    return f"Error: what is to be printed cannot be written: {reason}\n"
