"""sqlite-utils, loaded late and without what it brings along."""

from __future__ import annotations

import sqlite3
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sqlite_utils import Database

#: sqlite-utils loads these where they are installed, to know their number types. A journal holds
#: none, and loading them takes up to a second at the first write.
_NOT_NEEDED = ("numpy", "pandas")


def database(conn: sqlite3.Connection) -> Database:
    """Return sqlite-utils' view of an open connection, without plug-ins."""
    if "sqlite_utils" not in sys.modules:
        absent = [name for name in _NOT_NEEDED if name not in sys.modules]
        # None in sys.modules is how Python itself spells "cannot be imported".
        sys.modules.update(dict.fromkeys(absent))  # type: ignore[arg-type]
        try:
            import sqlite_utils  # noqa: F401
        finally:
            for name in absent:
                del sys.modules[name]
    from sqlite_utils import Database

    return Database(conn, execute_plugins=False)
