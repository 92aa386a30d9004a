"""The words of WebVTT cues, against W3C WebVTT sections 4.2.2 and 6.4 and HTML's references."""

from __future__ import annotations

import html.entities

import pytest

from journal_tui.walkthrough.captions.cuetext import resolved, spoken


def words(text: str) -> str:
    return "".join(part for _, part in spoken(text)[0])


@pytest.mark.parametrize(
    ("cue", "expected"),
    [
        ("plain", "plain"),
        ("<b>rot</b> at the <i>sill</i>", "rot at the sill"),  # 4.2.2 bold and italics spans
        ("<u>wet</u>", "wet"),
        ("<c.yellow.bg_blue>joist</c>", "joist"),  # class span with classes
        ("<lang en-GB>skirting</lang>", "skirting"),
        ("<ruby>漢<rt>kan</rt></ruby>", "漢kan"),
        ("one <00:00:01.000>two <00:02.000>three", "one two three"),  # timestamp tags
        ("<00:99.000>kept", "kept"),  # 6.4: a bad timestamp tag is ignored, not shown
        ("<>empty</>", "empty"),  # 6.4: a tag with no name
        ("<x>unknown</x>", "unknown"),  # 6.4: other tags are ignored
        ("<.c>nameless", "nameless"),
        ("</b>stray end", "stray end"),
        ("<b", ""),  # 6.4: a tag runs to the end of the cue
        ("a<", "a"),
        ("a > b", "a > b"),  # 4.2.2 forbids only & and <
        ("<b\nid>two lines", "two lines"),  # a line feed ends a tag's name
        ("<<b>x", "x"),  # 6.4: the second '<' is part of the tag's name
    ],
)
def test_section_6_4_tags(cue: str, expected: str) -> None:
    assert words(cue) == expected


@pytest.mark.parametrize(
    ("cue", "expected"),
    [
        ("&amp; &lt; &gt;", "& < >"),  # 4.2.2 the escapes cue text needs
        ("&lrm;&rlm;&nbsp;", "\u200e\u200f\u00a0"),  # the others it names
        ("&lt;b&gt;not a tag&lt;/b&gt;", "<b>not a tag</b>"),  # resolved after tags are told apart
        ("1&frac12; in", "1½ in"),
        ("&#189; &#xBD; &#XBD;", "½ ½ ½"),
        ("&amp &copy2", "& ©2"),  # HTML: old names stand without a semicolon
        ("&unknown; & &;", "&unknown; & &;"),  # nothing returned: the ampersand itself
        ("&#0; &#xD800; &#x110000;", "\ufffd \ufffd \ufffd"),  # HTML: numbers that are no character
        ("&#x80;", "€"),  # HTML: the Windows-1252 table
        ("&amp;lt;", "&lt;"),  # once, not twice
    ],
)
def test_section_6_4_character_references(cue: str, expected: str) -> None:
    assert words(cue) == expected


def test_every_named_reference_of_html_resolves() -> None:
    # Source: the HTML standard's table of named character references, as Python carries it.
    table = html.entities.html5
    assert all(resolved(f"&{name}") == char for name, char in table.items())


def test_a_number_of_any_length_is_taken() -> None:
    assert resolved("&#" + "9" * 10_000 + ";") == "\ufffd"


@pytest.mark.parametrize(
    ("cue", "expected"),
    [
        ("<v Ann>one", [("Ann", "one")]),
        ("<v  Ann \n Lee >one", [("Ann Lee", "one")]),  # annotation's white space is collapsed
        ("<v>one", [(None, "one")]),
        ("<v Ann &amp; Bo>one", [("Ann & Bo", "one")]),  # references resolve in annotations too
        ("<v Ann><i>one</i> two", [("Ann", "one two")]),  # a span inside keeps the voice
        ("<v Ann>one</v> two", [("Ann", "one"), (None, " two")]),
        ("<v Ann>one<v Bo>two</v>three", [("Ann", "one"), ("Bo", "two"), ("Ann", "three")]),
        ("<v Ann><i>one</v> two", [("Ann", "one two")]),  # an end tag closes only its own span
        ("<ruby>a<rt>b</ruby>c", [(None, "abc")]),  # </ruby> closes an open <rt> too
        ("<rt>a</rt>b", [(None, "ab")]),  # <rt> outside <ruby> opens nothing
    ],
)
def test_section_6_4_voices(cue: str, expected: list[tuple[str | None, str]]) -> None:
    assert spoken(cue)[0] == expected


@pytest.mark.parametrize(
    ("cue", "unclosed"), [("a <b>c", False), ("a <b", True), ("a <", True), ("a", False)]
)
def test_an_unclosed_tag_is_told(cue: str, unclosed: bool) -> None:
    assert spoken(cue)[1] is unclosed
