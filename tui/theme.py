"""The window's two sets of colours: workshop (dark) and daylight (light), each measured for contrast."""

from textual.theme import Theme

_WORKSHOP = Theme(
    name="workshop",
    dark=True,
    primary="#d9a35b",
    secondary="#8fb7dd",
    accent="#e3ad63",
    success="#8cc58a",
    warning="#f0a35e",
    error="#f08a80",
    foreground="#e8e2d8",
    background="#1b1916",
    surface="#24211d",
    panel="#2f2b25",
    variables={
        "text-muted": "#b9b1a3",
        "text-disabled": "#a39b8e",
        "border": "#d9a35b",
        "border-blurred": "#857b6c",
        "block-cursor-background": "#e3ad63",
        "block-cursor-foreground": "#1b1916",
        "block-cursor-blurred-background": "#4a4234",
        "block-cursor-blurred-foreground": "#f3ede2",
        "button-color-foreground": "#1b1916",
        "footer-key-foreground": "#e3ad63",
        "footer-description-foreground": "#e8e2d8",
        "footer-background": "#2f2b25",
        "input-selection-background": "#5c4a2c",
        "text-success": "#8cc58a",
        "text-warning": "#f0a35e",
        "text-error": "#f5a199",
        "text-primary": "#e3ad63",
        "text-secondary": "#8fb7dd",
        "text-accent": "#e3ad63",
    },
)

_DAYLIGHT = Theme(
    name="daylight",
    dark=False,
    primary="#7a4a00",
    secondary="#1d5488",
    accent="#7a4a00",
    success="#1f6428",
    warning="#8a4300",
    error="#a3231c",
    foreground="#24211d",
    background="#f7f3ea",
    surface="#fffdf8",
    panel="#ece5d6",
    variables={
        "text-muted": "#575044",
        "text-disabled": "#655d50",
        "border": "#7a4a00",
        "border-blurred": "#8a806f",
        "block-cursor-background": "#7a4a00",
        "block-cursor-foreground": "#fffdf8",
        "block-cursor-blurred-background": "#dfd3bb",
        "block-cursor-blurred-foreground": "#24211d",
        "button-color-foreground": "#fffdf8",
        "footer-key-foreground": "#7a4a00",
        "footer-description-foreground": "#24211d",
        "footer-background": "#ece5d6",
        "input-selection-background": "#f0d9a8",
        "text-success": "#1f6428",
        "text-warning": "#8a4300",
        "text-error": "#a3231c",
        "text-primary": "#7a4a00",
        "text-secondary": "#1d5488",
        "text-accent": "#7a4a00",
    },
)

THEMES = (_WORKSHOP, _DAYLIGHT)
DARK = _WORKSHOP.name
LIGHT = _DAYLIGHT.name
WITHOUT_COLOUR = "ansi-dark"
"""Textual's theme of the terminal's own colours: the one that writes no colour at all under NO_COLOR."""


def theme_for(no_color: str | None) -> str:
    """Return the theme to start with, given what the environment's NO_COLOR says (no-color.org)."""
    return WITHOUT_COLOUR if no_color else DARK
