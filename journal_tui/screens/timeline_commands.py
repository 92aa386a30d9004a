"""What can be done on a job's timeline."""

from __future__ import annotations

from journal_tui.screens.commands import Command


class OpenLine(Command):
    """Open the selected visit with all that was said, or the selected entry with the words it rests on."""

    id = "timeline.open"
    name = "Open the visit or entry"
    key = "enter"


class LogVisit(Command):
    """Log a visit to this house from the captions of a recording; drafts are made from them to review."""

    id = "timeline.log"
    name = "Log a visit"
    key = "l"
    foot = "log"


class TypeLines(Command):
    """Type what you see, choose or owe, one thing a line; each line is drafted as you type it."""

    id = "timeline.type"
    name = "Type entries"
    key = "t"
    foot = "type"


class PunchList(Command):
    """Show what is open in this house, in the order the work goes, and what waits on others."""

    id = "timeline.punch"
    name = "Punch list"
    key = "p"
    foot = "punch list"


class SchedulePlan(Command):
    """Draw when all that is open can be done, why nothing is sooner, and when the job ends."""

    id = "timeline.schedule"
    name = "Schedule"
    key = "w"


class NextVisit(Command):
    """Put the next visit together: what is ready and fits, what to load, what the rest waits for."""

    id = "timeline.visit"
    name = "Next visit"
    key = "v"


class ChangeOrders(Command):
    """Write what nobody priced as change orders, see the contract with them, record the answers."""

    id = "timeline.orders"
    name = "Change orders and contract"
    key = "c"


class HouseRecord(Command):
    """Keep what is behind each surface, and the closing file of the finished job."""

    id = "timeline.record"
    name = "Record of the house"
    key = "h"


class Measures(Command):
    """Measure: does the floor work, does it fit through, how much of everything."""

    id = "timeline.measures"
    name = "Measures"
    key = "m"


class ReviewDrafts(Command):
    """Review the drafts made from a recording: keep, drop or change each, beside the words said."""

    id = "timeline.review"
    name = "Review drafts"
    key = "r"
    foot = "review"


class ClientUpdate(Command):
    """Write to the client what was found, decided and done, what is next, and what is needed of them."""

    id = "timeline.update"
    name = "Client update"
    key = "u"
    foot = "update"


class SearchJob(Command):
    """Find words in this job: in its entries and in all that was said."""

    id = "timeline.search"
    name = "Search this job"
    key = "slash"
    foot = "search"


class NextPhase(Command):
    """Walk the course to the next phase; the timeline shows only that one."""

    id = "timeline.next_phase"
    name = "Next phase"
    key = "right"


class PhaseBefore(Command):
    """Walk the course back by one phase; before the first stands the whole job."""

    id = "timeline.phase_before"
    name = "Phase before"
    key = "left"


class EditJob(Command):
    """Change what is written of this job: name, client, address, year built, scope, phases, private note."""

    id = "timeline.edit_job"
    name = "Edit the job"
    key = "e"


class Jobs(Command):
    """Go to the list of all jobs."""

    id = "timeline.jobs"
    name = "All jobs"
    key = "j"


TIMELINE: tuple[type[Command], ...] = (
    LogVisit,
    TypeLines,
    PunchList,
    ReviewDrafts,
    ClientUpdate,
    SearchJob,
    OpenLine,
    Measures,
    SchedulePlan,
    NextVisit,
    ChangeOrders,
    HouseRecord,
    NextPhase,
    PhaseBefore,
    EditJob,
    Jobs,
)
