"""Markdown to one self-contained HTML file and to the plain text of a message."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from journal_tui.documents.pictures import PICTURES, add_pictures
from journal_tui.documents.wording import data_text
from journal_tui.domain.text import one_line, visible

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.token import Token

#: Where a link in a remodeler's own edit may lead; anything else stays plain text.
_SCHEMES = re.compile(r"^(?:https?:|mailto:|tel:)", re.IGNORECASE)

#: No script, no frame, no picture or font from elsewhere: the page may only style itself and show the
#: pictures that are in it.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'"

#: A box on paper, as our documents write it in Markdown.
_BOX = "[ ] "

#: A list of so many lines, each of so few characters, goes side by side on paper.
_MANY, _SHORT = 6, 44


def parser() -> MarkdownIt:
    """Return the one parser of our Markdown: CommonMark without raw HTML; of pictures only our stills."""
    from markdown_it import MarkdownIt

    class Parser(MarkdownIt):
        def validateLink(self, url: str) -> bool:
            return bool(_SCHEMES.match(url))

    made = Parser("commonmark", {"html": False, "xhtmlOut": False}).disable("image")
    made.add_render_rule("link_open", _guarded_link)
    add_pictures(made)
    return made


def _guarded_link(renderer: Any, tokens: Sequence[Token], index: int, options: Any, env: Any) -> str:
    tokens[index].attrSet("rel", "noopener noreferrer nofollow")
    if tokens[index].markup == "autolink":
        # It says itself where it leads; paper need not say it again.
        tokens[index].attrSet("class", "bare")
    rendered: str = renderer.renderToken(tokens, index, options, env)
    return rendered


def html_page(markdown: str, title: str, pictures: Mapping[str, bytes] | None = None) -> str:
    """Return ``markdown`` as one HTML file that needs no other: for a phone, a desk or paper.

    Raw HTML in the Markdown is shown, not obeyed. There is no script in the page. ``pictures`` are the
    JPEGs of the stills it names, by the place it names; one that is not given is left out. A text that
    begins with ``[ ]`` begins with a box to tick; a text without a heading of its own gets ``title``.
    """
    made = parser()
    tokens = _without_empty_headings(made.parse(visible(markdown)))
    _draw_boxes(tokens)
    _mark_short_lists(tokens)
    body = made.renderer.render(tokens, made.options, {PICTURES: pictures or {}})
    shown = html.escape(one_line(title)) or "Update"
    if not any(token.tag == "h1" for token in tokens):
        body = f"<h1>{shown}</h1>\n{body}"
    return (
        "<!DOCTYPE html>\n"
        '<html lang="en">\n'
        "<head>\n"
        '<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="referrer" content="no-referrer">\n'
        '<meta name="color-scheme" content="light dark">\n'
        f"<title>{shown}</title>\n"
        f"<style>\n{data_text('page.css')}</style>\n"
        "</head>\n"
        f"<body>\n<main>\n{body}</main>\n</body>\n"
        "</html>\n"
    )


def _without_empty_headings(tokens: Sequence[Token]) -> list[Token]:
    empty = {
        at
        for at, token in enumerate(tokens)
        if token.type == "inline" and tokens[at - 1].type == "heading_open" and not token.content.strip()
    }
    return [token for at, token in enumerate(tokens) if not {at - 1, at, at + 1} & empty]


def _draw_boxes(tokens: Sequence[Token]) -> None:
    for at, token in enumerate(tokens):
        first = token.children[0] if token.children else None
        if first is None or first.type != "text" or not first.content.startswith(_BOX):
            continue
        first.content = f"☐ {first.content.removeprefix(_BOX)}"
        # A loose paragraph, or the list item that a tight one is hidden in.
        tokens[at - 2 if tokens[at - 1].hidden else at - 1].attrSet("class", "box")


def _mark_short_lists(tokens: Sequence[Token]) -> None:
    """Mark the lists of many short lines, which paper has room for side by side."""
    lists: list[tuple[Token, list[int]]] = []
    for token in tokens:
        if token.type in ("bullet_list_open", "ordered_list_open"):
            lists.append((token, []))
        elif token.type in ("bullet_list_close", "ordered_list_close"):
            opened, lengths = lists.pop()
            if len(lengths) >= _MANY and max(lengths) <= _SHORT:
                opened.attrSet("class", "short")
        elif token.type == "inline" and lists:
            lists[-1][1].append(len(token.content))


def plain_text(markdown: str) -> str:
    """Return ``markdown`` as the text of a message: no mark-up, a paragraph a line, blank lines between.

    Headings stand on their own line, list items keep their number or a dash, a link is followed by
    where it leads. Lines are not wrapped: the reader's phone does that.
    """
    from markdown_it.tree import SyntaxTreeNode

    tree = SyntaxTreeNode(parser().parse(visible(markdown)))
    return "\n\n".join(_text_blocks(tree)) + "\n"


def _text_blocks(node: Any) -> Iterator[str]:
    for child in node.children:
        if child.type in ("bullet_list", "ordered_list"):
            yield "\n".join(_items(child))
        elif child.type == "blockquote":
            yield _indented("\n\n".join(_text_blocks(child)), "    ", "    ")
        elif child.type in ("fence", "code_block"):
            yield _indented(child.content.rstrip("\n"), "    ", "    ")
        elif child.type == "hr":
            yield "- - -"
        else:
            # Of several pictures in a paragraph only the blanks between are left.
            yield from filter(None, ["".join(_inline(child)).strip(" ")])


def _items(node: Any) -> Iterator[str]:
    number = int(node.attrs.get("start", 1))
    for item in node.children:
        mark = f"{number}. " if node.type == "ordered_list" else "- "
        yield _indented("\n".join(_text_blocks(item)), mark, " " * len(mark))
        number += 1


def _indented(text: str, first: str, rest: str) -> str:
    lines = text.split("\n")
    return "\n".join([first + lines[0], *((rest + line if line else line) for line in lines[1:])])


def _inline(node: Any) -> Iterator[str]:
    for child in node.children:
        if child.type in ("text", "code_inline"):
            yield child.content
        elif child.type == "softbreak":
            yield " "
        elif child.type == "hardbreak":
            yield "\n"
        else:
            yield from _inline(child)
            if child.type == "link":
                yield f" ({child.attrs['href']})"
