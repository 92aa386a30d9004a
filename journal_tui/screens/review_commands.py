"""What can be done in a review of drafts."""

from __future__ import annotations

from journal_tui.screens import commands
from journal_tui.screens.commands import Command


class KeepDraft(Command):
    """Keep the draft as it stands and go on to the next one waiting; a dropped one is kept after all."""

    id = "review.keep"
    name = "Keep"
    key = "enter"
    foot = "keep"


class DropDraft(Command):
    """Drop the draft and go on; one already kept is taken back out of the journal."""

    id = "review.drop"
    name = "Drop"
    key = "x"
    foot = "drop"


class EditWords(Command):
    """Change the draft's words in place. Enter takes them; esc leaves, and what is typed stays for later."""

    id = "review.words"
    name = "Edit the words"
    key = "e"
    foot = "words"


class ChangeKind(Command):
    """Change what it is: saw, then chose, then owed, then saw again."""

    id = "review.kind"
    name = "Change the kind"
    key = "k"


class ChangePhase(Command):
    """Put it in another phase: a letter picks one. The next visit is drafted with what this teaches."""

    id = "review.phase"
    name = "Change the phase"
    key = "p"


class ChangeArea(Command):
    """Put it in another area: type a few letters of one, or a new one. This is remembered too."""

    id = "review.area"
    name = "Change the area"
    key = "a"


class ChangeWho(Command):
    """Change whose move it is: crew, client, inspector, supplier, nobody."""

    id = "review.who"
    name = "Change whose move it is"
    key = "w"


class ChangeReader(Command):
    """Change who may read it: the client, the crew only, nobody but you."""

    id = "review.reader"
    name = "Change who may read it"
    key = "t"


class ChangeHazards(Command):
    """Name what can hurt someone here, or take it away: a letter picks one, and picks it off again."""

    id = "review.hazards"
    name = "Change the hazards"
    key = "h"


class OpenOrClosed(Command):
    """Say whether work or an answer is still owed. What is open goes on the punch list."""

    id = "review.open"
    name = "Open or closed"
    key = "o"


class JoinPrevious(Command):
    """Join the draft to the one before it: one entry, both their words."""

    id = "review.join"
    name = "Join with the one before"
    key = "j"
    foot = "join"


class NextWaiting(Command):
    """Leave the draft as it is for now and go to the next one waiting."""

    id = "review.skip"
    name = "Leave it for later"
    key = "space"


class KeepRest(Command):
    """Keep every draft still waiting, as they stand. Undo takes that back in one step."""

    id = "review.rest"
    name = "Keep all the rest"
    key = "K"
    foot = "keep the rest"


class ShowMoreSaid(Command):
    """Look further on in the words said; page keys move the list."""

    id = "review.said_on"
    name = "Words said further on"
    key = "right_square_bracket"


class ShowEarlierSaid(Command):
    """Look further back in the words said."""

    id = "review.said_back"
    name = "Words said further back"
    key = "left_square_bracket"


class ViewStill(Command):
    """See the picture taken out of the recording near what was said, over the whole screen."""

    id = "review.still"
    name = "View the still"
    key = "v"


class PunchList(Command):
    """See what the kept drafts leave open: the job's punch list."""

    id = "review.punch"
    name = "Punch list"
    key = "P"


class ClientUpdate(Command):
    """See what the client would be told: the update, not yet sent."""

    id = "review.update"
    name = "Client update"
    key = "u"


class Undo(commands.Undo):
    """Take back the newest change: a keep, a drop, a join, a changed word. As often as you like."""

    foot = "undo"


REVIEW_COMMANDS: tuple[type[Command], ...] = (
    KeepDraft,
    DropDraft,
    EditWords,
    JoinPrevious,
    Undo,
    KeepRest,
    ChangeKind,
    ChangePhase,
    ChangeArea,
    ChangeWho,
    ChangeReader,
    ChangeHazards,
    OpenOrClosed,
    NextWaiting,
    ShowMoreSaid,
    ShowEarlierSaid,
    ViewStill,
    PunchList,
    ClientUpdate,
)
