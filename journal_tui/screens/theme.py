"""Colours: two themes of our own, one for lamplight and one for daylight.

Screens and widgets name colours only by the variables below (``$ink``, ``$soft`` ...), in CSS or in
``Content`` styles, and never say a thing by colour alone. ``TEXT_PAIRS`` lists every pair of text and
ground in use; a test holds each to the contrast of WCAG 2.1, success criterion 1.4.3.
"""

from __future__ import annotations

from textual.theme import Theme

#: Text colours: ``ink`` plain text, ``soft`` what matters less, ``faded`` what is closed, ``mark`` keys and
#: the selected thing, ``chose`` decisions, ``owed`` what is open, ``care`` dangers and faults.
TEXT_COLOURS = ("ink", "soft", "faded", "mark", "chose", "owed", "care")
#: Grounds: ``paper`` under everything, ``bench`` title and typing, ``chosen`` the selected line.
GROUNDS = ("paper", "bench", "chosen")
#: Every (text, ground) in use, and the reversed tile and cursor.
TEXT_PAIRS: tuple[tuple[str, str], ...] = (
    *((text, ground) for text in TEXT_COLOURS for ground in GROUNDS),
    ("paper", "mark"),
    ("paper", "ink"),
)

_LAMP = {
    "paper": "#15191b",
    "bench": "#20272a",
    "chosen": "#2a3841",
    "ink": "#ece7dc",
    "soft": "#b9b6ab",
    "faded": "#9ba19f",
    "mark": "#86bdf0",
    "chose": "#93d1a4",
    "owed": "#ecc06a",
    "care": "#ff9f85",
    "tick": "#5f6b6f",
    "joint": "#3a4549",
}
_DAY = {
    "paper": "#fbf8f1",
    "bench": "#efe9dc",
    "chosen": "#d9e5ee",
    "ink": "#1d2325",
    "soft": "#4a5052",
    "faded": "#575e5f",
    "mark": "#0f4f86",
    "chose": "#1a5a31",
    "owed": "#704300",
    "care": "#962409",
    "tick": "#828884",
    "joint": "#cfc9bb",
}


def _theme(name: str, colours: dict[str, str], *, dark: bool) -> Theme:
    return Theme(
        name=name,
        dark=dark,
        primary=colours["mark"],
        secondary=colours["chose"],
        accent=colours["mark"],
        warning=colours["owed"],
        error=colours["care"],
        success=colours["chose"],
        foreground=colours["ink"],
        background=colours["paper"],
        surface=colours["bench"],
        panel=colours["bench"],
        variables={
            **colours,
            # The variables Textual's own widgets (input line, palette, scroll bars) read.
            "text": colours["ink"],
            "text-muted": colours["soft"],
            "text-disabled": colours["faded"],
            "border": colours["mark"],
            "border-blurred": colours["tick"],
            "scrollbar": colours["tick"],
            "scrollbar-hover": colours["soft"],
            "scrollbar-active": colours["mark"],
            "scrollbar-background": colours["paper"],
            "scrollbar-background-hover": colours["paper"],
            "scrollbar-background-active": colours["paper"],
            "scrollbar-corner-color": colours["paper"],
            "block-cursor-background": colours["chosen"],
            "block-cursor-foreground": colours["ink"],
            "block-cursor-text-style": "bold",
            "block-cursor-blurred-background": colours["chosen"],
            "block-cursor-blurred-foreground": colours["ink"],
            "block-hover-background": colours["bench"],
            "input-cursor-background": colours["ink"],
            "input-cursor-foreground": colours["paper"],
            "input-cursor-text-style": "none",
            "input-selection-background": colours["chosen"],
            "input-selection-foreground": colours["ink"],
        },
    )


LAMPLIGHT = _theme("lamplight", _LAMP, dark=True)
DAYLIGHT = _theme("daylight", _DAY, dark=False)
THEMES = {theme.name: theme for theme in (LAMPLIGHT, DAYLIGHT)}
