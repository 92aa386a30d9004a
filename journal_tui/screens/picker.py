"""Small questions at the foot of the screen: one of a few words by a letter, or one line."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import Static

from journal_tui.screens.lines import Piece, brief, pieces
from journal_tui.screens.once import Modal
from journal_tui.screens.typing_line import TypingLine

_SPARE = "1234567890"
_ESC: tuple[Piece, ...] = (("esc", "bold $mark"), (" as it is", "$soft"))


def letters_for(words: Sequence[str]) -> list[str]:
    """Return a key for each word, all different: its first free letter, else any letter of it, else a digit.

    Words beyond what letters and digits can tell apart get "" and are reached by typing.
    """
    taken: set[str] = set()
    keys = []
    for word in words:
        letters = [c for c in word.lower() if c.isascii() and c.isalpha()]
        key = next((c for c in [*letters, *_SPARE] if c not in taken), "")
        taken.add(key)
        keys.append(key)
    return keys


class Question(Modal[str | None]):
    """A question at the foot of the screen; esc leaves things as they are, F1 says how it works."""

    HELP = ""
    BINDINGS = [  # noqa: RUF012
        Binding("escape", "leave", "Leave as it is", id="question.leave"),
        Binding("f1", "help", "Help", id="question.help", priority=True),
    ]

    def action_leave(self) -> None:
        self.dismiss(None)

    def action_help(self) -> None:
        from journal_tui.screens.help import HelpScreen

        self.app.push_screen(HelpScreen(self))


class Choices(Widget):
    """The words to choose from, each beside its letter, on as many lines as they take."""

    DEFAULT_CSS = """
    Choices { width: 100%; height: auto; max-height: 14; background: $bench; color: $ink; padding: 0 1;
        border-top: solid $tick; }
    """
    ALLOW_SELECT = False

    def __init__(self, choices: Sequence[tuple[Piece, ...]]) -> None:
        super().__init__()
        self._choices = choices

    def render(self) -> Content:
        return Content("\n").join(self._lines(self.size.width))

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        return len(self._lines(width))

    def _lines(self, width: int) -> list[Content]:
        # Broken by hand: a letter stays on the line of its word.
        lines = [pieces(*self._choices[0])]
        for choice in self._choices[1:]:
            shown = pieces(*choice)
            if lines[-1].cell_length + 3 + shown.cell_length <= width:
                lines[-1] = Content.assemble(lines[-1], "   ", shown)
            else:
                lines.append(shown)
        return lines


class Picker(Question):
    """Choose one of a few words by its letter; esc leaves things as they are (the result is None).

    ``push_screen(Picker("kind", ["saw", "chose"], current="saw"), callback)``. The result is the word.
    """

    HELP = "Press the letter before a word to choose it. Esc leaves it as it is."
    DEFAULT_CSS = "Picker { align: left bottom; background: transparent; }"

    def __init__(
        self, what: str, choices: Sequence[str], current: str | Collection[str] | None = None
    ) -> None:
        super().__init__()
        self._what, self._choices = what, list(choices)
        self._current = [current] if isinstance(current, str) else current or ()
        self._keys = letters_for([brief(c) for c in choices])

    def compose(self) -> ComposeResult:
        yield Choices(
            [((f"{self._what}?", "bold $ink"),), *map(self._shown, self._keys, self._choices), _ESC]
        )

    def _shown(self, key: str, choice: str) -> tuple[Piece, ...]:
        now = " (now)" if choice in self._current else ""
        return ((key, "bold $mark"), (f" {brief(choice)}{now}", "$ink"))

    def on_key(self, event: events.Key) -> None:
        character = (event.character or "").lower()
        if self.answered:
            # Typed behind the letter that chose: not a command of the screen coming back either.
            event.stop()
        elif character and character in self._keys:
            event.stop()
            self.dismiss(self._choices[self._keys.index(character)])


class Ask(Question):
    """Ask for one line, such as an entry's words; enter gives it, esc leaves things as they are (None).

    What is typed is kept under ``place`` until it was given, also when the question is left with esc.
    """

    HELP = "Enter takes the line as it stands. Esc leaves things as they were, and keeps what was typed here."
    DEFAULT_CSS = """
    Ask { align: left bottom; background: transparent; layout: vertical; }
    Ask Static { width: 100%; height: 1; background: $bench; color: $ink; padding: 0 1; }
    """

    def __init__(self, what: str, place: str, value: str = "") -> None:
        super().__init__()
        self._what, self._place, self._value = what, place, value

    def compose(self) -> ComposeResult:
        parts: list[Piece] = [
            (f"{self._what}   ", "bold $ink"),
            ("enter", "bold $mark"),
            (" takes it   ", "$soft"),
            ("esc", "bold $mark"),
            (" as it was", "$soft"),
        ]
        yield Static(pieces(*parts), markup=False)
        yield TypingLine(self._place, value=self._value)

    def on_mount(self) -> None:
        self.query_one(TypingLine).focus()

    def on_input_submitted(self, event: TypingLine.Submitted) -> None:
        line = self.query_one(TypingLine)
        text = line.value
        line.used()
        self.dismiss(text)
