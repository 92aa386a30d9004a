"""From what was said to drafts: offline, deterministic, and each draft says why."""

from journal_tui.walkthrough.drafting.drafter import draft_entries, draft_note
from journal_tui.walkthrough.drafting.learning import learned_from
from journal_tui.walkthrough.drafting.notices import talk_notices

__all__ = ["draft_entries", "draft_note", "learned_from", "talk_notices"]
