"""The reader of command lines: its complaints repeat what was typed, but never so that it steers the terminal."""

import argparse
import re
from typing import Any, NoReturn

BELOW_NOUGHT = re.compile(r"-[.,]?\d")


class CommandParser(argparse.ArgumentParser):
    """Reads options as ``argparse`` does; sub-commands made from it are read alike."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self._negative_number_matcher = BELOW_NOUGHT  # argparse's own takes -0,5 for an option, for its comma

    def error(self, message: str) -> NoReturn:
        """Say what was used wrongly and leave with status 2."""
        from tui.words.wording import clean  # noqa: PLC0415 - only a complaint needs words

        super().error(clean(message))
