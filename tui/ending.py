"""Leaves in good order when the terminal is closed or the machine shuts down."""

import asyncio
import contextlib
import signal
from collections.abc import Callable

_ENDING_SIGNALS = [
    getattr(signal, name) for name in ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT") if hasattr(signal, name)
]


def end_on_signals(leave: Callable[[int], None]) -> None:
    """Call ``leave`` with the exit status a shell expects (128 and the signal's number), whichever signal comes."""
    loop = asyncio.get_running_loop()
    # A loop outside the main thread, or on a platform without signals, cannot watch for them.
    with contextlib.suppress(NotImplementedError, RuntimeError, ValueError):
        for number in _ENDING_SIGNALS:
            loop.add_signal_handler(number, leave, 128 + number)
