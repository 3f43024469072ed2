"""Waiting, in tests, until the window has nothing left to do: asked of the event loop, never of the processor's clock.

Textual's pilot calls a window idle when little processor time went by in a few milliseconds. On a busy machine that is
true of any process that was not given a core, so a test could read the screen before the window had painted it. What
the loop still has to run, and which timers are due, does not depend on how busy the machine is.
"""

import asyncio
from typing import Any, cast

# The screen repaints and animates by timers of 1/60 s: one that is due sooner than this is still a part of the answer
# to a key; the blinking cursor (0.5 s) and the looks for changes (seconds) are not.
SOON_SECONDS = 0.025
_TURNS_IN_A_ROW = 3


async def wait_until_quiet(_min_sleep: float = 0, max_sleep: float = 3) -> None:
    """Wait until nothing is ready to run and no timer is due soon; at most max_sleep seconds.

    Threads are not waited for: a search may go on while keys are answered. Who needs a thread's answer waits until it
    is shown (`until` in lay_window).
    """
    loop = asyncio.get_running_loop()
    until = loop.time() + max_sleep
    quiet_turns = 0
    while quiet_turns < _TURNS_IN_A_ROW and loop.time() < until:
        await asyncio.sleep(0)
        if _ready(loop):
            quiet_turns = 0
        elif _due_soon(loop):
            quiet_turns = 0
            await asyncio.sleep(0.001)
        else:
            quiet_turns += 1


def _ready(loop: asyncio.AbstractEventLoop) -> bool:
    return bool(cast(Any, loop)._ready)


def _due_soon(loop: asyncio.AbstractEventLoop) -> bool:
    soon = loop.time() + SOON_SECONDS
    return any(timer.when() < soon and not timer.cancelled() for timer in cast(Any, loop)._scheduled)
