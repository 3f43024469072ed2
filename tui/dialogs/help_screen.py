"""Help for the screen underneath: its keys, made from the bindings that work there now."""

from collections.abc import Sequence
from typing import ClassVar, TypeVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical, VerticalScroll
from textual.screen import ModalScreen, Screen

from tui.widgets.safe import Line

Result = TypeVar("Result")

_KEYS = {
    "escape": "Esc",
    "enter": "Enter",
    "space": "Space",
    "slash": "/",
    "question_mark": "?",
    "f1": "F1",
    "tab": "Tab",
    "up": "↑",
    "down": "↓",
    "left": "←",
    "right": "→",
    "plus": "+",
    "equals_sign": "=",
    "minus": "−",
}
_INNER = ("app.", "screen.copy", "screen.focus", "screen.minimize", "screen.maximize")


def say_key(key: str) -> str:
    """Return a key as people call it: “Ctrl+S”, “Esc”, “/”."""
    parts = key.split("+")
    last = _KEYS.get(parts[-1], parts[-1].upper() if len(parts) > 1 else parts[-1])
    return "+".join([*(part.capitalize() for part in parts[:-1]), last])


def keys_of(screen: Screen[Result]) -> list[tuple[str, str]]:
    """Return the keys that work on a screen now, each with what it does, keys of one deed together.

    Left out are the keys that move within a widget: they have no place in the footer and no name of ours.
    """
    deeds: dict[str, list[str]] = {}
    for active in screen.active_bindings.values():
        binding = active.binding
        ours = binding.show or binding.id
        if ours and binding.description and active.enabled and not binding.action.startswith(_INNER):
            keys = deeds.setdefault(binding.tooltip or binding.description, [])
            if say_key(binding.key) not in keys:
                keys.append(say_key(binding.key))
    return [(", ".join(keys[:4]), words) for words, keys in deeds.items()]


class HelpScreen(ModalScreen[None]):
    """Shows keys with what they do, and a few sentences above them."""

    DEFAULT_CSS = """
    HelpScreen { align: center middle; }
    HelpScreen > Vertical { width: 72; max-width: 100%; height: auto; max-height: 100%; padding: 0 1;
                            background: $surface; border: round $border; }
    HelpScreen .help--title { text-style: bold; color: $text-accent; margin: 0 0 1 0; }
    HelpScreen VerticalScroll { height: auto; }
    HelpScreen .help--words { margin: 0 0 1 0; }
    HelpScreen .help--end { color: $text-muted; margin: 1 0 0 0; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [Binding("escape,f1,question_mark,enter,q", "close", "Close")]

    def __init__(self, title: str, keys: Sequence[tuple[str, str]], words: Sequence[str] = ()) -> None:
        super().__init__()
        self._title, self._keys, self._words = title, tuple(keys), tuple(words)

    def compose(self) -> ComposeResult:
        wide = max((len(key) for key, _ in self._keys), default=0)
        with Vertical():
            yield Line(f"Help: {self._title}", classes="help--title")
            with VerticalScroll():
                for words in self._words:
                    yield Line(words, classes="help--words")
                yield Line("\n".join(f"{key:<{wide}}  {does}" for key, does in self._keys))
            yield Line("Esc closes this.", classes="help--end")

    def on_mount(self) -> None:
        self.query_one(VerticalScroll).focus()

    def on_resize(self) -> None:
        self.query_one(VerticalScroll).styles.max_height = max(self.size.height - 6, 2)

    def action_close(self) -> None:
        self.dismiss(None)


def help_for(screen: Screen[Result], title: str, words: Sequence[str] = ()) -> HelpScreen:
    """Return the help for a screen, with the keys that work there now."""
    return HelpScreen(title, keys_of(screen), words)
