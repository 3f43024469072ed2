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


async def wait_until_quiet(_min_seconds: float = 0, most_seconds: float = 3) -> None:
    """Wait until nothing is ready to run and no timer is due soon; at most ``most_seconds``.

    Threads are not waited for: a search may go on while keys are answered. Who needs a thread's answer waits until it
    is shown (`until` in lay_window).
    """
    loop = asyncio.get_running_loop()
    end = loop.time() + most_seconds
    quiet_turns = 0
    while quiet_turns < _TURNS_IN_A_ROW and loop.time() < end:
        await _one_turn(loop)
        soon = _due_soon(loop)
        if cast(Any, loop)._ready:
            quiet_turns = 0
        elif soon is not None:
            quiet_turns = 0
            await _until(loop, soon)
        else:
            quiet_turns += 1


async def _one_turn(loop: asyncio.AbstractEventLoop) -> None:
    turned = loop.create_future()
    loop.call_soon(turned.set_result, None)
    await turned


async def _until(loop: asyncio.AbstractEventLoop, when: float) -> None:
    struck = loop.create_future()
    loop.call_at(when, struck.set_result, None)
    await struck


def _due_soon(loop: asyncio.AbstractEventLoop) -> float | None:
    """The moment of the next timer that is due soon, on the loop's clock."""
    soon = loop.time() + SOON_SECONDS
    timers = (timer for timer in cast(Any, loop)._scheduled if not timer.cancelled())
    return min((timer.when() for timer in timers if timer.when() < soon), default=None)
