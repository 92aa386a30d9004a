"""The HTML page, read by an HTML parser, and the plain text of a message."""

from __future__ import annotations

import re
from xml.etree.ElementTree import Element

import pytest
from hypothesis import given

from journal_tui.documents import html_page, plain_text, update_markdown
from journal_tui.documents.wording import data_text, sentence
from journal_tui.domain.document import UpdateFacts
from journal_tui.domain.text import one_line
from tests.documents.samples import HOSTILE, fact, facts, lines, update_facts
from tests.documents.trees import document

_PAGE_PARTS = {"html", "head", "meta", "title", "style", "body", "main"}
_MARKDOWN_PARTS = {
    *("h1", "h2", "h3", "h4", "h5", "h6", "p", "strong", "em", "ol", "ul", "li", "a", "code", "pre"),
    *("blockquote", "hr", "br"),
}


def _harmless(page: str) -> Element:
    root = document(page)
    for element in root.iter():
        assert isinstance(element.tag, str), "a comment came through"
        assert element.tag in _PAGE_PARTS | _MARKDOWN_PARTS
        for name, value in element.attrib.items():
            assert not name.startswith("on")
            assert name not in ("style", "src", "srcset", "action")
            if name == "href":
                assert re.match(r"(https?|mailto|tel):", value)
    return root


def _title(root: Element) -> str:
    title = root.find("head/title")
    assert title is not None
    return title.text or ""


@given(update_facts, lines)
def test_no_user_text_becomes_markup(some: UpdateFacts, title: str) -> None:
    root = _harmless(html_page(update_markdown(some), title))
    # HTML 13.2.5: a parser turns what XML-like text cannot hold into U+FFFD; nothing else may change.
    assert _title(root).split() == (one_line(title) or "Update").split()


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_facts_stand_in_the_page_as_typed(text: str) -> None:
    page = html_page(update_markdown(facts(title=text, found=(fact(text, text),))), text)
    root = _harmless(page)
    assert _title(root).split() == (one_line(text) or "Update").split()
    assert root.find(".//a") is None
    main = root.find("body/main")
    assert main is not None
    assert " ".join(sentence(text).split()) in " ".join("".join(main.itertext()).split())


@pytest.mark.parametrize("markdown", HOSTILE)
def test_a_remodelers_own_edit_cannot_run_anything(markdown: str) -> None:
    _harmless(html_page(markdown, "edit"))


@given(lines, lines)
def test_any_edit_cannot_run_anything(first: str, second: str) -> None:
    _harmless(html_page(f"{first}\n\n{second}", first))


def test_a_link_of_his_own_is_kept_and_guarded_and_a_picture_is_not_fetched() -> None:
    root = _harmless(
        html_page("[tile](https://tile.example/a) ![x](https://x.example/p.png) [no](data:text/html,x)", "t")
    )
    links = root.findall(".//a")
    assert [link.get("href") for link in links] == ["https://tile.example/a", "https://x.example/p.png"]
    assert all(link.get("rel") == "noopener noreferrer nofollow" for link in links)
    assert root.find(".//img") is None


def test_the_page_is_whole_and_needs_no_other_file() -> None:
    page = html_page("# Hall bath\n\nDry.\n", "Hall <bath> & co")
    assert page.startswith("<!DOCTYPE html>\n")
    root = _harmless(page)
    assert root.get("lang") == "en"
    assert _title(root) == "Hall <bath> & co"
    metas = {m.get("name") or m.get("http-equiv") or "charset": m.get("content") for m in root.iter("meta")}
    assert metas["viewport"] == "width=device-width, initial-scale=1"
    assert "default-src 'none'" in (metas["Content-Security-Policy"] or "")
    style = "".join(root.findtext("head/style") or "")
    assert "@media print" in style and "prefers-color-scheme: dark" in style
    assert "url(" not in style and "@import" not in style


def _luminance(color: str) -> float:
    # WCAG 2.2, definition of relative luminance.
    digits = color.lstrip("#")
    digits = "".join(d * 2 for d in digits) if len(digits) == 3 else digits
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_contrast_as_the_standard_counts_it() -> None:
    # WCAG 2.2: black on white is 21:1; #767676 on white is the known edge of 4.5:1.
    assert _contrast("#000", "#fff") == pytest.approx(21)
    assert _contrast("#767676", "#fff") == pytest.approx(4.54, abs=0.01)


def test_every_color_of_the_page_can_be_read_in_light_dark_and_print() -> None:
    # WCAG 2.2 success criteria 1.4.6 (7:1 for text) and 1.4.11 (3:1 for lines).
    themes = [dict(re.findall(r"--(\w+): (#\w+)", rule)) for rule in re.findall(r":root {(.*?)}", _css())]
    assert len(themes) == 3
    for theme in themes:
        for ink in ("ink", "soft", "link"):
            assert _contrast(theme[ink], theme["paper"]) >= 7
        assert _contrast(theme["line"], theme["paper"]) >= 3


def _css() -> str:
    return data_text("page.css")


def test_plain_text_of_an_update() -> None:
    markdown = (
        "# Hall *bath*\n\nOne.\nTwo.\n\n## Next\n\n**Floor.** 3 \\* 4 &amp; `code`\n\n"
        "1. First.\n   More.\n\n2. Second.\n\n- a\n- b\n\n> Said.\n\n[tile](https://a.example)  \nline\n\n"
        "---\n"
    )
    assert plain_text(markdown) == (
        "Hall bath\n\nOne. Two.\n\nNext\n\nFloor. 3 * 4 & code\n\n1. First. More.\n2. Second.\n\n- a\n- b\n\n"
        "    Said.\n\ntile (https://a.example)\nline\n\n- - -\n"
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_facts_stand_in_the_message_as_typed(text: str) -> None:
    made = plain_text(update_markdown(facts(found=(fact(text, "tub"),), needed=(fact("x"),))))
    shown = sentence(text)
    assert f"\nTub. {shown}\n" in made if shown else "Tub" not in made


@given(lines)
def test_a_message_holds_no_control_characters(text: str) -> None:
    made = plain_text(text)
    assert all(one_line(line) == " ".join(line.split()) for line in made.split("\n"))
