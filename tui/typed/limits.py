"""Reads moisture limits as one types them: “carbide cement heated 1.5: the screed's sheet; hygrometer glued 60: …”."""

import re

from store.trade.jobs import Method, Subfloor
from store.trade.own_limits import OwnLimit
from tui.typed.figures import Misread, read_number, shown, tidy
from tui.words.wording import clean, typed_number

EXAMPLE = "carbide cement heated 1.5: why; hygrometer glued 60: why"
_KINDS = {"carbide": "carbide", "hygrometer": "hygrometer", "probe": "in_situ_probe", "timber": "timber_subfloor"}
_BASES = {
    "cement": Subfloor.CEMENT_SCREED,
    "calcium": Subfloor.CALCIUM_SULPHATE,
    "concrete": Subfloor.CONCRETE,
    "osb": Subfloor.OSB,
    "plywood": Subfloor.PLYWOOD,
    "boards": Subfloor.BOARDS,
}
_HEATED = {"heated": True, "unheated": False}
_METHODS = {method.value: method for method in Method}


def read_limits(text: str) -> tuple[OwnLimit, ...] | Misread:
    """Read limits, parted by semicolons; each has its reading, where it holds, the most in %, and a reason."""
    found: list[OwnLimit] = []
    for part in (one.strip() for one in text.split(";")):
        if part:
            limit = _read_limit(part)
            if isinstance(limit, Misread):
                return limit
            found.append(limit)
    return tuple(found)


def _read_limit(text: str) -> OwnLimit | Misread:
    head, _, because = text.partition(":")
    *words, last = tidy(re.sub(r"\s*%\s*$", "", head.lower())).split() or [""]
    most = read_number(last)
    if isinstance(most, Misread):
        return Misread(say=f"{shown(text)} ends in no figure; write it like {EXAMPLE}.")
    known = {**_KINDS, **_BASES, **_HEATED, **_METHODS}
    strange = next((word for word in words if word not in known), None)
    if strange is not None:
        return Misread(say=f"{shown(strange)} is not known here; write it like {EXAMPLE}.")
    kinds = [_KINDS[word] for word in words if word in _KINDS]
    bases = [_BASES[word] for word in words if word in _BASES]
    heated = [_HEATED[word] for word in words if word in _HEATED]
    methods = [_METHODS[word] for word in words if word in _METHODS]
    if len(kinds) != 1 or max(len(bases), len(heated), len(methods)) > 1:
        return Misread(say=f"{shown(text)} is not one limit; write one for each base, like {EXAMPLE}.")
    return OwnLimit(
        kind=kinds[0],
        most=most,
        subfloor=next(iter(bases), None),
        heated=next(iter(heated), None),
        method=next(iter(methods), None),
        because=clean(because).strip(),
    )


def typed_limits(limits: tuple[OwnLimit, ...]) -> str:
    """Return limits as a field is filled with them."""
    return "; ".join(_typed(one) for one in limits)


def _typed(one: OwnLimit) -> str:
    kind = next(word for word, kind in _KINDS.items() if kind == one.kind)
    base = [word for word, base in _BASES.items() if base is one.subfloor]
    heated = [word for word, heated in _HEATED.items() if heated is one.heated]
    method = [one.method.value] if one.method else []
    because = f": {clean(one.because)}" if one.because else ""
    return f"{' '.join([kind, *base, *heated, *method])} {typed_number(one.most)}{because}"
