"""A form: a few lines to fill in, each kept as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.content import Content
from textual.widgets import Input, Label, Static

from journal_tui.domain.errors import JournalError
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
from journal_tui.screens.lines import brief, pieces
from journal_tui.screens.once import AnswersOnce
from journal_tui.screens.typing_line import TypingLine


class SaveForm(Command):
    """Save what is filled in. Enter on the last line does the same."""

    id = "form.save"
    name = "Save"
    key = "f2"
    foot = "save"
    always = True


class NextLine(Command):
    """Go on to the next line; tab and shift+tab go on and back too, and so do down and up."""

    id = "form.next"
    name = "Next line"
    key = "down,tab"
    foot = "next line"
    # Else what is typed fast behind the key still goes into the line before.
    always = True


class LineBefore(Command):
    """Go back to the line before."""

    id = "form.before"
    name = "Line before"
    key = "up,shift+tab"
    always = True


@dataclass(frozen=True, slots=True)
class Field:
    """A line of a form: the name its value is kept under, its label, what it holds now, and a hint."""

    name: str
    label: str
    value: str
    hint: str = ""


class FormLines(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The lines of a form: up and down go from line to line, also where there are more than fit."""


class FieldFault(Static):
    """What is wrong with the line above it, in words; nothing while nothing is known to be."""

    DEFAULT_CSS = "FieldFault { display: none; height: auto; padding: 0 0 0 14; color: $care; }"

    def __init__(self, name: str) -> None:
        super().__init__("", markup=False, id=f"fault-{name}")

    def tell(self, error: JournalError | None) -> None:
        """Say what is wrong, or nothing any more."""
        self.display = error is not None
        if error is None:
            self.update(Content(""))
            return
        title = brief(error.title)
        ended = "" if not error.body or title.endswith((".", "?")) else ":"
        said = f"{title}{ended} {brief(error.body)}".rstrip()
        self.update(pieces(("! ", "bold $care"), (said, "$care")))


class FormScreen(AnswersOnce[object], JournalScreen):
    """A form. Subclasses give ``fields``, ``place`` and ``save``; the result is what ``save`` returns."""

    OWN_COMMANDS: ClassVar[tuple[type[Command], ...]] = (NextLine, SaveForm, LineBefore)
    AUTO_FOCUS = "TypingLine"
    TYPES_AT_ONCE = True
    DEFAULT_CSS = """
    FormScreen VerticalScroll { height: 1fr; padding: 1 1 0 1; scrollbar-size-vertical: 1; }
    FormScreen Horizontal { height: 1; margin-bottom: 1; }
    FormScreen Label { width: 14; color: $soft; }
    FormScreen TypingLine { width: 1fr; }
    FormScreen TypingLine:focus { text-style: bold; }
    FormScreen FieldFault { margin-bottom: 1; }
    FormScreen.-low Horizontal, FormScreen.-low FieldFault, FormScreen Horizontal.-wrong { margin-bottom: 0; }
    """
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012

    #: Where half filled forms are kept; the fields' names follow.
    place = ""
    #: What stood in the lines when they could not be saved; None once one of them was changed.
    _refused: dict[str, str] | None = None

    def fields(self) -> Sequence[Field]:
        """Return the lines of the form. May raise ``JournalError``."""
        raise NotImplementedError

    def save(self, values: dict[str, str]) -> str | None:
        """Save the values by name and return what the form gives back. May raise ``JournalError``."""
        raise NotImplementedError

    def body(self) -> ComposeResult:
        with FormLines():
            for field in self.fields():
                with Horizontal(id=f"row-{field.name}"):
                    yield Label(field.label, markup=False)
                    yield TypingLine(
                        f"{self.place}/{field.name}",
                        value=field.value,
                        placeholder=field.hint,
                        id=f"field-{field.name}",
                    )
                yield FieldFault(field.name)

    @property
    def typing_lines(self) -> list[TypingLine]:
        """The lines in order."""
        return list(self.query(TypingLine))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        lines = self.typing_lines
        at = lines.index(event.input) if isinstance(event.input, TypingLine) else 0
        if at + 1 < len(lines):
            lines[at + 1].focus()
        else:
            self.action_save_form()

    def action_save_form(self) -> None:
        # Behind the keys still on their way into the line, so that what they type is saved too.
        (self.focused or self).call_later(self._save_form)

    def _save_form(self) -> None:
        if self.answered:
            return
        self._tell_all_well()
        values = self._values()
        try:
            result = self.save(values)
        except JournalError as error:
            self._tell_fault(error)
            self._refused = values
            return
        for line in self.typing_lines:
            line.used()
        self.dismiss(result)

    def _values(self) -> dict[str, str]:
        return {line.id.removeprefix("field-"): line.value for line in self.typing_lines if line.id}

    def _tell_fault(self, error: JournalError) -> None:
        """Say what is wrong beside the line it is about, and go there; at the foot when that is not known."""
        line = next((x for x in self.typing_lines if error.field and x.id == f"field-{error.field}"), None)
        if line is None:
            self.fail(error)
            return
        self.say("Not saved yet: see the line marked !")
        self.query_one(f"#row-{error.field}").add_class("-wrong")
        self.query_one(f"#fault-{error.field}", FieldFault).tell(error)
        line.focus()
        self.call_after_refresh(line.scroll_visible, animate=False)

    def _tell_all_well(self) -> None:
        if self._refused is None:
            return
        self._refused = None
        for fault in self.query(FieldFault):
            fault.tell(None)
        for row in self.query(".-wrong"):
            row.remove_class("-wrong")
        self.say("")

    def on_input_changed(self, event: Input.Changed) -> None:
        # Not for what was typed before it was found wrong, and is told of only now.
        if self._refused is not None and self._values() != self._refused:
            self._tell_all_well()

    def action_next_line(self) -> None:
        self.focus_next(TypingLine)

    def action_line_before(self) -> None:
        self.focus_previous(TypingLine)

    def go_back(self) -> None:
        self.dismiss(None)
