"""Review of drafts: each kept, dropped or set right with one key, beside the words it rests on."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeVar

from journal_tui.domain.draft import OwnWord
from journal_tui.domain.kinds import OTHER_PHASE, Audience, Kind, Party
from journal_tui.domain.text import one_line
from journal_tui.journal import review
from journal_tui.journal.review import Change, ReviewDraft
from journal_tui.journal.stills import still_of_draft
from journal_tui.screens.area_picker import AreaPicker
from journal_tui.screens.hazard_picker import HazardPicker, hazard_chosen
from journal_tui.screens.line_list import LineList
from journal_tui.screens.picker import Picker
from journal_tui.screens.review_commands import REVIEW_COMMANDS
from journal_tui.screens.review_desk import ReviewDesk, words_place
from journal_tui.screens.review_panes import DraftCard
from journal_tui.screens.still import StillView
from journal_tui.screens.words_editor import WordsEditor

T = TypeVar("T")

_ACTIONS = {command.action() for command in REVIEW_COMMANDS}
_KINDS = list(Kind)
_PARTIES: list[Party | None] = [*Party, None]
_READERS = list(Audience)


class ReviewScreen(ReviewDesk):
    """The review of one visit's drafts, a key for each thing to do with them."""

    OWN_COMMANDS = REVIEW_COMMANDS
    HELP = (
        "Review of drafts. At the left what was said: a heavy rule marks the words the draft rests on. At "
        "the right the draft; the letter in front of each thing changes it. Enter keeps, x drops, and both "
        "go on to the next one waiting. Nothing asks whether you are sure: z takes back whatever you did."
    )

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """While words are edited no other command acts, however fast a key follows the one that began it."""
        if action in _ACTIONS and self.query_one(DraftCard).editor is not None:
            return False
        return super().check_action(action, parameters)

    def on_line_list_opened(self) -> None:
        self.action_keep_draft()

    # One key each -----------------------------------------------------------------------------------

    def action_keep_draft(self) -> None:
        here = self.here
        if here is None:
            self.action_punch_list()
            return
        with self.trying():
            review.keep(self.journal, [here.id])
            self.renew(here.id)
            self.say("")
            self.onward(self.place_of(here.id))

    def action_drop_draft(self) -> None:
        if here := self._in_hand():
            with self.trying():
                review.drop(self.journal, here.id)
                self.renew(here.id)
                self.say("Dropped. z takes it back.")
                self.onward(self.place_of(here.id))

    def action_next_waiting(self) -> None:
        if here := self._in_hand():
            self.onward(self.place_of(here.id))

    def action_keep_rest(self) -> None:
        with self.trying():
            count = review.keep_rest(self.journal, self.visit_id)
            self.reload()
            self.finish()
            self.say(
                f"Kept the {count} that were waiting. z takes that back." if count else "None is waiting."
            )

    def action_join_previous(self) -> None:
        if here := self._in_hand():
            with self.trying():
                joined = review.join_previous(self.journal, here.id)
                self.reload()
                self.go_to(joined.id)
                self.say("Joined with the one before.")

    def action_change_kind(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(kind=_after(_KINDS, here.draft.kind)))

    def action_change_who(self) -> None:
        if here := self._in_hand():
            who = _after(_PARTIES, here.draft.who)
            self._change(here, Change(who=who, nobody=who is None))

    def action_change_reader(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(audience=_after(_READERS, here.draft.audience)))

    def action_change_hazards(self) -> None:
        if here := self._in_hand():

            def chosen(word: str | None) -> None:
                if word is not None:
                    self._change(here, review.hazards_with(here.draft.hazards, hazard_chosen(word)))

            self.app.push_screen(HazardPicker(here.draft.hazards), chosen)

    def action_open_or_closed(self) -> None:
        if here := self._in_hand():
            self._change(here, Change(open=not here.draft.open))

    def action_change_phase(self) -> None:
        if here := self._in_hand():
            job, _visit = self.job_and_visit()
            phases = list(dict.fromkeys([*job.phases, here.draft.phase, OTHER_PHASE]))

            def chosen(phase: str | None) -> None:
                if phase is not None:
                    self._change(here, Change(phase=phase))

            self.app.push_screen(Picker("phase", phases, here.draft.phase), chosen)

    def action_change_area(self) -> None:
        if here := self._in_hand():

            def chosen(area: str | None) -> None:
                if area is not None:
                    self._change(here, Change(area=area))

            areas = review.area_choices(self.journal, self.visit_id)
            self.app.push_screen(AreaPicker(areas, here.draft.area), chosen)

    def _in_hand(self) -> ReviewDraft | None:
        here = self.here
        if here is None:
            self.say("No draft is in hand. Up goes back over them.")
        return here

    def _change(self, here: ReviewDraft, changes: Change) -> None:
        with self.trying():
            known = {word_id for word_id, _word in review.own_words(self.journal, self.job_id or "")}
            review.change(self.journal, here.id, changes)
            self.renew(here.id)
            words = review.own_words(self.journal, self.job_id or "")
            self.say(" ".join(_learned(word) for word_id, word in words if word_id not in known))

    # Words ------------------------------------------------------------------------------------------

    def action_edit_words(self) -> None:
        if here := self._in_hand():
            self.query_one(DraftCard).edit(words_place(here.id), here.draft.text)
            self.say("enter takes the words, esc leaves them half edited")

    def on_words_editor_taken(self, event: WordsEditor.Taken) -> None:
        here = self.here
        if here is None:
            return
        with self.trying():
            review.change(self.journal, here.id, Change(text=event.words))
            self.japp.autosave.keep(words_place(here.id), "")
            self._put_editor_away()
            self.renew(here.id)
            self.say("")

    def on_words_editor_left(self) -> None:
        self._put_editor_away()
        self.say("")
        self.show_here()

    def _put_editor_away(self) -> None:
        self.query_one(DraftCard).close_editor()
        self.query_one(LineList).focus()

    # Elsewhere ----------------------------------------------------------------------------------------

    def action_undo(self) -> None:
        before = {d.id: d for d in self.drafts}
        super().action_undo()
        changed = next((d for d in self.drafts if before.get(d.id) != d), None)
        if changed is not None:
            self.go_to(changed.id)

    def action_view_still(self) -> None:
        if here := self._in_hand():
            with self.trying():
                still = still_of_draft(self.journal, here.id)
                if still is None:
                    self.say("No still was taken for this draft.")
                else:
                    self.app.push_screen(StillView(still))

    def action_punch_list(self) -> None:
        from journal_tui.screens.punch import PunchScreen

        self.app.push_screen(PunchScreen(self.job_id or ""))

    def action_client_update(self) -> None:
        from journal_tui.screens.update import UpdateScreen

        self.app.push_screen(UpdateScreen(self.job_id or ""))


def _after(values: Sequence[T], value: T) -> T:
    return values[(values.index(value) + 1) % len(values)]


def _learned(word: OwnWord) -> str:
    where = " and ".join(filter(None, (word.area, word.phase)))
    return f"Learned: “{one_line(word.phrase)}” belongs to {one_line(where)}."
