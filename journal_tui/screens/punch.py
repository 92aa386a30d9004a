"""The punch list: what is open by phase, what waits on others, and what was closed."""

from __future__ import annotations

from textual.widgets import Input

from journal_tui.domain.errors import NothingFound
from journal_tui.domain.kinds import Party
from journal_tui.domain.punch import PunchItem, PunchState
from journal_tui.domain.times import short_day
from journal_tui.journal import punch
from journal_tui.screens.course import Course
from journal_tui.screens.punch_commands import PUNCH_COMMANDS
from journal_tui.screens.punch_desk import PunchDesk

_PARTIES = list(Party)


class PunchScreen(PunchDesk):
    """The punch list, a key for each thing to do with an item."""

    OWN_COMMANDS = PUNCH_COMMANDS
    HELP = (
        "The punch list: open work and open answers, phase by phase in the order the work goes. What waits "
        "on the client, the inspector or a supplier stands apart at the end, with since when. Left and "
        "right walk the phases."
    )
    # One key each -------------------------------------------------------------------------------------

    def action_finish_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.DONE, "Done. z takes it back.")

    def action_drop_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.DROPPED, "Dropped, not done. z takes it back.")

    def action_reopen_item(self) -> None:
        if here := self._in_hand():
            self._set(here, PunchState.OPEN, "Open again.")

    def _set(self, item: PunchItem, state: PunchState, said: str) -> None:
        if item.state is state:
            self.say(f"It is {state} already.")
            return
        do = {
            PunchState.DONE: punch.finish,
            PunchState.DROPPED: punch.drop,
            PunchState.OPEN: punch.reopen,
        }[state]
        with self.trying():
            changed = do(self.journal, item.id)
            self.reload()
            self.say(f"{said}{self._held(changed)}")

    def _held(self, item: PunchItem) -> str:
        from journal_tui.journal.plan_items import still_held

        held = still_held(self.journal, item)
        return " What follows waits for its result: s, then r, records it." if held else ""

    def action_hand_on(self) -> None:
        if here := self._in_hand():
            who = _PARTIES[(_PARTIES.index(here.who or Party.CREW) + 1) % len(_PARTIES)]
            with self.trying():
                punch.hand_to(self.journal, here.id, who)
                self.reload()
                self.say(f"Now the {who}'s move.")

    def _in_hand(self) -> PunchItem | None:
        if self.here is None:
            self.say("Nothing is on this list. + adds something.")
        return self.here

    def action_show_closed(self) -> None:
        self.among_closed = not self.among_closed
        self.seen = {}
        with self.trying():
            self.reload()

    def on_line_list_opened(self) -> None:
        self.action_open_item()

    def action_open_item(self) -> None:
        from journal_tui.journal.review import draft_of_entry

        if here := self._in_hand():
            with self.trying():
                draft = draft_of_entry(self.journal, here.entry_id) if here.entry_id else None
                if draft is None:
                    raise NothingFound(
                        "nothing was said of this", f"It was typed on {short_day(here.since)}."
                    )
                from journal_tui.screens.review import ReviewScreen

                self.app.push_screen(ReviewScreen(self.job_id or "", draft.visit_id, draft.id))

    def action_next_visit(self) -> None:
        from journal_tui.screens.next_visit import NextVisitScreen

        self.app.push_screen(NextVisitScreen(self.job_id or ""))

    def action_schedule_plan(self) -> None:
        from journal_tui.screens.schedule import ScheduleScreen

        self.app.push_screen(ScheduleScreen(self.job_id or ""))

    def action_client_update(self) -> None:
        from journal_tui.screens.update import UpdateScreen

        self.app.push_screen(UpdateScreen(self.job_id or ""))

    # Adding -------------------------------------------------------------------------------------------

    def action_add_item(self) -> None:
        self.add_class("-adding")
        self.type_into(self.line)
        self.show_detail()

    def on_input_changed(self, event: Input.Changed) -> None:
        super().on_input_changed(event)
        if event.input is self.line:
            self.show_detail()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        super().on_input_submitted(event)
        if event.input is not self.line:
            return
        with self.trying():
            item = punch.add(self.journal, self.job_id or "", self.line.value)
            self.line.used()
            self.query_one(Course).pick(None)
            self.reload()
            self.lines.select(item.id)
            self.say("On the list. Type the next one, or esc.")

    def action_back(self) -> None:
        adding = self.focused is self.line
        super().action_back()
        if adding:
            self.remove_class("-adding")
            self.lines.focus()
            self.show_detail()
