"""The HTML of every document in a real browser: valid, readable by everyone, whole on a phone and on paper.

``python -m tests.documents.in_a_browser PACKAGES OUT`` takes the tour into a new journal, writes each
document of its jobs and one page of hard cases as HTML to OUT, and then

- has the Nu HTML Checker, which the W3C runs at validator.w3.org/nu, read each page;
- opens each in Chromium 320, 390 and 1280 CSS pixels wide and as print, light and dark, and has axe-core
  look for what WCAG 2.2 A and AA, good practice, and AAA for contrast ask; nothing may be asked of the
  network, be said on the console, or reach past the width of the screen (WCAG 2.2, 1.4.10);
- prints each on Letter paper to PDF, where no page may end in a heading.

Screenshots and PDFs stay in OUT, to be looked at. It prints what it found and ends with 1 if anything is
at fault. It is no part of pytest, for it needs what a newcomer may not have: Chromium, Java, Node, and
PACKAGES, a folder where ``npm install axe-core playwright-core vnu-jar`` was run. What can be told without
a browser is in ``test_pages.py``.
"""

from __future__ import annotations

import argparse
import io
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pypdf import PdfReader

from journal_tui.domain.document import Length
from journal_tui.domain.reading import client_heading
from journal_tui.journal.change_pages import page_markdown
from journal_tui.journal.changes import change_orders
from journal_tui.journal.crew_papers import visit_paper
from journal_tui.journal.house_record import record_markdown
from journal_tui.journal.next_visit import next_day, next_visit
from journal_tui.journal.opening import Journal, open_journal
from journal_tui.journal.papers import PaperForm, paper_text
from journal_tui.journal.stills import pictures_for_client
from journal_tui.journal.touring import take_tour
from journal_tui.journal.updates import client_update
from tests.documents.trees import document

_SCRIPT = Path(__file__).with_suffix(".js")

#: The checker takes ``img-src data:`` for no leave to show a picture inside the page. It is one (Content
#: Security Policy Level 3, section 2.3.1, scheme-source), and the browser, asked of each picture, shows it.
_NOT_SO = "Resource violates Content Security Policy (meta tag): image “data:image/jpeg;base64,"

#: What a remodeler's own edit may hold: every element there is, words too long for a phone, a deep list.
HARD = """# Hard cases: Donaudampfschifffahrtsgesellschaftskapitänskajütenbadezimmerbodenfliesenkleber

A part number {word}, and a link <https://tile.example/{word}>, and [words](mailto:a@b.example).

## {word}

### A third heading

- one *soft* and **strong** and `code {word}`
  - two {word}
    - three

1. first

2. second
   with a line

> Said by someone.

---

```
{word} in a block of code that is wider than a phone is wide, and wider than the paper, too
```

[ ] A box to tick: \\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_\\_

שלום, タイル 床
""".replace("{word}", "0123456789abcdef" * 8)


#: A page at fault in every way that is looked for; the checks are to find them all.
CONTROL = """<!DOCTYPE html><html><head><title>x</title></head><body><h2>a heading</h2>
<p style="color: #aaa; background: #fff">pale</p><p style="color: #737373; background: #fff">
less pale</p><img src="https://picture.example/x.png">
<div style="width: 99em">wide</div></b><h3 style="break-before: page; break-after: page">alone</h3>
<p>the rest</p></body></html>"""
_CONTROL_NAME = "control.html"
_IN_CONTROL = (
    "not valid: ",
    "html-has-lang",
    "page-has-heading-one",
    "image-alt",
    "color-contrast:",
    "color-contrast-enhanced",
    "asks for https://picture.example/x.png",
    "pixels wider than the screen",
    "pictures do not show",
    "ends in the heading",
)


def main() -> int:
    """Write the pages, have them checked, print what was found; 1 when anything is at fault."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("packages", type=Path, help="where npm installed axe-core, playwright-core, vnu-jar")
    parser.add_argument("out", type=Path, help="an empty folder for pages, screenshots and PDFs")
    parser.add_argument("--browser", default="/usr/bin/chromium")
    args = parser.parse_args()
    args.out.mkdir(parents=True, exist_ok=True)
    if any(args.out.iterdir()):
        parser.error(f"{args.out} is not empty")
    for name, page in pages(args.out / "journal" / "journal.db"):
        (args.out / f"{name}.html").write_text(page, "utf-8")
    names = sorted(path.name for path in args.out.glob("*.html"))
    (args.out / _CONTROL_NAME).write_text(CONTROL, "utf-8")
    invalid = _invalid(args.packages, args.out)
    told = _browsed(args.packages, args.browser, args.out)
    print(f"{len(names)} documents in Chromium {told['browser']}")
    found = " ".join(_faults(args.out, _CONTROL_NAME, told["documents"][_CONTROL_NAME], invalid))
    missed = [fault for fault in _IN_CONTROL if fault not in found]
    if missed:
        print(f"the checks do not find what is there to find: {', '.join(missed)}")
    faults = sum(_tell(args.out, name, told["documents"][name], invalid) for name in names)
    print(f"{faults} at fault")
    return 1 if faults or missed else 0


def pages(path: Path) -> Iterator[tuple[str, str]]:
    """Yield the name and HTML of each document of the tour's jobs, and of the page of hard cases."""
    path.parent.mkdir()
    journal = open_journal(path)
    try:
        for toured in take_tour(journal):
            job = toured.job
            stem = job.name.split()[0].lower()
            for name, title, markdown in _papers(journal, job.id):
                pictures = pictures_for_client(journal, job.id, markdown)
                yield f"{stem}-{name}", paper_text(markdown, title, PaperForm.HTML, pictures)
            sheet = visit_paper(journal, *next_visit(journal, job, next_day(journal, job)))
            yield (
                f"{stem}-crew-sheet",
                paper_text(sheet.markdown, sheet.title, PaperForm.HTML, sheet.pictures),
            )
    finally:
        journal.close()
    yield "hard-cases", paper_text(HARD, "Hard cases", PaperForm.HTML)


