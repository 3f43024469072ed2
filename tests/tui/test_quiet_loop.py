"""How tests wait for the window: for all that follows from a key, however slowly, and not for what goes on for ever."""

import asyncio

from tests.tui.quiet_loop import SOON_SECONDS, wait_until_quiet


async def test_what_follows_at_once_and_by_a_short_timer_is_waited_for() -> None:
    happened: list[str] = []
    loop = asyncio.get_running_loop()

    def painted() -> None:
        happened.append("painted")

    def laid_out() -> None:
        happened.append("laid out")
        loop.call_later(SOON_SECONDS / 2, painted)

    loop.call_soon(lambda: loop.call_soon(laid_out))
    await wait_until_quiet()
    assert happened == ["laid out", "painted"]


async def test_a_chain_of_many_turns_is_waited_for_to_its_end() -> None:
    turns = 0

    def work() -> None:
        nonlocal turns
        turns += 1
        if turns < 500:
            asyncio.get_running_loop().call_soon(work)

    work()
    await wait_until_quiet()
    assert turns == 500


async def test_a_blinking_cursor_is_not_waited_for() -> None:
    blinked: list[str] = []
    timer = asyncio.get_running_loop().call_later(60, blinked.append, "blink")
    await wait_until_quiet()
    assert not blinked
    timer.cancel()


async def test_a_window_that_never_rests_is_given_up_in_the_end() -> None:
    loop = asyncio.get_running_loop()
    going_on = True

    def again() -> None:
        if going_on:
            loop.call_soon(again)

    again()
    await wait_until_quiet(0, 0.05)
    assert going_on
    going_on = False
