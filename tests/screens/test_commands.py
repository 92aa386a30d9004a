"""One definition a command: keys, the line of keys, the palette and F1 all come from it."""

from __future__ import annotations

import importlib
import pkgutil

import pytest
from rich.cells import cell_len

import journal_tui.screens
from journal_tui.journal.opening import Journal
from journal_tui.screens.base import JournalScreen
from journal_tui.screens.commands import EVERYWHERE, Command, Help
from journal_tui.screens.frame import KeyLine
from journal_tui.screens.palette import JournalCommands
from tests.screens.seeing import app_on, seen, top, typed, until
from tests.screens.walks import walked_job


def _every_screen() -> list[type[JournalScreen]]:
    for module in pkgutil.iter_modules(journal_tui.screens.__path__):
        importlib.import_module(f"journal_tui.screens.{module.name}")
    found: list[type[JournalScreen]] = []
    waiting = [JournalScreen]
    while waiting:
        screen = waiting.pop()
        waiting += screen.__subclasses__()
        if screen.OWN_COMMANDS:
            found.append(screen)
    return sorted(found, key=lambda s: s.__name__)


SCREENS = _every_screen()


@pytest.mark.parametrize("screen", SCREENS, ids=lambda s: s.__name__)
def test_every_command_has_an_action_a_help_and_its_key(screen: type[JournalScreen]) -> None:
    bound = {b.id: b for b in screen.BINDINGS if not isinstance(b, tuple)}
    for command in screen.commands():
        assert callable(getattr(screen, f"action_{command.action()}", None)), command.__name__
        assert len(command.help()) > 10 and command.help().endswith("."), command.__name__
        assert bound[command.id].key == command.key
        assert bound[command.id].action == command.action()


@pytest.mark.parametrize("screen", SCREENS, ids=lambda s: s.__name__)
def test_no_two_commands_of_a_screen_share_a_key(screen: type[JournalScreen]) -> None:
    keys = [key for command in screen.commands() for key in command.key.split(",")]
    assert len(keys) == len(set(keys))
    # Eaten by terminal multiplexers and line disciplines (common practice, no source).
    assert not {"ctrl+b", "ctrl+j", "ctrl+s", "ctrl+o"} & set(keys)


@pytest.mark.parametrize("screen", SCREENS, ids=lambda s: s.__name__)
def test_the_line_of_keys_fits_eighty_columns_whole(screen: type[JournalScreen]) -> None:
    wanted = [c for c in screen.commands() if c.foot]
    assert len(wanted) <= 7
    line = KeyLine(screen.commands())
    shown = line.fitting(78)
    assert set(shown) == set(wanted), "a key is left out"
    text = "   ".join(f"{c.key_shown()} {c.foot}" for c in shown)
    assert cell_len(text) <= 78


def test_help_is_always_among_the_keys_however_narrow() -> None:
    for screen in SCREENS:
        for width in (8, 20, 38):
            shown = KeyLine(screen.commands()).fitting(width)
            assert shown[-1] is Help
            assert cell_len("   ".join(f"{c.key_shown()} {c.foot}" for c in shown)) <= max(width, 7)


def test_ids_are_stable_names_and_one_id_means_one_command() -> None:
    commands: dict[str, set[str]] = {}
    waiting: list[type[Command]] = [Command]
    while waiting:
        command = waiting.pop()
        waiting += command.__subclasses__()
        if "id" in command.__dict__:
            commands.setdefault(command.id, set()).add(command.__name__)
    assert all(len(names) == 1 for names in commands.values()), commands
    assert all(id.count(".") == 1 and id == id.lower() for id in commands)


async def test_the_palette_lists_every_command_of_the_screen_and_runs_it(journal: Journal) -> None:
    job, _visit = walked_job(journal, 3)
    app = app_on(journal, job.id)
    async with app.run_test() as pilot:
        await pilot.pause()
        screen = top(app)
        provider = JournalCommands(screen)
        names = [hit.text async for hit in provider.discover()]
        assert names == [c.name for c in screen.commands()]
        assert {c.name for c in EVERYWHERE} <= set(filter(None, names))
        found = [hit.text async for hit in provider.search("punch")]
        assert "Punch list" in found
        await pilot.press("ctrl+p")
        await typed(pilot, "all jobs")
        await until(pilot, lambda: "Go to the list of all jobs." in seen(app))
        await pilot.press("enter")
        await until(pilot, lambda: type(app.screen).__name__ == "JobsScreen")


async def test_f1_explains_what_is_in_use_and_lists_every_key(journal: Journal) -> None:
    job, _visit = walked_job(journal, 3)
    app = app_on(journal, job.id)
    async with app.run_test(size=(80, 60)) as pilot:
        await pilot.pause()
        screen = top(app)
        await pilot.press("f1")
        shown = seen(app)
        assert "In use now: A list." in shown
        for command in screen.commands():
            assert f" {command.key_shown()} " in shown, command.name
            assert " ".join(command.help().split()[:4]) in shown
        await pilot.press("escape")
        assert app.screen is screen


async def test_a_click_on_a_key_does_what_the_key_does(journal: Journal) -> None:
    app = app_on(journal)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        line = seen(app).splitlines()[-1]
        await pilot.click(offset=(line.index("n new job") + 3, 23))
        await pilot.pause()
        assert type(app.screen).__name__ == "JobForm"
