"""The palette (ctrl+p): every command of the screen it is opened on, found by typing."""

from __future__ import annotations

from functools import partial

from textual.command import DiscoveryHit, Hit, Hits, Provider
from textual.content import Content

from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import Command


class JournalCommands(Provider):
    """Finds the commands of the screen in use."""

    @property
    def _commands(self) -> tuple[type[Command], ...]:
        return self.screen.commands() if isinstance(self.screen, JournalScreen) else ()

    async def discover(self) -> Hits:
        for command in self._commands:
            yield DiscoveryHit(_shown(command), partial(self._run, command), command.name, command.help())

    async def search(self, query: str) -> Hits:
        matcher = self.matcher(query)
        for command in self._commands:
            score = max(matcher.match(command.name), matcher.match(command.help()) / 2)
            if score > 0:
                yield Hit(score, _shown(command), partial(self._run, command), command.name, command.help())

    async def _run(self, command: type[Command]) -> None:
        await self.screen.run_action(command.action())


def _shown(command: type[Command]) -> Content:
    return Content.assemble(command.name, (f"   {command.key_shown()}", "$mark"))
