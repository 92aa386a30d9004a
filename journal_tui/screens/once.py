"""Screens that give their answer once, however fast the keys come."""

from __future__ import annotations

from typing import TypeVar

from textual.await_complete import AwaitComplete
from textual.screen import ModalScreen, Screen

Answer = TypeVar("Answer")


class AnswersOnce(Screen[Answer]):
    """A screen that goes away with its first answer.

    Keys typed faster than a screen closes still reach it. Textual closes whatever screen is on top, so
    a second answer would close the screen behind, or find none.
    """

    #: True once the answer was given and the screen is on its way out.
    answered = False

    def dismiss(self, result: Answer | None = None) -> AwaitComplete:
        if self.answered or not self.is_active:
            return AwaitComplete()
        self.answered = True
        return super().dismiss(result)


class Modal(AnswersOnce[Answer], ModalScreen[Answer]):
    """A modal screen that answers once."""
