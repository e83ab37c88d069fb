"""The entry point of `haulm`: from first to last, a command that is stopped is quiet.

Ctrl-C leaves with 130. What the system sends to end a program ends it, as it would any other, once
whatever was half written is taken away.
"""

import signal
import sys
from types import FrameType

INTERRUPTED = 130
_STOPPING = ("SIGTERM", "SIGHUP")


class Stopped(BaseException):
    """The system asks this process to end; `number` is the signal's."""

    def __init__(self, number: int):
        """Carries the number of a signal."""
        super().__init__(number)
        self.number = number


def main() -> None:
    """Runs a command and leaves with its exit status, or by the signal that stopped it."""
    try:
        _heed_signals()
        # named only here, since Ctrl-C may come while it is loaded
        from journal.cli.main import main as run

        run()
    except KeyboardInterrupt:
        sys.exit(INTERRUPTED)
    except Stopped as stopped:
        _leave_by(stopped.number)
    finally:
        # libraries that are taken down tell of an interruption with a traceback
        signal.signal(signal.SIGINT, signal.SIG_DFL)


def _heed_signals() -> None:
    """Makes `Stopped` of the signals that end a program, save those that a parent had ignored."""
    for name in _STOPPING:
        number = getattr(signal, name, None)
        if number is not None and signal.getsignal(number) is signal.SIG_DFL:
            signal.signal(number, _stop)


def _stop(number: int, frame: FrameType | None) -> None:
    # a second one ends the process at once
    signal.signal(number, signal.SIG_DFL)
    raise Stopped(number)


def _leave_by(number: int) -> None:
    """Ends as the signal would have, so that whoever sent it sees that it did."""
    signal.signal(number, signal.SIG_DFL)
    signal.raise_signal(number)
    sys.exit(128 + number)
