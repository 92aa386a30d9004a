"""One entry: its words, what is known of it, what was said, and setting it right."""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.widgets import Static

from journal_tui.domain.entry import Entry
from journal_tui.domain.kinds import OTHER_PHASE, Audience, Kind, Party
from journal_tui.domain.punch import PunchState
from journal_tui.domain.text import visible
from journal_tui.domain.times import clock
from journal_tui.journal.entries import EntryDetail, change_entry, entry_detail
from journal_tui.journal.jobs import get_job
from journal_tui.journal.photos import photos_of
from journal_tui.journal.record_lines import on_record
from journal_tui.journal.review import Change
from journal_tui.journal.stills import still_of_entry
from journal_tui.journal.typed import MOST_TYPED
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.beside import from_marked, said_pieces
from journal_tui.screens.commands import Command
from journal_tui.screens.lines import Piece, brief, fit, pieces
from journal_tui.screens.ruled import day_shown

_LABEL = 10


class EditWords(Command):
    """Change the entry's words. What was said stays as it was recorded."""

    id = "entry.words"
    name = "Edit the words"
    key = "e"
    foot = "words"


class ChangeKind(Command):
    """Change what it is: saw, chose or owed. What is owed goes on the punch list."""

    id = "entry.kind"
    name = "Change the kind"
    key = "k"
    foot = "kind"


class ChangePhase(Command):
    """Put it in another phase."""

    id = "entry.phase"
    name = "Change the phase"
    key = "p"
    foot = "phase"


class ChangeArea(Command):
    """Put it in another area: type a few letters of one, or a new one."""

    id = "entry.area"
    name = "Change the area"
    key = "a"
    foot = "area"


class ChangeWho(Command):
    """Change whose move it is: crew, client, inspector or supplier."""

    id = "entry.who"
    name = "Change whose move it is"
    key = "w"
    foot = "who"


class ChangeReader(Command):
    """Change who may read it: the client, the crew only, or nobody but you."""

    id = "entry.reader"
    name = "Change who may read it"
    key = "t"
    foot = "reader"


class ChangeHazards(Command):
    """Name what can hurt someone here, or take it away: a letter picks one, and picks it off again."""

    id = "entry.hazards"
    name = "Change the hazards"
    key = "h"


class ShowPhotos(Command):
    """See the photos of the entry, attach more, or take one away."""

    id = "entry.photos"
    name = "Photos"
    key = "i"


class ShowStill(Command):
    """Show the still that the recording has of it, over the whole screen; any key goes back."""

    id = "entry.still"
    name = "The still of the recording"
    key = "v"


class PutOnRecord(Command):
    """Put what the entry says on the record of the house: what is behind a surface, and where."""

    id = "entry.record"
    name = "Put on the record of the house"
    key = "b"


