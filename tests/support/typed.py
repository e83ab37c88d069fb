"""A run of `haulm` on a pseudo-terminal: type to it, and wait for what it says."""

import os
import select
import subprocess
import sys
import time
from importlib.util import find_spec
from types import TracebackType

import pytest

# long enough for a machine that is busy with other things; nothing waits for it to pass
_PATIENCE = 300.0
_AGAIN = 5.0

needs_a_terminal = pytest.mark.skipif(
    find_spec("pty") is None or find_spec("readline") is None,
    reason="this system has no pseudo-terminals or no readline",
)


class Typed:
    """The program with a keyboard and a screen; leaving the block ends it."""

    def __init__(self, *words: str) -> None:
        import pty

        self.said = ""
        self._seen = 0
        self._screen, inside = pty.openpty()
        self._run = subprocess.Popen(
            [sys.executable, "-m", "journal", *words],
            stdin=inside, stdout=inside, stderr=inside, start_new_session=True,
            preexec_fn=_take_terminal,
        )  # fmt: skip
        os.close(inside)

    def __enter__(self) -> "Typed":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        if self._run.poll() is None:
            self._run.kill()
        self._run.wait()
        os.close(self._screen)

    def type(self, keys: str) -> None:
        """Types keys, Ctrl-C as `\\x03`."""
        os.write(self._screen, keys.encode())

    def wait_for(self, words: str) -> None:
        """Reads on until the words stand after what was waited for before."""
        ends = time.monotonic() + _PATIENCE
        while words not in self.said[self._seen :]:
            assert time.monotonic() < ends, f"waited for {words!r}, saw {self.said!r}"
            if not self._read(ends):
                raise AssertionError(f"it left before {words!r}; saw {self.said!r}")
        self._seen = self.said.index(words, self._seen) + len(words)

    def interrupt_until(self, words: str) -> None:
        """Ctrl-C until the words stand there: one that comes while a key is handled is not heard
        before the next key.
        """
        ends = time.monotonic() + _PATIENCE
        while words not in self.said[self._seen :]:
            assert time.monotonic() < ends, f"waited for {words!r}, saw {self.said!r}"
            self.type("\x03")
            again = time.monotonic() + _AGAIN
            while words not in self.said[self._seen :] and self._read(again):
                pass
        self._seen = self.said.index(words, self._seen) + len(words)

    def status(self) -> int:
        """Reads to the end; the exit status."""
        ends = time.monotonic() + _PATIENCE
        while self._read(ends):
            pass
        return self._run.wait(_PATIENCE)

    def _read(self, ends: float) -> bool:
        """Whether there was more to read before the patience ends."""
        ready, _, _ = select.select([self._screen], [], [], max(0.0, ends - time.monotonic()))
        try:
            more = os.read(self._screen, 4096) if ready else b""
        except OSError:
            # Linux says so when the other side of a terminal is closed
            more = b""
        self.said += more.decode(errors="replace")
        return bool(more)


def _take_terminal() -> None:
    """Makes the terminal the run's own, so that Ctrl-C reaches it as a signal."""
    import fcntl
    import signal
    import termios

    # tests that run in the background are deaf to Ctrl-C, and what they start would be too
    signal.signal(signal.SIGINT, signal.SIG_DFL)

    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
