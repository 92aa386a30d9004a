"""A field of several lines whose text is shown literally."""

from __future__ import annotations

from rich.text import Text
from textual.geometry import Region
from textual.strip import Strip
from textual.widgets import TextArea

from journal_tui.domain.text import visible


class LiteralArea(TextArea):
    """A field to type several lines in: no control or direction character in its text acts."""

    def get_line(self, line_index: int) -> Text:
        """Return a line as it is drawn, each character that would act as one that does not."""
        line = super().get_line(line_index)
        # Textual writes the text to the terminal as it is, escape sequences and all.
        return Text(visible(line.plain), end="", no_wrap=True)

    def render_lines(self, crop: Region) -> list[Strip]:
        """Return the lines to draw, empty ones once the field has been taken away."""
        # Textual may still draw a field just taken away; without its style sheet its theme fails
        # (KeyError "text-area--gutter", Textual issue 6528).
        if not self.is_attached:
            return [Strip.blank(crop.width) for _ in range(crop.height)]
        return super().render_lines(crop)
