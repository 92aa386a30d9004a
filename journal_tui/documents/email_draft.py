"""A document as an e-mail not yet sent: a text part and an HTML part, with the pictures inside.

Written by the standard library (RFC 5322, RFC 2045 to 2049, RFC 2387). It names no reader and no writer:
the remodeler's own mail program fills those in. ``X-Unsent`` asks a program to open it as a draft; those
that do not know it show it as a message that can be forwarded.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import re
from collections.abc import Mapping
from email.message import EmailMessage
from email.policy import SMTP

from journal_tui.documents.render import html_page, plain_text
from journal_tui.domain.text import one_line

_INSIDE = re.compile(r'src="data:image/jpeg;base64,[A-Za-z0-9+/=]*"')
#: RFC 5322 section 2.1.1 allows 998 characters in a line; a subject is read in a list.
_LONGEST_SUBJECT = 150


def email_bytes(
    markdown: str, title: str, day: dt.date, pictures: Mapping[str, bytes] | None = None
) -> bytes:
    """Return ``markdown`` as an e-mail with ``title`` as its subject, dated noon UTC of ``day``."""
    used: list[bytes] = []
    page = html_page(markdown, title, pictures)
    by_inside = {_inside(data): data for data in (pictures or {}).values()}

    def attached(found: re.Match[str]) -> str:
        data = by_inside.get(found.group())
        if data is None:
            return found.group()
        used.append(data)
        return f'src="cid:{_content_id(data)}"'

    page = _INSIDE.sub(attached, page).replace("img-src data:", "img-src cid: data:")
    message = EmailMessage(policy=SMTP)
    message["Subject"] = one_line(title)[:_LONGEST_SUBJECT] or "Update"
    message["Date"] = dt.datetime.combine(day, dt.time(12), dt.UTC)
    message["X-Unsent"] = "1"
    message.set_content(plain_text(markdown))
    message.add_alternative(page, subtype="html")
    parts = message.get_payload()
    for data in dict.fromkeys(used):
        parts[1].add_related(data, "image", "jpeg", cid=f"<{_content_id(data)}>")  # type: ignore[index,union-attr]
    _fix_boundaries(message, hashlib.sha256(page.encode()).hexdigest()[:32])
    return message.as_bytes()


def _inside(data: bytes) -> str:
    import base64

    return f'src="data:image/jpeg;base64,{base64.b64encode(data).decode("ascii")}"'


def _content_id(data: bytes) -> str:
    return f"{hashlib.sha256(data).hexdigest()[:24]}@journal.invalid"


def _fix_boundaries(message: EmailMessage, seed: str) -> None:
    """Set the lines between parts, so that the same document makes the same bytes."""
    for number, part in enumerate(p for p in message.walk() if p.is_multipart()):
        part.set_boundary(f"=_{seed}_{number}")
