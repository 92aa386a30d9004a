"""The crew sheet as Markdown: read back by a CommonMark parser, user text literal, everything on it."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest
from markdown_it import MarkdownIt

from journal_tui.documents.crew_sheet import crew_sheet_markdown
from journal_tui.domain.crew_sheet import CrewLine, CrewPicture, CrewSheet
from journal_tui.domain.kinds import Audience
from journal_tui.domain.reading import CrewText, for_crew


def crew(text: str) -> CrewText:
    found = for_crew(text, Audience.CREW, {})
    assert found is not None
    return found


def line(text: str, phase: str = "tile", **more: object) -> CrewLine:
    made = CrewLine(phase, crew("tub wall"), crew(text), dt.time(8), dt.time(10, 30), 2)
    return replace(made, **more)  # type: ignore[arg-type]


def sheet(*lines: CrewLine) -> CrewSheet:
    return CrewSheet(
        crew("Elm hall bath"),
        crew("12 Elm"),
        dt.date(2026, 3, 12),
        dt.time(8),
        dt.time(16),
        2,
        lines,
        (crew("thin-set"),),
        ("wet saw",),
        ("Silica: cut wet.",),
        (crew("corners (tub wall)"),),
        (crew("rough inspection: inspection, not booked, no pass recorded"),),
    )


def test_everything_is_on_it_under_its_heading() -> None:
    text = crew_sheet_markdown(
        sheet(
            line("set tile", left_hours=4.0, then="then 24 h by the clock (label)"), line("hang rod", "trim")
        )
    )
    headings = [
        t.content for t in MarkdownIt("commonmark").parse(text) if t.type == "inline" and t.level == 1
    ]
    assert [
        h for h in headings if h in ("Tile", "Trim", "Load", "Tools", "Take care", "Do not pass yet")
    ] == [
        "Tile",
        "Trim",
        "Do not pass yet",
        "Load",
        "Tools",
        "Take care",
    ]
    assert "Thursday, March 12, 2026, 8:00 to 16:00, 2 people." in text
    assert "8:00 to 10:30, 2 at once; 4 crew-hours stay for another day; then 24 h by the clock" in text
    assert text.endswith("\n") and not text.endswith("\n\n")


@pytest.mark.parametrize(
    "nasty", ["# not a heading", "[x](javascript:1)", "<script>", "*a* _b_ `c`", "1. one"]
)
def test_what_people_wrote_is_literal(nasty: str) -> None:
    html = MarkdownIt("commonmark").render(crew_sheet_markdown(sheet(line(nasty))))
    assert "<script>" not in html
    assert "<a " not in html
    assert "<em>" not in html and "<code>" not in html
    assert html.count("<h1>") == 1
    assert "<ol>" not in html


def test_an_empty_visit_says_so() -> None:
    assert "Nothing is ready for this visit." in crew_sheet_markdown(sheet())


def test_a_line_says_which_pictures_show_it_and_they_stand_at_the_end() -> None:
    long = "new supply " * 12
    made = replace(
        sheet(line("strap the supply", pictures=(1,)), line("set tile", pictures=(2, 3))),
        pictures=tuple(
            CrewPicture(f"{n}" * 64, crew("tub [wall]"), crew(text))
            for n, text in enumerate(("strap ![x](y.jpg)", "set tile", long))
        ),
        more_pictures=1,
    )
    text = crew_sheet_markdown(made)
    assert "(8:00 to 10:30, 2 at once; picture 1)" in text
    assert "; pictures 2, 3)" in text
    assert "![tub \\[wall\\]: strap !\\[x\\](y.jpg)](stills/0000000000000000.jpg)" in text
    assert text.endswith("\n\n1 more picture is in the journal.\n")
    # CommonMark 0.31.2 section 5.3: one ordered list of three, each with its picture inside.
    html = MarkdownIt("commonmark").render(text)
    assert html.count("<ol>") == 1 and html.count("<img ") == 3
    assert "…" in html and long not in html
