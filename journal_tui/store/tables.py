"""Making tables whose every change is recorded."""

from __future__ import annotations

from sqlite_utils import Database
from sqlite_utils.db import Table

from journal_tui.store.history import watch


def table(db: Database, name: str) -> Table:
    """Return the table ``name``; sqlite-utils' own indexing cannot tell tables from views."""
    found = db.table(name)
    assert isinstance(found, Table)
    return found


def create(db: Database, name: str, columns: dict[str, type], **options: object) -> None:
    """Create a STRICT table with a text ``id`` as key, and have its every change recorded."""
    table(db, name).create({"id": str, **columns}, pk="id", strict=True, **options)  # type: ignore[arg-type]
    watch(db.conn, name)
