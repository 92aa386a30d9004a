"""HTML read by a real parser (html5lib, after the WHATWG standard) and made comparable."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from xml.etree.ElementTree import Element

import html5lib

#: An element: its name, its attributes, its children; a text is a str with blanks collapsed.
Node = tuple[str, tuple[tuple[str, str], ...], tuple[Any, ...]]


def document(page: str) -> Element:
    """Return the tree of a whole page."""
    root = html5lib.parse(page, treebuilder="etree", namespaceHTMLElements=False)
    assert isinstance(root, Element)
    return root


def tree(fragment: str) -> tuple[Any, ...]:
    """Return the body of ``fragment`` as nested tuples, blanks between elements left out."""
    body = document(fragment).find("body")
    assert body is not None
    return _children(body)


def text_of(fragment: str) -> str:
    """Return the text a reader of ``fragment`` sees, blanks collapsed."""
    body = document(fragment).find("body")
    assert body is not None
    return " ".join("".join(body.itertext()).split())


def _children(element: Element) -> tuple[Any, ...]:
    return tuple(_parts(element))


def _parts(element: Element) -> Iterator[Any]:
    if element.text and element.text.strip():
        yield " ".join(element.text.split())
    for child in element:
        name = child.tag if isinstance(child.tag, str) else "comment"
        node: Node = (name, tuple(sorted(child.attrib.items())), _children(child))
        yield node
        if child.tail and child.tail.strip():
            yield " ".join(child.tail.split())
