"""The HTML page by the rules a browser and a reader for the blind go by, as far as no browser is needed.

``tests.documents.in_a_browser`` asks a validator and an accessibility checker in a real browser.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import pytest
from hypothesis import given

from journal_tui.documents import html_page, update_markdown
from journal_tui.domain.document import UpdateFacts
from tests.documents.in_a_browser import HARD, pages
from tests.documents.samples import HOSTILE, fact, facts, lines, update_facts
from tests.documents.trees import document

_HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


def faults(page: str) -> Iterator[str]:
    """Yield what is wrong with a page by the HTML standard's syntax and by WCAG 2.2, named."""
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    root = parser.parse(page)
    # HTML standard, 13.2.2: parse errors; a strict parser stops at the first, this one lists them.
    yield from (f"parse error {code} at {at}" for at, code, _data in parser.errors)
    if root.get("lang") != "en":
        yield "3.1.1: no language"
    if not (root.findtext("head/title") or "").strip():
        yield "2.4.2: no title"
    if len(root.findall("body/main")) != 1:
        yield "1.3.1: not one main part"
    levels = [_HEADINGS.index(e.tag) for e in root.iter() if e.tag in _HEADINGS]
    # HTML standard, 4.3.11: an outline that skips no level; techniques G141 and H42 of WCAG 2.2.
    if levels[:1] != [0]:
        yield "G141: the first heading is not of the first level"
    if any(after > before + 1 for before, after in pairwise(levels)):
        yield "G141: a heading level is skipped"
    for heading in (e for e in root.iter() if e.tag in _HEADINGS):
        if not "".join(heading.itertext()).strip():
            yield "2.4.6: an empty heading"
    for image in root.iter("img"):
        if not (image.get("alt") or "").strip():
            yield "1.1.1: a picture without words"
    for a in root.iter("a"):
        if not "".join(a.itertext()).strip():
            yield "2.4.4: a link without words"
    for group in (*root.iter("ul"), *root.iter("ol")):
        if any(child.tag != "li" for child in group):
            yield "4.4.5: a list of something else than items"


def test_the_faults_are_found_when_they_are_there() -> None:
    bad = '<!DOCTYPE html><html><body><h2>a</h2><h4></h4><img src="x"><a href="y"></a><ul><p>b</ul></p>'
    found = " ".join(faults(bad))
    for named in ("parse error", "3.1.1", "2.4.2", "1.3.1", "the first heading", "skipped", "2.4.6", "1.1.1"):
        assert named in found
    for named in ("2.4.4", "4.4.5"):
        assert named in found


def test_no_document_of_the_tour_and_no_hard_case_has_one(tmp_path: Path) -> None:
    made = dict(pages(tmp_path / "tour" / "journal.db"))
    assert {name: list(faults(page)) for name, page in made.items()} == {name: [] for name in made}
    kinds = {name.split("-", 1)[1] for name in made}
    assert {"update-short", "update-standard", "update-full", "crew-sheet", "record", "closing-file"} <= kinds


@given(update_facts, lines)
def test_no_update_has_one(some: UpdateFacts, title: str) -> None:
    assert list(faults(html_page(update_markdown(some), title))) == []


@pytest.mark.parametrize("text", HOSTILE)
def test_no_hostile_text_makes_one(text: str) -> None:
    assert list(faults(html_page(update_markdown(facts(title=text, found=(fact(text, text),))), text))) == []


def _boxes(root: Element) -> list[tuple[str, str]]:
    return [
        (element.tag, " ".join("".join(element.itertext()).split()))
        for element in root.iter()
        if element.get("class") == "box"
    ]


def test_a_box_to_tick_is_drawn_as_one_and_without_a_bullet() -> None:
    root = document(
        html_page("# Sheet\n\n- \\[ \\] one\n- two\n\n\\[ \\] yes [ ] no\n\n1. [ ] loose\n\n   x\n", "t")
    )
    assert _boxes(root) == [("li", "☐ one"), ("p", "☐ yes [ ] no"), ("p", "☐ loose")]
    assert [e.tag for e in root.iter("li") if e.get("class") is None] == ["li", "li"]


def test_a_page_without_a_heading_gets_its_title_as_one() -> None:
    root = document(html_page("Hello. The tub is in.\n", "Pell <hall> bath"))
    assert root.findtext("body/main/h1") == "Pell <hall> bath"
    assert document(html_page("# Own\n", "Title")).findtext("body/main/h1") == "Own"
    assert document(html_page("x", " ")).findtext("body/main/h1") == "Update"


def test_on_paper_a_link_says_where_it_leads_once() -> None:
    root = document(html_page("<https://a.example/x> [words](https://b.example)", "t"))
    assert [(a.get("href"), a.get("class")) for a in root.iter("a")] == [
        ("https://a.example/x", "bare"),
        ("https://b.example", None),
    ]
    assert "a[href]:not(.bare)::after" in html_page("x", "t")


def test_the_hard_cases_hold_every_element_a_document_can_have() -> None:
    held = {str(e.tag) for e in document(html_page(HARD, "t")).iter()}
    for tag in (
        "h1",
        "h2",
        "h3",
        "p",
        "em",
        "strong",
        "code",
        "pre",
        "ul",
        "ol",
        "li",
        "blockquote",
        "hr",
        "a",
    ):
        assert tag in held


def test_a_heading_that_says_nothing_is_left_out() -> None:
    root = document(html_page("# A\n\n##\n\n### \n\n## B\n\ntext\n", "t"))
    main = root.find("body/main")
    assert main is not None
    assert [(e.tag, e.text) for e in main] == [("h1", "A"), ("h2", "B"), ("p", "text")]


def test_many_short_lines_go_side_by_side_on_paper() -> None:
    tools = "\n".join(f"- tool {n}" for n in range(6))
    long = f"{tools}\n- {'a long line ' * 6}"
    few = "- one\n- two"
    page = document(
        html_page(
            f"{tools}\n\n# A\n\n{long}\n\n# B\n\n{few}\n\n# C\n\n- outer\n{tools.replace('- ', '  - ')}", "t"
        )
    )
    assert [lists.get("class") for lists in page.iter("ul")] == ["short", None, None, None, "short"]
    assert ".short { columns: 2; }" in html_page("x", "t").partition("@media print")[2]
