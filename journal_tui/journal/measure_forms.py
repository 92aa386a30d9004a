"""What a check asks for, as fields of text, and reading them: options, screens and saved measures alike.

Every value is kept as it was typed; a field may hold several values, one to a line or parted by ``;``.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line
from journal_tui.measures.checks import Check, Verdict
from journal_tui.measures.fields import Field as TileField
from journal_tui.measures.fields import Rect, floor_field, wall_field
from journal_tui.measures.layers import Layer
from journal_tui.measures.lengths import parse_length, parse_signed
from journal_tui.measures.rooms import Opening, Room, rectangle, walk

Values = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Ask:
    """One field: its name, what to write, what is taken when nothing is, and the choices if it has them."""

    name: str
    hint: str
    default: str = ""
    many: bool = False
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Answer:
    """What a form works out to: checks, further lines (such as a cut list), and the same as plain data.

    ``draws`` gives a drawing in characters for a width in columns; ``svg`` is the same as SVG 1.1.
    """

    checks: tuple[Check, ...] = ()
    lines: tuple[str, ...] = ()
    data: dict[str, Any] = field(default_factory=dict)
    draws: Callable[[int], str] | None = None
    svg: str = ""

    @property
    def verdict(self) -> Verdict | None:
        """The worst verdict of the checks, None where nothing was judged."""
        found = [check.verdict for check in self.checks]
        for verdict in (Verdict.SHORT, Verdict.CANNOT_TELL, Verdict.PASSES):
            if verdict in found:
                return verdict
        return None

    def text(self, width: int = 76) -> list[str]:
        """Return everything as lines, a blank one between parts; the drawing, ``width`` wide, last."""
        parts = [check.lines() for check in self.checks]
        if self.lines:
            parts.append(list(self.lines))
        if self.draws:
            parts.append(self.draws(width).splitlines())
        return [line for n, part in enumerate(parts) for line in ([""] if n else []) + part]


@dataclass(frozen=True, slots=True)
class Form:
    """A check as it is asked: name, what it answers, its fields, and the function that answers it."""

    name: str
    summary: str
    asks: tuple[Ask, ...]
    answer: Callable[[Values], Answer]


def said(values: Values, ask: str) -> str:
    """Return what was typed for a field, trimmed; empty when nothing was."""
    return values.get(ask, "").strip()


def several(values: Values, ask: str) -> list[str]:
    """Return the values of a field that may hold several."""
    return [part.strip() for part in re.split(r"[;\n]", values.get(ask, "")) if part.strip()]


def needed(values: Values, ask: str, like: str) -> str:
    """Return what was typed. Raises `BadInput` naming the field and what it looks like."""
    text = said(values, ask)
    if not text:
        raise BadInput(f"{ask} is missing", f"Such as {like}.")
    return text


def length(values: Values, ask: str, like: str, bare: str | None = "in") -> Fraction:
    """Return a length that must be given, in inches."""
    return parse_length(needed(values, ask, like), ask, bare=bare)


def number(values: Values, ask: str, low: float, high: float) -> float:
    """Return a number from ``low`` to ``high``. Raises `BadInput` naming the field and the range."""
    text = said(values, ask)
    try:
        found = float(text)
    except ValueError:
        found = math.nan
    if not low <= found <= high:
        raise BadInput(f"{ask}: {one_line(text) or 'nothing given'}", f"A number from {low:g} to {high:g}.")
    return found


def share(values: Values, ask: str) -> float:
    """Return a percentage as a share: ``10`` or ``10%`` is 0.1."""
    text = said(values, ask).removesuffix("%").strip()
    return number({ask: text}, ask, 0, 100) / 100


def choice(values: Values, ask: str, options: tuple[str, ...]) -> str:
    """Return the option named, whole or by its beginning. Raises `BadInput` listing them."""
    text = folded(said(values, ask))
    found = [o for o in options if o == text] or [o for o in options if text and o.startswith(text)]
    if len(found) != 1:
        raise BadInput(f"{ask}: {one_line(text) or 'nothing given'}", f"Accepted: {', '.join(options)}.")
    return found[0]


def fraction(values: Values, ask: str) -> Fraction:
    """Return a share written like 1/3 or 0.5."""
    try:
        return Fraction(said(values, ask))
    except (ValueError, ZeroDivisionError):
        raise BadInput(f"{ask}: {one_line(said(values, ask))}", "A share such as 1/2 or 1/3.") from None


def sizes(text: str, ask: str, count: tuple[int, ...], bare: str | None = "in") -> list[Fraction]:
    """Return sizes parted by ``x``: ``60x30x20`` or ``8-0 x 5-0``."""
    parts = re.split(r"\s*[x×]\s*", text.strip().lower())
    if len(parts) not in count:
        like = " or ".join("x".join(["12"] * n) for n in count)
        raise BadInput(f"{ask}: {one_line(text)}", f"Write sizes parted by x, such as {like}.")
    return [parse_length(part, ask, bare=bare) for part in parts]


def layers(values: Values, ask: str) -> tuple[Layer, ...]:
    """Return layers written like ``19/32 plywood``."""
    out = []
    for text in several(values, ask):
        found = re.fullmatch(r"(.*\d(?:\s*(?:in|mm|\"))?)\s+([a-z].*)", text, re.IGNORECASE)
        if not found:
            raise BadInput(f"{ask}: {one_line(text)}", "Write a thickness and a material: 19/32 plywood.")
        out.append(Layer(found[2].strip(), parse_length(found[1], ask, bare="in")))
    return tuple(out)


ROOM_ASKS = (
    Ask("room", "the walls as you walk them: E 8-0, N 5-0, W 8-0, S 5-0; or a kept room by its name"),
    Ask("size", "or width x depth of a plain one: 8-0 x 5-0"),
    Ask("height", "ceiling height", "8-0"),
    Ask("opening", "door, window or niche: door 30x80 wall 4 at 6 sill 0", many=True),
    Ask("hole", "floor not covered, from the lower left: 30x60 at 0, 0", many=True),
)


def room_in(values: Values) -> Room:
    """Return the room a form describes, by its walls or its size."""
    high = parse_length(said(values, "height") or "8-0", "height")
    openings = tuple(_opening(text) for text in several(values, "opening"))
    if text := said(values, "room"):
        return walk("room", text.replace("\n", ","), high, openings)
    if text := said(values, "size"):
        width, depth = sizes(text, "size", (2,), bare=None)
        return rectangle("room", width, depth, high, openings)
    raise BadInput("the room is missing", "Give its walls (room: E 8-0, N 5-0, ...) or its size (8-0 x 5-0).")


def _opening(text: str) -> Opening:
    found = re.fullmatch(
        r"\s*([a-z][\w ]*?)\s+(\S+)\s+wall\s+(\d{1,3})\s+at\s+(.+?)(?:\s+sill\s+(.+?))?\s*",
        text,
        re.IGNORECASE,
    )
    if not found:
        raise BadInput(f"opening: {one_line(text)}", "Write it like: door 30x80 wall 4 at 6 sill 0")
    width, height = sizes(found[2], "opening", (2,))
    start = parse_signed(found[4], "opening, at", bare="in")
    sill = parse_signed(found[5], "opening, sill", bare="in") if found[5] else Fraction(0)
    return Opening(found[1], int(found[3]), start, width, sill, height)


def floor_in(values: Values) -> TileField:
    """Return the floor of the form's room, less its holes, drawn in by its gap."""
    gap = parse_signed(said(values, "gap") or "0", "gap", bare="in")
    if gap < 0:
        raise BadInput("gap", "A gap is zero or more.")
    return floor_field(room_in(values), tuple(_hole(text) for text in several(values, "hole")), gap)


def wall_in(values: Values, room: Room, number: int) -> tuple[TileField, bool]:
    """Return a wall of the room up to the height the form says, and whether that is the ceiling."""
    if not 1 <= number <= len(room.walls):
        raise BadInput(f"wall: {number}", f"This room's walls are numbered 1 to {len(room.walls)}.")
    top = parse_length(said(values, "up-to"), "up-to", bare="in") if said(values, "up-to") else room.height
    return wall_field(room, number, top), top >= room.height


def _hole(text: str) -> Rect:
    found = re.fullmatch(r"\s*(\S+(?:\s*x\s*\S+)?)\s+at\s+([^,]+),\s*(.+?)\s*", text, re.IGNORECASE)
    if not found:
        raise BadInput(f"hole: {one_line(text)}", "Write it like: 30x60 at 0, 0")
    width, depth = sizes(found[1], "hole", (2,))
    left, low = (parse_signed(part, "hole, at", bare="in") for part in (found[2], found[3]))
    return Rect(left, low, left + width, low + depth)
