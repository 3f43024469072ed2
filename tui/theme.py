"""The window's two sets of colours: workshop (dark) and daylight (light), each measured for contrast."""

from textual.theme import Theme

_WORKSHOP = Theme(
    name="workshop",
    dark=True,
    primary="#dfae5c",
    secondary="#8fb7dd",
    accent="#e6b562",
    success="#8cc58a",
    warning="#ef9148",
    error="#f58596",
    foreground="#e8e2d8",
    background="#1b1916",
    surface="#24211d",
    panel="#2f2b25",
    variables={
        "text-muted": "#b9b1a3",
        "text-disabled": "#b0a898",
        "border": "#dfae5c",
        "border-blurred": "#857b6c",
        "scrollbar": "#857b6c",
        "scrollbar-hover": "#b9b1a3",
        "scrollbar-active": "#e6b562",
        "scrollbar-background": "#24211d",
        "scrollbar-background-hover": "#24211d",
        "scrollbar-background-active": "#24211d",
        "block-cursor-background": "#e6b562",
        "block-cursor-foreground": "#1b1916",
        "block-cursor-blurred-background": "#4a4234",
        "block-cursor-blurred-foreground": "#f3ede2",
        "button-color-foreground": "#1b1916",
        "footer-key-foreground": "#e6b562",
        "footer-description-foreground": "#e8e2d8",
        "footer-background": "#2f2b25",
        "input-selection-background": "#5c4a2c",
        "text-success": "#8cc58a",
        "text-warning": "#ef9148",
        "text-error": "#f58596",
        "text-primary": "#e6b562",
        "text-secondary": "#8fb7dd",
        "text-accent": "#e6b562",
    },
)

_DAYLIGHT = Theme(
    name="daylight",
    dark=False,
    primary="#6b4c00",
    secondary="#1d5488",
    accent="#6b4c00",
    success="#1f6428",
    warning="#a84300",
    error="#a3123f",
    foreground="#24211d",
    background="#f7f3ea",
    surface="#fffdf8",
    panel="#ece5d6",
    variables={
        "text-muted": "#575044",
        "text-disabled": "#655d50",
        "border": "#6b4c00",
        "border-blurred": "#8a806f",
        "scrollbar": "#8a806f",
        "scrollbar-hover": "#575044",
        "scrollbar-active": "#6b4c00",
        "scrollbar-background": "#fffdf8",
        "scrollbar-background-hover": "#fffdf8",
        "scrollbar-background-active": "#fffdf8",
        "block-cursor-background": "#6b4c00",
        "block-cursor-foreground": "#fffdf8",
        "block-cursor-blurred-background": "#dfd3bb",
        "block-cursor-blurred-foreground": "#24211d",
        "button-color-foreground": "#fffdf8",
        "footer-key-foreground": "#6b4c00",
        "footer-description-foreground": "#24211d",
        "footer-background": "#ece5d6",
        "input-selection-background": "#f0d9a8",
        "text-success": "#1f6428",
        "text-warning": "#a84300",
        "text-error": "#a3123f",
        "text-primary": "#6b4c00",
        "text-secondary": "#1d5488",
        "text-accent": "#6b4c00",
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
