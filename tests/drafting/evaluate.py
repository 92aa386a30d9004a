"""Score the drafter on labelled walk-throughs it has not been trained on.

    python -m tests.drafting.evaluate [DIR] [--voices] [--parts N] [--errors] [--only NAME ...]

Walk-throughs (of DIR, or of the folder beside this file) are left out in groups (with --voices,
whole voices), the models are trained on all others, and the left-out ones are drafted and scored.
A walk-through of DIR that is also in the training folder is left out of training by its name.
"""

from __future__ import annotations

import argparse
import random
import re
from collections import Counter
from collections.abc import Sequence
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from journal_tui.domain.draft import Draft, JobWords
from journal_tui.walkthrough.drafting.drafter import drafts_by
from tests.drafting.labelled import WALKS, is_machine, voices, walks_in
from tests.drafting.score import KINDS, Walk, counted, figures, matched, total
from tests.drafting.train import train

_HEAD = (
    "walk-through                   gold  drafts  P     R     F1    F1kind saw   chose owed  "
    "phase open  who   hazard start end   words grade"
)


def groups_of(walks: Sequence[Walk], parts: int, *, by_voice: bool) -> list[list[Walk]]:
    """Return ``walks`` in at most ``parts`` groups; with ``by_voice`` a voice is never split."""
    together: dict[str, list[Walk]] = {}
    for walk in walks:
        together.setdefault(voices().get(walk.name, walk.name) if by_voice else walk.name, []).append(walk)
    keys = sorted(together)
    random.Random(3).shuffle(keys)
    groups: list[list[Walk]] = [[] for _ in range(parts)]
    for key in keys:
        min(groups, key=len).extend(together[key])
    return [group for group in groups if group]


def left_out_drafts(
    walks: Sequence[Walk], parts: int, *, by_voice: bool = False
) -> dict[str, tuple[Draft, ...]]:
    """Return each walk-through's drafts by models that have not seen it (nor its voice)."""
    out: dict[str, tuple[Draft, ...]] = {}
    with ProcessPoolExecutor() as workers:
        for drafts in workers.map(_drafts_of, groups_of(walks, parts, by_voice=by_voice)):
            out.update(drafts)
    return out


def _drafts_of(group: Sequence[Walk]) -> dict[str, tuple[Draft, ...]]:
    hidden = {walk.name for walk in group}
    models = train([walk for walk in walks_in() if walk.name not in hidden])
    return {walk.name: drafts_by(models, walk.captions, JobWords()) for walk in group}


def grade(texts: Sequence[str]) -> float:
    """Return the mean Flesch-Kincaid grade of texts, each one sentence (Kincaid et al. 1975)."""
    words = [re.findall(r"[A-Za-z0-9']+", text) for text in texts]
    count = sum(len(w) for w in words)
    syllables = sum(max(1, len(re.findall(r"[aeiouy]+", w.lower()))) for ws in words for w in ws)
    return 0.39 * count / max(1, len(texts)) + 11.8 * syllables / max(1, count) - 15.59


def line(name: str, count: Counter[str], texts: Sequence[str]) -> str:
    """Return one row of the table."""
    f = figures(count)
    shown = [f["precision"], f["recall"], f["f1"], f["f1_kind"], *(f["f1_" + kind] for kind in KINDS)]
    shown += [f[key] for key in ("phase", "open", "who", "hazard", "start", "end")]
    length = sum(len(text.split()) for text in texts) / max(1, len(texts))
    row = " ".join(f"{value:.3f}" for value in shown)
    return f"{name:30s} {count['ng']:5d} {count['nd']:6d}  {row} {length:5.1f} {grade(texts):5.1f}"


def errors(drafts: Sequence[Draft], walk: Walk) -> list[str]:
    """Return what was missed, made up, or given the wrong kind or phase, one a line."""
    pairs = dict(matched(drafts, walk))
    out = []
    for at, draft in enumerate(drafts):
        gold = walk.gold[pairs[at]] if at in pairs else None
        if gold is None:
            out.append(f"  extra  {draft.start:6.1f} {draft.kind.spoken:5s} {draft.text}")
        elif gold.kind != draft.kind.value:
            out.append(f"  kind   {draft.start:6.1f} {draft.kind.spoken:5s} not {gold.kind}: {draft.text}")
        elif gold.phase != draft.phase:
            out.append(f"  phase  {draft.start:6.1f} {draft.phase} not {gold.phase}: {draft.text}")
    found = set(pairs.values())
    out += [f"  missed {g.start:6.1f} {g.kind}: {g.text}" for n, g in enumerate(walk.gold) if n not in found]
    return out


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawTextHelpFormatter)
    parser.add_argument("folder", nargs="?", type=Path, default=WALKS)
    parser.add_argument("--voices", action="store_true", help="leave whole voices out")
    parser.add_argument("--parts", type=int, default=8, help="how many groups")
    parser.add_argument("--errors", action="store_true", help="list every error")
    parser.add_argument("--only", nargs="*", help="score only these walk-throughs")
    given = parser.parse_args()
    walks = [w for w in walks_in(given.folder) if not given.only or w.name in given.only]
    drafts = left_out_drafts(walks, given.parts, by_voice=given.voices)
    counts = {walk.name: counted(drafts[walk.name], walk) for walk in walks}
    print(_HEAD)
    for walk in walks:
        print(line(walk.name, counts[walk.name], [d.text for d in drafts[walk.name]]))
        if given.errors:
            print("\n".join(errors(drafts[walk.name], walk)))
    for name, chosen in (
        ("clean captions", [w for w in walks if not is_machine(w)]),
        ("machine captions", [w for w in walks if is_machine(w)]),
        ("all", walks),
    ):
        texts = [d.text for w in chosen for d in drafts[w.name]]
        print(line(name, total(counts[w.name] for w in chosen), texts))


if __name__ == "__main__":
    main()
