"""The reader of command lines: its complaints repeat what was typed, but never so that it steers the terminal."""

import argparse
from typing import NoReturn


class CommandParser(argparse.ArgumentParser):
    """Reads options as ``argparse`` does; sub-commands made from it are read alike."""

    def error(self, message: str) -> NoReturn:
        """Say what was used wrongly and leave with status 2."""
        from tui.words.wording import clean  # noqa: PLC0415 - only a complaint needs words

        super().error(clean(message))
