"""A folder in which everything stands once, and the means to spoil it in one place."""

import copy
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from store.errors import Refused
from store.papers.reading_in import read_folder

LEFT_OUT = "(left out)"


@pytest.fixture
def whole_folder() -> dict[str, Any]:
    text = (Path(__file__).parent / "whole_folder.json").read_text(encoding="utf-8")
    folder: dict[str, Any] = json.loads(text)
    return folder


@pytest.fixture
def spoiled(whole_folder: dict[str, Any]) -> Callable[[str, object], bytes]:
    """Puts a value at a place like ``jobs[0].ref``; the value ``(left out)`` takes the key away."""

    def spoil(place: str, value: object) -> bytes:
        *way, last = [int(step) if step.isdigit() else step for step in re.findall(r"[a-z0-9_]+", place)]
        folder = copy.deepcopy(whole_folder)
        at: Any = folder
        for step in way:
            at = at[step]
        if value == LEFT_OUT:
            del at[last]
        else:
            at[last] = value
        return json.dumps(folder).encode()

    return spoil


@pytest.fixture
def refusal() -> Callable[[bytes], str]:
    """Returns the one sentence with which a file is refused."""

    def read(raw: bytes) -> str:
        with pytest.raises(Refused) as refused:
            read_folder(raw)
        say = str(refused.value)
        assert say.isprintable()
        assert len(say) < 1_000
        assert say.endswith(".")
        return say

    return read
