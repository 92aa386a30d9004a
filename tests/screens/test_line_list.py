"""The list of lines: drawn from pages, its place kept, told apart by key."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.content import Content

from journal_tui.screens.line_list import LineList
from journal_tui.screens.lines import Row, cut, fit, marked, spread
from tests.screens.seeing import until


def _row(number: int, *, heading: bool = False) -> Row:
    return Row(
        f"key-{number}", lambda _w: Content(f"line {number}"), f"line {number}", selectable=not heading
    )


class _Listed(App[None]):
    """A list alone, with what it said."""

    def __init__(self, rows: list[Row], *, more: bool = False) -> None:
        super().__init__()
        self._first, self._more = rows, more
        self.opened: list[str] = []
        self.asked = 0

    def get_css_variables(self) -> dict[str, str]:
        from journal_tui.screens.theme import LAMPLIGHT

        return {**super().get_css_variables(), **LAMPLIGHT.variables}

    def compose(self) -> ComposeResult:
        yield LineList()

    def on_mount(self) -> None:
        self.lines.show(self._first, more=self._more)

    @property
    def lines(self) -> LineList:
        return self.query_one(LineList)

    @property
    def key(self) -> str | None:
        return self.lines.selected.key if self.lines.selected else None

    def on_line_list_opened(self, event: LineList.Opened) -> None:
        assert event.row
        self.opened.append(event.row.key)

    def on_line_list_near_end(self) -> None:
        self.asked += 1
        start = len(self.lines.rows)
        self.lines.add([_row(n) for n in range(start, start + 200)], more=start + 200 < 1000)


async def test_keys_move_and_headings_are_stepped_over() -> None:
    app = _Listed([_row(0, heading=True), _row(1), _row(2, heading=True), *(_row(n) for n in range(3, 60))])
    async with app.run_test(size=(40, 10)) as pilot:
        assert app.key == "key-1"
        await pilot.press("down")
        assert app.key == "key-3"
        await pilot.press("up", "up", "up")
        assert app.key == "key-1"
        # The heading above the first line is in sight again.
        assert app.lines.scroll_offset.y == 0
        await pilot.press("end")
        assert app.key == "key-59"
        await pilot.press("home")
        assert app.key == "key-1"
        await pilot.press("pagedown")
        assert app.key == "key-10"
        await pilot.press("pageup", "enter")
        assert app.opened == ["key-1"]


async def test_the_selected_row_stays_when_rows_come_and_go_around_it() -> None:
    app = _Listed([_row(n) for n in range(50)])
    async with app.run_test(size=(40, 10)) as pilot:
        app.lines.select("key-20")
        app.lines.show([_row(n) for n in range(100, 130)] + [_row(n) for n in range(50) if n % 2 == 0])
        await pilot.pause()
        assert app.key == "key-20"
        # When it goes itself, what takes its place is selected.
        app.lines.show([_row(n) for n in range(50) if n != 20])
        assert app.key is not None and app.key != "key-0"
        app.lines.show([])
        assert app.lines.selected is None
        await pilot.press("down", "up", "enter", "pagedown", "end", "home")
        assert app.opened == []


async def test_pages_are_asked_for_near_the_end_once_each() -> None:
    app = _Listed([_row(n) for n in range(200)], more=True)
    async with app.run_test(size=(40, 10)) as pilot:
        assert app.asked == 0
        await pilot.press("end")
        await until(pilot, lambda: app.asked == 1)
        # The page came and the place did not move.
        assert app.key == "key-199"
        for _ in range(5):
            await pilot.press("end")
            await pilot.pause()
        assert app.asked == 4
        assert len(app.lines.rows) == 1000
        assert not app.lines.more


async def test_narrowing_shows_lines_with_every_word_and_widening_all() -> None:
    app = _Listed([_row(0, heading=True), *(_row(n) for n in range(1, 40))])
    async with app.run_test(size=(40, 10)):
        app.lines.select("key-13")
        app.lines.narrow("LINE 3")
        assert [row.key for row in app.lines.rows] == [
            "key-3",
            *(f"key-{n}" for n in range(13, 40) if "3" in str(n)),
        ]
        assert app.key == "key-13"
        app.lines.narrow("no such")
        assert app.lines.selected is None
        app.lines.narrow("")
        assert len(app.lines.rows) == 40


async def test_a_click_selects_and_a_second_one_opens() -> None:
    app = _Listed([_row(n) for n in range(5)])
    async with app.run_test(size=(40, 10)) as pilot:
        await pilot.click(offset=(3, 2))
        assert app.key == "key-2" and app.opened == []
        await pilot.click(offset=(3, 2))
        await pilot.pause()
        assert app.opened == ["key-2"]
        await pilot.click(offset=(3, 8))
        assert app.key == "key-2"


async def test_ten_thousand_rows_draw_only_what_is_seen() -> None:
    drawn: set[str] = set()

    def row(number: int) -> Row:
        def draw(_width: int) -> Content:
            drawn.add(f"key-{number}")
            return Content("x")

        return Row(f"key-{number}", draw)

    app = _Listed([row(n) for n in range(10_000)])
    async with app.run_test(size=(40, 10)) as pilot:
        await pilot.press("end")
        await pilot.pause()
        assert len(drawn) < 60


def test_text_is_fitted_by_the_cells_it_takes() -> None:
    assert fit("abc", 5) == "abc  "
    assert fit("abcdef", 4) == "abc…"
    assert fit("瓦瓦瓦", 4) == "瓦… " or fit("瓦瓦瓦", 4) == "瓦 …"
    assert fit("a\tb\nc", 5) == "a b c"
    assert fit("x", 0) == ""
    assert cut("short", 10) == "short"
    line = spread([("left that is long", "")], [("right", "")], 14)
    assert line.plain == "left th… right"
    assert spread([("left", "")], [("far too long", "")], 8).plain == "left    "


def test_found_words_are_marked_where_they_begin_and_kept_in_sight() -> None:
    assert marked("Tub valve, tubing", "tub", 40, "a", "b") == [
        ("", "a"),
        ("Tub", "b"),
        (" valve, ", "a"),
        ("tub", "b"),
        ("ing", "a"),
    ]
    far = "word " * 30 + "valve at the end"
    shown = "".join(text for text, _style in marked(far, "valve", 30, "a", "b"))
    assert shown.startswith("…") and shown.index("valve") < 30
    assert marked("nothing [/] acts", "*", 40, "a", "b") == [("nothing [/] acts", "a")]