class EntryScreen(JournalScreen):
    """One entry in full."""

    HELP = "One entry in full. The words said that it rests on have a bar in front."
    OWN_COMMANDS = (
        EditWords,
        ChangeKind,
        ChangePhase,
        ChangeArea,
        ChangeWho,
        ChangeReader,
        ChangeHazards,
        ShowPhotos,
        ShowStill,
        PutOnRecord,
    )
    AUTO_FOCUS = "VerticalScroll"
    DEFAULT_CSS = """
    EntryScreen VerticalScroll { height: 1fr; padding: 1 1 0 1; scrollbar-size-vertical: 1; }
    """

    def __init__(self, job_id: str, entry_id: str) -> None:
        super().__init__(job_id)
        self.entry_id = entry_id
        self._entry: Entry | None = None

    def body(self) -> ComposeResult:
        with VerticalScroll():
            yield Static("", markup=False)

    def reload(self) -> None:
        detail = entry_detail(self.journal, self.entry_id)
        self._entry = detail.entry
        job = get_job(self.journal, detail.entry.job_id)
        self.title_is(job.name, f"entry of {day_shown(detail.entry.day, self.journal.today())}")
        self.query_one(Static).update(pieces(*self._parts(detail)))

    def _parts(self, detail: EntryDetail) -> list[Piece]:
        entry, item = detail.entry, detail.item
        parts: list[Piece] = [
            (f"{entry.kind.spoken}  ", "bold $owed" if item else "bold $chose"),
            (f"{_in_full(entry.text)}\n\n", "bold $ink"),
        ]
        facts = [("phase", entry.phase), ("area", entry.area or "not said")]
        if item is not None:
            facts.append(("stands", _stands(detail, day_shown(item.since, self.journal.today()))))
        facts.append(("hazard", ", ".join(entry.hazards) or "none named (h names one)"))
        facts.append(("reader", _READS[entry.audience]))
        if still := still_of_entry(self.journal, entry.id):
            facts.append(("still", f"at {clock(still.moment)} of the recording (v shows it)"))
        count = len(photos_of(self.journal, entry.id))
        facts.append(("photos", f"{count} (i shows them)" if count else "none (i attaches one)"))
        kept = "; ".join(on_record(self.journal, entry.id))
        facts.append(("on record", kept or "no (b puts it on the record of the house)"))
        visit = detail.visit
        where = f" in {visit.recording_name}" if visit.recording_name else ""
        facts.append(
            ("from", f"{day_shown(visit.day, self.journal.today())}, {visit.people or 'nobody named'}{where}")
        )
        for label, said in facts:
            parts += [(fit(label, _LABEL), "$soft"), (f"{brief(said)}\n", "$ink")]
        if detail.said:
            parts += [("\nsaid\n", "$soft"), *said_pieces(from_marked(detail.said))]
        else:
            parts.append(("\nTyped, not said.\n", "$soft"))
        return parts

    # Setting it right ------------------------------------------------------------------------------

    def _change(self, changes: Change) -> None:
        with self.trying():
            change_entry(self.journal, self.entry_id, changes)
            self.reload()
            self.say("Changed. z takes it back.")

    def action_edit_words(self) -> None:
        from journal_tui.screens.picker import Ask

        def given(text: str | None) -> None:
            if text is not None:
                self._change(Change(text=text))

        if self._entry and len(self._entry.text) > MOST_TYPED:
            self.say(f"More than {MOST_TYPED:,} characters cannot be edited in a line here.")
        elif self._entry:
            self.app.push_screen(Ask("words", f"entry/{self.entry_id}", self._entry.text), given)

    def _pick(self, what: str, choices: dict[str, Change], current: str) -> None:
        from journal_tui.screens.picker import Picker

        def given(choice: str | None) -> None:
            if choice is not None:
                self._change(choices[choice])

        self.app.push_screen(Picker(what, list(choices), current), given)

    def action_change_kind(self) -> None:
        if self._entry:
            self._pick("kind", {k.spoken: Change(kind=k) for k in Kind}, self._entry.kind.spoken)

    def action_change_phase(self) -> None:
        if self._entry:
            phases = get_job(self.journal, self._entry.job_id).phases
            names = dict.fromkeys([*phases, self._entry.phase, OTHER_PHASE])
            self._pick("phase", {p: Change(phase=p) for p in names}, self._entry.phase)

    def action_change_who(self) -> None:
        if self._entry:
            choices = {p.value: Change(who=p) for p in Party}
            if self._entry.kind is not Kind.NEXT_STEP:
                choices["nobody"] = Change(nobody=True)
            self._pick("whose move", choices, self._entry.who.value if self._entry.who else "nobody")

    def action_change_reader(self) -> None:
        if self._entry:
            choices = {words: Change(audience=audience) for audience, words in _READS.items()}
            self._pick("who may read it", choices, _READS[self._entry.audience])

    def action_change_hazards(self) -> None:
        if self._entry:
            from journal_tui.journal.review import hazards_with
            from journal_tui.screens.hazard_picker import HazardPicker, hazard_chosen

            hazards = self._entry.hazards

            def given(word: str | None) -> None:
                if word is not None:
                    self._change(hazards_with(hazards, hazard_chosen(word)))

            self.app.push_screen(HazardPicker(hazards), given)

    def action_show_photos(self) -> None:
        from journal_tui.screens.photos import PhotosScreen

        self.app.push_screen(PhotosScreen(self.job_id or "", self.entry_id))

    def action_show_still(self) -> None:
        with self.trying():
            still = still_of_entry(self.journal, self.entry_id)
            if still is None:
                self.say("No still was taken of this.")
                return
            from journal_tui.screens.still import StillView

            self.app.push_screen(StillView(still))

    def action_put_on_record(self) -> None:
        from journal_tui.screens.record_forms import WorkForm

        def after(work_id: object) -> None:
            if work_id is not None:
                with self.trying():
                    self.reload()
                    self.say("On the record of the house: h on the timeline shows it. z takes it back.")

        self.app.push_screen(WorkForm(self.job_id or "", entry_id=self.entry_id), after)

    def action_change_area(self) -> None:
        if self._entry:
            from journal_tui.journal.review import area_choices
            from journal_tui.screens.area_picker import AreaPicker

            def given(area: str | None) -> None:
                if area is not None:
                    self._change(Change(area=area))

            areas = area_choices(self.journal, self._entry.visit_id)
            self.app.push_screen(AreaPicker(areas, self._entry.area), given)


_READS = {
    Audience.CLIENT: "the client too",
    Audience.CREW: "crew only",
    Audience.PRIVATE: "only you",
}


def _in_full(text: str) -> str:
    if len(text) <= MOST_TYPED:
        return visible(text)
    return f"{visible(text[:MOST_TYPED])}… ({len(text):,} characters in all)"


def _stands(detail: EntryDetail, since: str) -> str:
    item = detail.item
    if item is None:
        return ""
    if item.state is PunchState.OPEN:
        return f"open since {since}, {item.who.value if item.who else 'nobody'} to move"
    return f"{item.state.value}{f' {item.closed.isoformat()}' if item.closed else ''}"
