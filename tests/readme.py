"""What README.md says of the program, made by the program: its commands, and a tour's real output.

``python -m tests.readme --write`` makes both parts anew between their marks.
"""

from __future__ import annotations

import argparse
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

from journal_tui.cli.command import PROGRAM, options_of
from journal_tui.cli.registry import GROUPS

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
#: An output longer than this is cut in the README, with an ellipsis where it goes on.
MOST_LINES = 14
_PART = "<!-- {0}: made by python -m tests.readme --write -->\n{1}\n<!-- end of {0} -->"
_COMMAND = re.compile(r"^\$ (.+)$", re.MULTILINE)


def commands_part() -> str:
    """Return every command, what it does and its own options, as Markdown."""
    lines = []
    for title, group in GROUPS:
        lines += [f"**{title[0].upper()}{title[1:]}**", ""]
        for command in group:
            options = " ".join(f"`{name}`" for name in options_of(command))
            lines.append(f"- `{PROGRAM} {command.name}`: {command.summary}{' ' + options if options else ''}")
        lines.append("")
    return "\n".join(lines).rstrip()


def tour_commands(text: str) -> list[str]:
    """Return the command lines the README's tour shows, in order."""
    return _COMMAND.findall(part(text, "tour"))


def run_tour(commands: list[str], folder: Path) -> list[tuple[int, str]]:
    """Run command lines one after the other on an empty journal; return each exit code and output."""
    home = folder / "home"
    home.mkdir()
    environment = {
        **os.environ,
        "HOME": str(home),
        "XDG_DATA_HOME": str(home / "data"),
        "JOURNAL_TUI_PATH": str(home / "journal.db"),
        "PATH": f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}",
        "COLUMNS": "80",
    }
    (folder / "demo_data").symlink_to(ROOT / "demo_data")
    told = []
    for line in commands:
        done = subprocess.run(
            ["bash", "-o", "pipefail", "-c", line],
            cwd=folder,
            env=environment,
            capture_output=True,
            text=True,
        )
        told.append((done.returncode, (done.stdout + done.stderr).replace(str(home), "~")))
    return told


def part(text: str, name: str) -> str:
    """Return what stands between the marks of a part."""
    match = re.search(f"<!-- {name}: .*?-->\n(.*?)\n<!-- end of {name} -->", text, re.DOTALL)
    assert match, name
    return match.group(1)


def _with_part(text: str, name: str, body: str) -> str:
    pattern = re.compile(f"<!-- {name}: .*?-->\n.*?\n<!-- end of {name} -->", re.DOTALL)
    return pattern.sub(lambda _m: _PART.format(name, body), text)


def _cut(output: str) -> str:
    lines = output.rstrip("\n").split("\n")
    return "\n".join([*lines[:MOST_LINES], "…"] if len(lines) > MOST_LINES else lines)


def tour_part(text: str) -> str:
    """Return the tour with what its commands print now."""
    old = part(text, "tour")
    with tempfile.TemporaryDirectory() as folder:
        outputs = run_tour(tour_commands(text), Path(folder))
    blocks = iter(outputs)

    def again(match: re.Match[str]) -> str:
        command = match.group(1)
        _code, output = next(blocks)
        return f"```console\n$ {command}\n{_cut(output)}\n```".replace("\n\n```", "\n```")

    return re.sub(r"```console\n\$ (.+?)\n.*?```", again, old, flags=re.DOTALL)


def main() -> None:
    """Check, or with ``--write`` make, the parts of README.md that the program knows better."""
    parser = argparse.ArgumentParser(description=main.__doc__)
    parser.add_argument("--write", action="store_true", help="write README.md")
    args = parser.parse_args()
    text = README.read_text("utf-8")
    made = _with_part(text, "commands", commands_part())
    made = _with_part(made, "tour", tour_part(made))
    if args.write:
        README.write_text(made, "utf-8")
    elif made != text:
        sys.exit("README.md is behind the program; run: python -m tests.readme --write")


if __name__ == "__main__":
    main()
