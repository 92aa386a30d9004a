"""The punch list as text for a terminal and as Markdown."""

from __future__ import annotations

import dataclasses
import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from journal_tui.documents import punch_markdown, punch_text
from journal_tui.documents.cells import cell_width
from journal_tui.domain.kinds import Hazard, Kind, Party
from journal_tui.domain.punch import PunchList, PunchState
from journal_tui.domain.text import one_line
from tests.documents.samples import DAY, HOSTILE, item, lines, plist, punch_lists

LIST = plist(
    item("strap the new supply and put nail plates on the four studs beside the valve", "tub wall",
         phase="rough plumbing", visit_day=dt.date(2026, 3, 11), said_at=161.9),
    item("stain on the ceiling", "hall", phase="demo", kind=Kind.OBSERVATION, who=None),
    item("screw down the planks", phase="subfloor", hazards=(Hazard.STRUCTURE,)),
    item("which mirror cabinet", "vanity", phase="trim", kind=Kind.DECISION, who=Party.CLIENT,
         visit_day=dt.date(2026, 3, 11)),
    item("water test", "tub wall", phase="rough plumbing", who=Party.INSPECTOR, since=DAY),
)  # fmt: skip


def test_the_list_in_full() -> None:
    assert punch_text(LIST, title="Quince Street, hall bath", as_of=DAY) == (
        "Punch list: Quince Street, hall bath\n"
        "Tuesday, March 17, 2026: 5 open, 2 of them waiting on others\n"
        "\n"
        "demo\n"
        "  [ ] hall            stain on the ceiling\n"
        "                      seen, not settled; nobody named\n"
        "\n"
        "rough plumbing\n"
        "  [ ] tub wall        strap the new supply and put nail plates on the four studs\n"
        "                      beside the valve\n"
        "                      visit Wed 11 Mar 2026, 2:41\n"
        "\n"
        "subfloor\n"
        "  [ ] floor           screw down the planks\n"
        "                      care: structure\n"
        "\n"
        "waiting on others: client\n"
        "  [ ] vanity          which mirror cabinet\n"
        "                      to be decided; trim; since Wed 11 Mar 2026 (6 days); visit\n"
        "                      Wed 11 Mar 2026\n"
        "\n"
        "waiting on others: inspector\n"
        "  [ ] tub wall        water test\n"
        "                      rough plumbing; since Tue 17 Mar 2026\n"
    )


def test_the_list_as_markdown() -> None:
    made = punch_markdown(LIST, title="Quince Street", as_of=DAY)
    assert made.startswith(
        "# Punch list: Quince Street\n\nTuesday, March 17, 2026: 5 open, 2 of them waiting on others.\n\n"
        "## Demo\n\n- **hall:** stain on the ceiling\n  (seen, not settled; nobody named)\n\n"
    )
    assert made.endswith(
        "## Waiting on others: inspector\n\n"
        "- **tub wall:** water test\n  (rough plumbing; since Tue 17 Mar 2026)\n"
    )


def test_an_empty_list_says_so() -> None:
    assert punch_text(plist(), title="t", as_of=DAY) == (
        "Punch list: t\nTuesday, March 17, 2026: 0 open\n\nNothing is open.\n"
    )
    assert punch_markdown(plist(), title="t", as_of=DAY).endswith(": 0 open.\n\nNothing is open.\n")


def test_closed_items_follow_and_items_bear_their_handles() -> None:
    done = item("haul the tub", "tub", phase="demo", who=None, kind=Kind.OBSERVATION,
                state=PunchState.DONE, closed=dt.date(2026, 3, 13), id="0192-beef")  # fmt: skip
    dropped = dataclasses.replace(done, state=PunchState.DROPPED, text="keep the tub", id="0192-cafe")
    made = punch_text(plist(), title="t", as_of=DAY, closed=[done, dropped], handle=4)
    assert made.endswith(
        "Nothing is open.\n\ndone and dropped\n"
        "  [x] beef  tub             haul the tub\n"
        "                            done Fri 13 Mar 2026; demo\n"
        "  [-] cafe  tub             keep the tub\n"
        "                            dropped Fri 13 Mar 2026; demo\n"
    )
    assert punch_markdown(plist(), title="t", as_of=DAY, closed=[done]).endswith(
        "## Done and dropped\n\n- **tub:** haul the tub\n  (done Fri 13 Mar 2026; demo)\n"
    )


@given(punch_lists, lines, st.integers(40, 100))
def test_text_fits_its_width(some: PunchList, title: str, width: int) -> None:
    for handle in (0, 6):
        made = punch_text(some, title=title, as_of=DAY, width=width, handle=handle)
        assert max(cell_width(line) for line in made.split("\n")) <= width


@given(lines, st.integers(40, 100))
def test_no_word_of_an_item_is_left_out(text: str, width: int) -> None:
    def item_rows(text: str, area: str) -> list[str]:
        made = punch_text(plist(item(text, area)), title="t", as_of=DAY, width=width)
        return made.partition("\nsubfloor\n")[2].split("\n")

    shown = "".join(one_line(text).split())
    assert "".join("".join(row[22:] for row in item_rows(text, "tub")).split()) == shown
    assert "".join("".join(row[6:] for row in item_rows("", text)).split()) == shown


def test_no_character_of_a_list_acts_on_a_terminal() -> None:
    for text in HOSTILE:
        made = punch_text(plist(item(text, text, phase=text)), title=text, as_of=DAY)
        assert all(one_line(line).strip() == " ".join(line.split()) for line in made.split("\n"))


@given(punch_lists, lines)
def test_the_same_list_makes_the_same_text(some: PunchList, title: str) -> None:
    for form in (punch_text, punch_markdown):
        assert form(some, title=title, as_of=DAY) == form(some, title=title, as_of=DAY)
