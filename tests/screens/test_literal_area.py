"""A field of several lines, to the end of its life."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.geometry import Region

from journal_tui.screens.literal_area import LiteralArea


class _Bench(App[None]):
    def compose(self) -> ComposeResult:
        yield LiteralArea("flange low")


async def test_a_field_just_taken_away_draws_as_empty_lines() -> None:
    app = _Bench()
    async with app.run_test() as pilot:
        field = app.query_one(LiteralArea)
        whole = Region(0, 0, 20, 3)
        assert "flange low" in field.render_lines(whole)[1].text
        await field.remove()
        await pilot.pause()
        drawn = field.render_lines(whole)
        assert [line.text for line in drawn] == [" " * 20] * 3
