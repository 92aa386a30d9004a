"""An invented walk-through of thirty drafts, made by hand so that screens do not hang on the drafter."""

from __future__ import annotations

import datetime as dt
import hashlib

from journal_tui.domain.draft import Draft, Repair
from journal_tui.domain.job import Job, Visit
from journal_tui.domain.kinds import Audience, Hazard, Kind, Party
from journal_tui.domain.recording import Captions, Cue
from journal_tui.journal.jobs import add_job
from journal_tui.journal.opening import Journal
from journal_tui.journal.visits import Drafting, log_recording

SAW, CHOSE, OWED = Kind.OBSERVATION, Kind.DECISION, Kind.NEXT_STEP

#: kind, phase, area, text as drafted, words as said, whose move it is.
_WALK: tuple[tuple[Kind, str, str, str, str, Party | None], ...] = (
    (SAW, "demo", "whole room", "Old wall tile is set in a mud bed on metal lath.",
     "so all this wall tile is in a mud bed, there's metal lath behind it, heavy stuff", None),
    (OWED, "demo", "whole room", "Hang plastic at the door before any more tile comes off.",
     "we hang plastic at the door before any more of this comes off, the dust gets everywhere", Party.CREW),
    (SAW, "rough plumbing", "supply", "Supply is galvanized, rusted at every joint.",
     "supply's galvanized, look at it, rust at every joint you can see", None),
    (CHOSE, "rough plumbing", "supply", "Galvanized supply goes out back to the meter.",
     "we're not patching that, it all goes, back to the meter", None),
    (OWED, "rough plumbing", "supply", "Find out where the shutoff at the street is.",
     "somebody's got to find out where the shutoff at the street is", Party.CREW),
    (OWED, "rough plumbing", "tub wall", "Plumbing inspection before the wall is closed.",
     "and the inspector looks at that before this wall is closed, no way around it", Party.INSPECTOR),
    (SAW, "rough plumbing", "tub wall", "A stud at the valve is notched more than half through.",
     "this stud at the valve, somebody notched it more than half through", None),
    (OWED, "rough plumbing", "tub wall", "Sister the notched stud at the valve.",
     "so we sister that one, full height", Party.CREW),
    (SAW, "subfloor", "window corner", "Two planks under the window are soft.",
     "these two planks under the window, the chisel goes in like cheese", None),
    (OWED, "subfloor", "window corner", "Cut out the two soft planks and block between the joists.",
     "so they come out, both of them, and we block between the joists", Party.CREW),
    (SAW, "subfloor", "floor", "Joists are 2x8 at 16 inches, span 11 ft 4 in.",
     "joists are two by eights, sixteen on center, and they run eleven foot four", None),
    (CHOSE, "subfloor", "floor", "Planks stay, 1/2 plywood goes over them, glued and screwed.",
     "the rest of the planks stay, we go over with half inch plywood, glued and screwed", None),
    (OWED, "subfloor", "floor", "Check the joist span for tile before the plywood is bought.",
     "before anybody buys plywood we check that span for tile", Party.CREW),
    (SAW, "subfloor", "toilet", "Flange stands 5/8 above the planks.",
     "the flange stands five eighths proud of the planks right now", None),
    (OWED, "trim", "vanity", "Choose the mirror cabinet: recessed or on the wall.",
     "she still has to pick the mirror cabinet, recessed or not, I need that before the wall's framed",
     Party.CLIENT),
    (CHOSE, "trim", "vanity", "Vanity stays 36 inches wide.",
     "vanity stays thirty six, we settled that", None),
    (OWED, "rough plumbing", "vanity", "Move the vanity drain 3 in. to the left.",
     "drain has to come over three inches to the left", Party.CREW),
    (SAW, "backer", "tub wall", "Wall is out of plumb 3/8 in 6 ft.",
     "put the level on it, it's out three eighths in six foot", None),
    (OWED, "backer", "tub wall", "Fur out the tub wall before the board goes up.",
     "so we fur it out before any board goes up", Party.CREW),
    (CHOSE, "backer", "tub wall", "Cement board with a painted-on membrane around the tub.",
     "cement board around the tub and the paint-on membrane over it", None),
    (SAW, "other", "ceiling", "Water stain around the old fan.",
     "see the stain around the fan up there, that's old, it's dry", None),
    (OWED, "other", "ceiling", "Have a licensed electrician look at the fan wiring.",
     "that wire's brittle, I want a licensed electrician on it, nobody touches it till then", Party.CREW),
    (OWED, "tile", "floor", "Order the floor tile, one lot, 12 percent over.",
     "floor tile gets ordered this week, all one lot, twelve percent over", Party.SUPPLIER),
    (CHOSE, "tile", "floor", "Floor tile runs straight, first full row at the tub.",
     "straight lay, full row starts at the tub where you see it", None),
    (OWED, "tile", "tub wall", "Confirm the niche height with the client.",
     "ask her how high she wants the niche", Party.CLIENT),
    (SAW, "trim", "door", "Door clears the old floor by 7/8.",
     "door's got seven eighths under it now", None),
    (OWED, "trim", "door", "Undercut the door after the tile is down.",
     "we'll undercut the door once the tile's down", Party.CREW),
    (SAW, "other", "whole room", "House was built before 1978 and the trim paint is not tested.",
     "house is older than seventy eight and nobody tested that trim paint", None),
    (OWED, "other", "whole room", "Lockbox by the side gate is 4471.",
     "lockbox by the side gate is four four seven one", Party.CREW),
    (OWED, "other", "whole room", "Sweep the stairs on the way out.",
     "and sweep the stairs on the way out", Party.CREW),
)  # fmt: skip

