"""Colours: contrast by the published formula, only through variables, and meaning without them."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from textual.color import Color

import journal_tui.screens
from journal_tui.journal.opening import Journal
from journal_tui.screens.theme import DAYLIGHT, LAMPLIGHT, TEXT_COLOURS, TEXT_PAIRS, THEMES
from tests.screens.seeing import app_on, lines_of
from tests.screens.walks import walked_job

_SCREENS = Path(journal_tui.screens.__file__).parent


def relative_luminance(colour: str) -> float:
    """Return the relative luminance of an sRGB colour ``#rrggbb``.

    W3C WCAG 2.1, definition of relative luminance (https://www.w3.org/TR/WCAG21/#dfn-relative-luminance).
    """

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.03928 else float(((share + 0.055) / 1.055) ** 2.4)

    red, green, blue = (linear(int(colour[at : at + 2], 16)) for at in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours: W3C WCAG 2.1, definition of contrast ratio."""
    light, dark = sorted((relative_luminance(one), relative_luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_ends_of_its_published_range() -> None:
    # WCAG 2.1: "Contrast ratios can range from 1 to 21".
    assert contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert contrast("#767676", "#767676") == 1.0
    # #767676 on white is the grey usually named as the last to pass 4.5:1 (from memory).
    assert contrast("#767676", "#ffffff") >= 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("theme", [LAMPLIGHT, DAYLIGHT], ids=lambda t: t.name)
def test_every_text_pair_has_the_contrast_of_wcag_1_4_3(theme: object) -> None:
    colours = THEMES[getattr(theme, "name", "")].variables
    # W3C WCAG 2.1, success criterion 1.4.3 Contrast (Minimum), level AA: at least 4.5:1.
    short = {
        (text, ground): round(contrast(colours[text], colours[ground]), 2)
        for text, ground in TEXT_PAIRS
        if contrast(colours[text], colours[ground]) < 4.5
    }
    assert short == {}


def test_a_tick_can_be_told_from_its_ground() -> None:
    for theme in THEMES.values():
        # WCAG 2.1, success criterion 1.4.11 Non-text Contrast (AA), asks 3:1 of graphics that are needed to
        # understand the content; tick lengths are.
        assert contrast(theme.variables["tick"], theme.variables["paper"]) >= 3.0, theme.name


def _sources() -> list[Path]:
    return [path for path in _SCREENS.glob("*.py") if path.name != "theme.py"]


def test_screens_name_colours_only_by_our_variables() -> None:
    ours = {*TEXT_COLOURS, "paper", "bench", "chosen", "tick", "joint"}
    named = re.compile(r"\$([a-z][a-z-]*)")
    literal = re.compile(r"#[0-9a-fA-F]{6}\b|\brgb\(|\bansi_")
    for path in _sources():
        source = path.read_text(encoding="utf-8")
        assert set(named.findall(source)) <= ours, path.name
        assert not literal.search(source), path.name


def test_both_themes_define_the_same_names() -> None:
    assert LAMPLIGHT.variables.keys() == DAYLIGHT.variables.keys()
    for theme in THEMES.values():
        assert all(Color.parse(theme.variables[name]) for name in TEXT_COLOURS)


async def test_f3_changes_the_light_and_the_choice_is_kept(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test() as pilot:
        assert app.theme == "lamplight"
        await pilot.press("f3")
        assert app.theme == "daylight"
        assert set(app.available_themes) == {"lamplight", "daylight"}
    app.autosave.close()
    assert app_on(journal).theme == "daylight"


async def test_without_colour_the_same_words_say_everything(
    journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    job, _visit = walked_job(journal, 6)
    coloured = app_on(journal, job.id)
    async with coloured.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        with_colour = lines_of(coloured)
    monkeypatch.setenv("NO_COLOR", "1")
    plain = app_on(journal, job.id)
    async with plain.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        assert plain.no_color
        assert lines_of(plain) == with_colour
        # What is selected is marked, and what waits is said.
        assert any(line.startswith("▸") for line in with_colour)
        assert any("6 to review" in line for line in with_colour)
