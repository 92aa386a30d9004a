"""A form: a few lines to fill in, each kept as it is typed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual.app import ComposeResult
from textual.containers import Horizontal, VerticalScroll
from textual.widgets import Input, Label

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command
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
    key = "down"
    foot = "next line"


class LineBefore(Command):
    """Go back to the line before."""

    id = "form.before"
    name = "Line before"
    key = "up"


@dataclass(frozen=True, slots=True)
class Field:
    """A line of a form: the name its value is kept under, its label, what it holds now, and a hint."""

    name: str
    label: str
    value: str
    hint: str = ""


class FormLines(VerticalScroll, can_focus=False, inherit_bindings=False):
    """The lines of a form: up and down go from line to line, also where there are more than fit."""


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
    FormScreen.-low Horizontal { margin-bottom: 0; }
    """
    VERTICAL_BREAKPOINTS = [(0, "-low"), (20, "-tall")]  # noqa: RUF012

    #: Where half filled forms are kept; the fields' names follow.
    place = ""

    def fields(self) -> Sequence[Field]:
        """Return the lines of the form. May raise ``JournalError``."""
        raise NotImplementedError

    def save(self, values: dict[str, str]) -> str | None:
        """Save the values by name and return what the form gives back. May raise ``JournalError``."""
        raise NotImplementedError

    def body(self) -> ComposeResult:
        with FormLines():
            for field in self.fields():
                with Horizontal():
                    yield Label(field.label, markup=False)
                    yield TypingLine(
                        f"{self.place}/{field.name}",
                        value=field.value,
                        placeholder=field.hint,
                        id=f"field-{field.name}",
                    )

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
        if self.answered:
            return
        with self.trying():
            values = {line.id.removeprefix("field-"): line.value for line in self.typing_lines if line.id}
            result = self.save(values)
            for line in self.typing_lines:
                line.used()
            self.dismiss(result)

    def action_next_line(self) -> None:
        self.focus_next(TypingLine)

    def action_line_before(self) -> None:
        self.focus_previous(TypingLine)

    def go_back(self) -> None:
        self.dismiss(None)
