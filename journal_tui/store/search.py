"""Full-text search over entries and over what was said."""

from __future__ import annotations

import re

from journal_tui.store.store import Row, Store

_WORD = re.compile(r"\w+")

_ENTRIES = (
    "SELECT 'entry' AS source, e.id, e.job_id, j.name AS job_name, e.visit_id, v.day, e.start, e.kind,"
    " e.phase, e.area, e.text FROM entries_fts f JOIN entries e ON e.rowid = f.rowid"
    " JOIN visits v ON v.id = e.visit_id JOIN jobs j ON j.id = e.job_id"
    " WHERE entries_fts MATCH ? {job} ORDER BY f.rowid DESC LIMIT ?"
)
_SAID = (
    "SELECT 'said' AS source, c.id, v.job_id, j.name AS job_name, v.id AS visit_id, v.day,"
    " CASE WHEN r.timed THEN c.start END AS start,"
    " NULL AS kind, NULL AS phase, NULL AS area, c.text FROM cues_fts f JOIN cues c ON c.rowid = f.rowid"
    " JOIN recordings r ON r.id = c.recording_id"
    " JOIN visits v ON v.recording_id = c.recording_id JOIN jobs j ON j.id = v.job_id"
    " WHERE cues_fts MATCH ? {job} ORDER BY f.rowid DESC LIMIT ?"
)


def match_all(words: str) -> str:
    """Return an FTS5 query for texts holding every word, the last one possibly unfinished.

    Each word is quoted, so that nothing typed is read as query syntax; "" when there is no word.
    """
    found = _WORD.findall(words)
    if not found:
        return ""
    quoted = [f'"{word}"' for word in found]
    return " ".join(quoted) + "*"


def find(store: Store, words: str, job_id: str | None, limit: int) -> list[Row]:
    """Return entries, then captions, holding every word; the newest saved first."""
    query = match_all(words)
    if not query:
        return []
    found: list[Row] = []
    for sql, column in ((_ENTRIES, "e.job_id"), (_SAID, "v.job_id")):
        clause, params = (f"AND {column} = ?", [query, job_id, limit]) if job_id else ("", [query, limit])
        found.extend(store.rows(sql.format(job=clause), params))
    return found
