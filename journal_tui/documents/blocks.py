"""Markdown as a list of blocks, for showing a document where there is no browser."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from journal_tui.documents.render import parser
from journal_tui.domain.document import Block, BlockKind, Run
from journal_tui.domain.text import visible


def blocks(markdown: str) -> tuple[Block, ...]:
    """Return the blocks of ``markdown`` in order, by the one parser of our documents."""
    from markdown_it.tree import SyntaxTreeNode

    return tuple(_blocks(SyntaxTreeNode(parser().parse(visible(markdown))), 0))


def _blocks(node: Any, depth: int) -> Iterator[Block]:
    for child in node.children:
        if child.type in ("bullet_list", "ordered_list"):
            yield from _items(child, depth)
        elif child.type == "blockquote":
            yield from _blocks(child, depth + 1)
        elif child.type in ("fence", "code_block"):
            for line in child.content.rstrip("\n").split("\n"):
                yield Block(BlockKind.CODE, (Run(line),), depth=depth)
        elif child.type == "hr":
            yield Block(BlockKind.RULE, (), depth=depth)
        elif child.type == "heading":
            yield Block(
                BlockKind.HEADING, tuple(_runs(child, Run(""))), level=int(child.tag[1:]), depth=depth
            )
        else:
            yield Block(BlockKind.PARAGRAPH, tuple(_runs(child, Run(""))), depth=depth)


def _items(node: Any, depth: int) -> Iterator[Block]:
    number = int(node.attrs.get("start", 1))
    for item in node.children:
        mark = f"{number}." if node.type == "ordered_list" else "-"
        number += 1
        for block in _blocks(item, depth + 1):
            yield replace(block, mark=mark) if block.depth == depth + 1 else block
            mark = ""


def _runs(node: Any, style: Run) -> Iterator[Run]:
    for child in node.children:
        if child.type in ("text", "code_inline"):
            yield replace(style, text=child.content)
        elif child.type in ("softbreak", "hardbreak"):
            yield replace(style, text=" " if child.type == "softbreak" else "\n")
        elif child.type == "still":
            yield replace(style, text="(picture)", emphasis=True, picture=str(child.attrs["src"]))
        elif child.type == "strong":
            yield from _runs(child, replace(style, strong=True))
        elif child.type == "em":
            yield from _runs(child, replace(style, emphasis=True))
        else:
            yield from _runs(child, style)
            if child.type == "link":
                yield replace(style, text=f" ({child.attrs['href']})")
