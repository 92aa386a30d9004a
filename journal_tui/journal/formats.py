"""The punch list and the client update in each form they are read or handed on in."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence
from enum import StrEnum
from pathlib import Path

from journal_tui.documents.cells import padded, wrapped
from journal_tui.domain.document import SentDocument
from journal_tui.domain.errors import BadInput
from journal_tui.domain.job import Job
from journal_tui.domain.punch import PunchItem, PunchList
from journal_tui.domain.reading import client_heading
from journal_tui.domain.text import one_line
from journal_tui.journal.jobs import get_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.papers import PaperForm, paper_text, write_paper
from journal_tui.journal.paths import expanded
from journal_tui.journal.punch import HANDLE_LENGTH
from journal_tui.journal.stills import pictures_for_client
from journal_tui.journal.typed import recall, remember
from journal_tui.journal.updates import UpdateDraft, send_draft
from journal_tui.journal.writing import CannotWrite, checked_folder

__all__ = [
    "PunchFormat",
    "UpdateFormat",
    "padded",
    "punch_in_format",
    "read_edited",
    "send_to_folder",
    "update_in_format",
    "wrapped",
    "write_sent",
    "write_update",
]


#: Far more than any update; a recording given by mistake is not.
MOST_EDITED_BYTES = 1024 * 1024


class PunchFormat(StrEnum):
    """What a punch list can be written as."""

    TEXT = "text"
    MARKDOWN = "md"
    CSV = "csv"
    JSON = "json"


#: What a client update can be written as.
UpdateFormat = PaperForm


#: Where the folder last written to is kept, beside what is half typed.
_FOLDER_PLACE = "setting/update-folder"


def punch_in_format(
    job: Job,
    items: PunchList,
    form: PunchFormat,
    as_of: dt.date,
    *,
    width: int = 80,
    closed: Sequence[PunchItem] = (),
) -> str:
    """Return a punch list as text, Markdown, CSV or JSON, then the ``closed`` items if any are given.

    ``width`` (terminal cells) only shapes text; there each item bears the handle it is called by.
    """
    from journal_tui import documents

    if form is PunchFormat.TEXT:
        return documents.punch_text(
            items, title=job.name, as_of=as_of, width=width, closed=closed, handle=HANDLE_LENGTH
        )
    if form is PunchFormat.MARKDOWN:
        return documents.punch_markdown(items, title=job.name, as_of=as_of, closed=closed)
    if form is PunchFormat.CSV:
        return documents.punch_csv(items, as_of=as_of, closed=closed)
    return documents.punch_json(items, title=job.name, as_of=as_of, closed=closed)


def update_in_format(
    markdown: str, title: str, form: UpdateFormat, pictures: Mapping[str, bytes] | None = None
) -> str:
    """Return the Markdown of an update as it is, as one HTML page, or as the text of a message.

    ``pictures`` are the stills it names that the client may see (``stills.pictures_for_client``).
    Raises ``BadInput`` for a form that is no text.
    """
    if not form.is_text:
        raise BadInput(f"{form.value} is not for a terminal", "Name a folder to write it to, with --out.")
    return paper_text(markdown, title, form, pictures)


def write_update(
    folder: Path,
    markdown: str,
    title: str,
    day: dt.date,
    forms: tuple[UpdateFormat, ...] = (*UpdateFormat,),
    pictures: Mapping[str, bytes] | None = None,
) -> list[Path]:
    """Write an update to ``folder`` in each of ``forms``; return the files. Raises ``CannotWrite``.

    The stills it names are inside all but the Markdown, and in a folder beside that.
    """
    return write_paper(folder, markdown, title, f"{title} update", day, forms, pictures)


def usual_folder(journal: Journal) -> Path:
    """Return the folder documents were last written to, else the person's documents folder."""
    kept = recall(journal, _FOLDER_PLACE)
    if kept:
        return Path(kept)
    from platformdirs import user_documents_path

    return user_documents_path()


def write_sent(journal: Journal, sent: SentDocument, folder: Path) -> list[Path]:
    """Write a sent update to ``folder`` in every form; return the files. Raises ``CannotWrite``."""
    title = client_heading(get_job(journal, sent.job_id).name)
    pictures = pictures_for_client(journal, sent.job_id, sent.markdown)
    files = write_update(folder, sent.markdown, title, sent.sent_on, pictures=pictures)
    remember(journal, _FOLDER_PLACE, str(folder))
    return files


def send_to_folder(journal: Journal, draft: UpdateDraft, folder: Path) -> tuple[SentDocument, list[Path]]:
    """Freeze an update as sent and write it to ``folder`` in every form; return it and the files.

    A folder that cannot be written to freezes nothing. Raises ``CannotWrite``, and what
    ``send_draft`` raises.
    """
    checked_folder(folder)
    sent = send_draft(journal, draft)
    try:
        return sent, write_sent(journal, sent, folder)
    except CannotWrite as error:
        raise CannotWrite(
            error.title, f"{error.body} The update is frozen as sent; write it again from the sent ones."
        ) from None


def read_edited(path: Path) -> str:
    """Return the Markdown of an update that was edited in a file. Raises ``BadInput``."""
    shown = one_line(str(path)) or "the file"
    try:
        with expanded(path).open("rb") as file:
            data = file.read(MOST_EDITED_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "no file can have this name"
        raise BadInput(f"{shown} cannot be read", f"{reason}.") from None
    if len(data) > MOST_EDITED_BYTES:
        raise BadInput(f"{shown} is too large", "An update is a page or two of Markdown.")
    try:
        return data.decode("utf-8-sig").replace("\r\n", "\n")
    except UnicodeDecodeError:
        raise BadInput(f"{shown} is not UTF-8 text", "Save it as UTF-8 and give it again.") from None
