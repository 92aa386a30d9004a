"""The course: the phases of a job as a course of tiles, each filled as its items close."""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from journal_tui.journal.course import PhaseCount
from journal_tui.screens.lines import Piece, brief, cut, pieces

_JOINT = "│"
_LEAST_NAME = 4
_WHOLE = "all"


class Course(Widget):
    """A tile for each phase: its name and open count above, and how much of it is closed below.

    One tile (``chosen``) may be picked out; None stands for the whole job. In a narrow place the course
    becomes a single word and count. Screens walk it with ``step`` on left and right.
    """

    HELP = (
        "The phases in the order the work goes, with how many items are open in each; a tile fills as its "
        "items close. Left and right pick a phase, and the list shows only that one."
    )
    DEFAULT_CSS = "Course { height: 2; padding: 0 1; background: $paper; color: $ink; }"
    ALLOW_SELECT = False

    class Walked(Message):
        """Another phase was picked; None is the whole job."""

        def __init__(self, phase: str | None) -> None:
            super().__init__()
            self.phase = phase

    def __init__(self, *, id: str | None = None) -> None:
        super().__init__(id=id)
        self._phases: list[PhaseCount] = []
        self._spans: list[tuple[int, int, str | None]] = []
        self.chosen: str | None = None

    def show(self, phases: Sequence[PhaseCount]) -> None:
        """Show these counts; the picked phase stays picked while it is among them."""
        self._phases = list(phases)
        if self.chosen not in [p.phase for p in phases]:
            self.chosen = None
        self.refresh()

    @property
    def open_count(self) -> int:
        """How many items are open in what is picked."""
        return sum(p.open for p in self._phases if self.chosen in (None, p.phase))

    def step(self, by: int) -> None:
        """Walk by one tile; before the first stands the whole job."""
        stops: list[str | None] = [None, *(p.phase for p in self._phases)]
        at = stops.index(self.chosen) if self.chosen in stops else 0
        self.pick(stops[max(0, min(len(stops) - 1, at + by))])

    def pick(self, phase: str | None) -> None:
        """Pick a phase, None for the whole job, and tell the screen when that is another one."""
        if phase != self.chosen:
            self.chosen = phase
            self.refresh()
            self.post_message(self.Walked(phase))

    def on_click(self, event: events.Click) -> None:
        offset = event.get_content_offset(self)
        if offset is not None:
            for start, end, phase in self._spans:
                if start <= offset.x < end:
                    self.pick(None if phase == self.chosen else phase)

    # Drawing -----------------------------------------------------------------------------------

    def render(self) -> Content:
        width = self.size.width
        total = sum(p.open for p in self._phases)
        tiles: list[tuple[str | None, str, int, float]] = [(None, _WHOLE, total, self._share())]
        tiles += [(p.phase, brief(p.phase), p.open, p.share_closed) for p in self._phases]
        widths = _tile_widths([(name, _count(count, share)) for _phase, name, count, share in tiles], width)
        if widths is None:
            return self._single_word(width)
        above: list[Piece] = []
        below: list[Piece] = []
        self._spans = []
        at = 0
        for (phase, name, count, share), tile in zip(tiles, widths, strict=True):
            if above:
                above.append((_JOINT, "$tick"))
                below.append((_JOINT, "$tick"))
                at += 1
            self._spans.append((at, at + tile, phase))
            at += tile
            above += self._label(phase, name, _count(count, share), tile)
            full = round(share * tile)
            below += [("▓" * full, "$chose"), ("░" * (tile - full), "$tick")]
        return pieces(*above, ("\n", ""), *below)

    def _label(self, phase: str | None, name: str, count: str, tile: int) -> list[Piece]:
        shown = cut(name, tile - len(count) - 1)
        rest = " " * (tile - len(count) - 1 - cell_len(shown))
        if phase == self.chosen:
            # The whole job is where one stands anyway; only a phase picked out is set in reverse.
            return [(f"▸{shown}{count}{rest}", "bold $paper on $mark" if phase else "bold $mark")]
        owed = count.strip() not in ("", "0")
        number = (f"{count}{rest}", "bold $owed" if owed else "$faded")
        return [(f" {shown}", "$ink" if owed else "$faded"), number]

    def _share(self) -> float:
        closed = sum(p.closed for p in self._phases)
        total = closed + sum(p.open for p in self._phases)
        return closed / total if total else 0.0

    def _single_word(self, width: int) -> Content:
        self._spans = []
        name = brief(self.chosen) if self.chosen else "all phases"
        line = f"‹ {cut(name, max(1, width - 14))}  {self.open_count} open ›"
        return pieces((line, "bold $mark"))


def _count(open_items: int, share_closed: float) -> str:
    """Return the number on a tile; a phase that never had an item shows none."""
    return f" {open_items}" if open_items or share_closed else ""


def _tile_widths(tiles: Sequence[tuple[str, str]], width: int) -> list[int] | None:
    """Return each tile's width in cells, names shortened from the longest down; None when none will do."""
    names = [cell_len(name) for name, _count in tiles]
    fixed = sum(len(count) + 1 for _name, count in tiles) + len(tiles) - 1
    room = width - fixed
    if room < sum(min(n, _LEAST_NAME) for n in names):
        return None
    while sum(names) > room:
        names[names.index(max(names))] -= 1
    spare = room - sum(names)
    extra = [spare // len(tiles) + (1 if i < spare % len(tiles) else 0) for i in range(len(tiles))]
    return [n + len(c) + 1 + min(e, 6) for n, (_name, c), e in zip(names, tiles, extra, strict=True)]