_HAZARDS = {6: (Hazard.STRUCTURE,), 8: (Hazard.STRUCTURE,), 21: (Hazard.ELECTRICAL,), 27: (Hazard.LEAD,)}
_REPAIRS = {11: (Repair("play wood", "plywood"),), 19: (Repair("semen board", "cement board"),)}
_SECONDS = 9.0


def walk(count: int = 30) -> Drafting:
    """Return ``count`` drafts and the captions they rest on: the thirty, over and over."""
    cues: list[Cue] = []
    drafts: list[Draft] = []
    for at in range(count):
        kind, phase, area, text, said, who = _WALK[at % len(_WALK)]
        start = 12.0 + at * _SECONDS
        words = said.split()
        half = len(words) // 2
        if half:
            cues.append(Cue(start, start + 3.5, " ".join(words[:half]), line=len(cues) * 4 + 3))
        cues.append(Cue(start + 3.5, start + 7.0, " ".join(words[half:]), line=len(cues) * 4 + 3))
        cues.append(Cue(start + 7.0, start + 9.0, "okay, what else", line=len(cues) * 4 + 3))
        drafts.append(
            Draft(
                start=start,
                end=start + 7.0,
                kind=kind,
                phase=phase,
                area=area,
                text=text,
                open=kind is OWED or at % len(_WALK) in _HAZARDS,
                who=who,
                hazards=_HAZARDS.get(at % len(_WALK), ()),
                why=f"{kind.plain}: “{' '.join(words[:4])}”; phase: {phase}",
                heard=said,
                repairs=_REPAIRS.get(at % len(_WALK), ()),
                audience=Audience.PRIVATE if "Lockbox" in text else Audience.CLIENT,
            )
        )
    verbatim = "\n".join(cue.text for cue in cues)
    digest = hashlib.sha256(f"{count}{verbatim}".encode()).hexdigest()
    captions = Captions("second-walk.vtt", "webvtt", tuple(cues), verbatim, digest)
    return Drafting(captions, tuple(drafts), ())


def walked_job(journal: Journal, count: int = 30, day: dt.date = dt.date(2026, 3, 11)) -> tuple[Job, Visit]:
    """Begin an invented job and log a visit with ``count`` drafts waiting."""
    job = add_job(journal, "Alder Lane 14, hall bath", client="Vera Lund", address="14 Alder Lane")
    visit = log_recording(journal, job.id, walk(count), day=day, people="Rui and Dana")
    return job, visit