def _papers(journal: Journal, job_id: str) -> Iterator[tuple[str, str, str]]:
    for length in Length:
        update = client_update(journal, job_id, length=length)
        job = update.job
        title = client_heading(job.name)
        yield f"update-{length.value}", title, update.markdown
    for order in change_orders(journal, job_id):
        name = f"change order {order.number or 'draft'}"
        yield name.replace(" ", "-"), f"{title}, {name}", page_markdown(journal, order)
    for closing in (False, True):
        markdown = record_markdown(journal, job, closing=closing)
        yield "closing-file" if closing else "record", f"{title}, record", markdown


def _invalid(packages: Path, folder: Path) -> dict[str, list[str]]:
    """Return what the Nu HTML Checker says of each page."""
    jar = packages / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"
    pages = [str(path) for path in sorted(folder.glob("*.html"))]
    ran = subprocess.run(
        ["java", "-jar", str(jar), "--format", "json", *pages], capture_output=True, text=True
    )
    found: dict[str, list[str]] = {}
    for message in json.loads(ran.stderr)["messages"]:
        if message["message"].startswith(_NOT_SO):
            continue
        name = message["url"].rsplit("/", 1)[-1]
        found.setdefault(name, []).append(f"line {message.get('lastLine')}: {message['message']}")
    return found


def _browsed(packages: Path, browser: str, folder: Path) -> dict[str, Any]:
    ran = subprocess.run(
        ["node", str(_SCRIPT), str(packages.resolve()), browser, str(folder.resolve())],
        stdout=subprocess.PIPE,
        check=True,
    )
    told: dict[str, Any] = json.loads(ran.stdout)
    return told


def _faults(
    folder: Path, name: str, views: list[dict[str, Any]], invalid: dict[str, list[str]]
) -> Iterator[str]:
    """Yield what is at fault with a page."""
    yield from (f"not valid: {message}" for message in invalid.get(name, ()))
    for view in views:
        yield from (f"{view['view']}: {fault}" for fault in (*view["faults"], *view["said"]))
        if view["sideways"] > 0:
            yield f"{view['view']}: {view['sideways']} pixels wider than the screen"
        if view["broken"]:
            yield f"{view['view']}: {view['broken']} pictures do not show"
    for scheme in ("light", "dark"):
        yield from (f"print {scheme}: {fault}" for fault in _badly_broken(folder / name, scheme))


def _tell(folder: Path, name: str, views: list[dict[str, Any]], invalid: dict[str, list[str]]) -> int:
    """Print what is at fault with a page; return how many things are."""
    faults = list(_faults(folder, name, views, invalid))
    doubts = [f"{view['view']}: {doubt}" for view in views for doubt in view["unsure"]]
    passed = min(view["passes"] for view in views)
    sheets = len(_sheets(folder / name, "light"))
    counts = f"{len(faults)} at fault, {len(doubts)} unsure, {passed} rules or more passed"
    print(f"{name}: {counts}, {sheets} sheets")
    for line in (*faults, *(f"unsure: {doubt}" for doubt in doubts)):
        print(f"  {line}")
    return len(faults)


def _sheets(page: Path, scheme: str) -> list[str]:
    """Return the text of each sheet of paper that a page was printed on."""
    paper = PdfReader(io.BytesIO(page.with_suffix(f".{scheme}.pdf").read_bytes()))
    return [sheet.extract_text() for sheet in paper.pages]


def _badly_broken(page: Path, scheme: str) -> Iterator[str]:
    texts = _sheets(page, scheme)
    root = document(page.read_text("utf-8"))
    headings = {"".join("".join(e.itertext()).split()) for tag in ("h1", "h2", "h3") for e in root.iter(tag)}
    for number, text in enumerate(texts, 1):
        lines = [line for line in text.splitlines() if line.strip()]
        if not lines:
            yield f"sheet {number} is empty"
        elif number < len(texts) and "".join(lines[-1].split()) in headings:
            yield f"sheet {number} ends in the heading “{lines[-1].strip()}”"


if __name__ == "__main__":
    sys.exit(main())
