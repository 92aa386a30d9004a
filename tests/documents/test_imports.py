"""What loading the documents room loads, and that its names are all there."""

from __future__ import annotations

import subprocess
import sys

import pytest

import journal_tui.documents as documents


@pytest.mark.parametrize("name", documents.__all__)
def test_every_public_name_is_there(name: str) -> None:
    assert getattr(documents, name).__name__ == name


def test_a_wrong_name_is_an_attribute_error() -> None:
    with pytest.raises(AttributeError, match="no attribute 'letter'"):
        documents.letter  # noqa: B018


def test_padding_a_column_loads_no_writer() -> None:
    code = (
        "import sys, journal_tui.documents.cells\n"
        "print([m for m in sys.modules if m.startswith('journal_tui.documents.') or "
        "m.split('.')[0] in ('markdown_it', 'rich')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "['journal_tui.documents.cells']"


def test_writing_an_update_does_not_load_the_renderer() -> None:
    code = (
        "import sys; from journal_tui.documents import update_markdown; print('markdown_it' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
