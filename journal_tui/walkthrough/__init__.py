"""From a recorded walk-through to drafts: recording → cues → utterances → drafts."""
