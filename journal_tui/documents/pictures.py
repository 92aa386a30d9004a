"""Stills in a document: named in the Markdown by a file beside it, whole inside the HTML.

A picture is a line ``![what it shows](stills/0123456789abcdef.jpg)``, the name being the first letters
of its hash. No other picture is one to us: nothing is ever fetched from anywhere.
"""

from __future__ import annotations

import base64
import html
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any

from journal_tui.domain.document import ClientFact

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.rules_inline import StateInline
    from markdown_it.token import Token

#: Where a page's pictures are handed to its renderer.
PICTURES = "pictures"
_NAMED = 16
#: An image of CommonMark 0.31.2 section 6.4 whose place is one of ours; brackets in its words are escaped.
_PICTURE = re.compile(r"!\[((?:[^\[\]\\\n]|\\.){0,1000})\]\((stills/[0-9a-f]{16}\.jpg)\)")
#: Section 2.4: a backslash before ASCII punctuation stands for it.
_ESCAPED = re.compile(r"\\([!-/:-@\[-`{-~])")


def picture_line(alt: str, sha256: str) -> str:
    """Return the line for a still; ``alt`` is what it shows, as escaped Markdown on one line."""
    return f"![{alt}](stills/{sha256[:_NAMED]}.jpg)"


def stills_of(facts: Iterable[ClientFact]) -> dict[str, ClientFact]:
    """Return the first fact each still shows, by the still's hash."""
    found: dict[str, ClientFact] = {}
    for fact in facts:
        if fact.still:
            found.setdefault(fact.still, fact)
    return found


def add_pictures(parser: MarkdownIt) -> None:
    """Have a parser know a still when it meets one."""
    parser.inline.ruler.before("link", "still", _still)
    parser.add_render_rule("still", _rendered)


def _still(state: StateInline, silent: bool) -> bool:
    found = _PICTURE.match(state.src, state.pos)
    if found is None:
        return False
    if not silent:
        token = state.push("still", "img", 0)
        token.attrs = {"src": found.group(2)}
        token.content = _ESCAPED.sub(r"\1", found.group(1))
    state.pos = found.end()
    return True


def _rendered(_renderer: Any, tokens: Sequence[Token], index: int, _options: Any, env: Any) -> str:
    token = tokens[index]
    pictures: Mapping[str, bytes] = env.get(PICTURES, {})
    data = pictures.get(str(token.attrs["src"]))
    if data is None:
        return ""
    inside = base64.b64encode(data).decode("ascii")
    return f'<img src="data:image/jpeg;base64,{inside}" alt="{html.escape(token.content)}">'
