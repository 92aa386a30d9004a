"""The floor panel between joists: what the layers do together, and what adds nothing.

Reference: two layers of 19/32 plywood over joists at 16 in bend about L/1000 under 50 psf and about
L/400 under 300 lb at mid-bay; equal to it are two of 23/32 at 19.2 in, two of 7/8 or one of 1-1/8 at
24 in (NTCA Reference Manual 2024/25, subfloor summary). Between those points this module scales as a
beam does: layers that are not glued into one bend side by side, so stiffness goes with the sum of the
cubes of their thicknesses; L/x falls with the cube of the spacing under uniform load and with its
square under a point load. The scaling is ours; it meets every one of the published equals.
"""

from __future__ import annotations

from fractions import Fraction

from journal_tui.measures.checks import Check, Fix, Rule, Verdict
from journal_tui.measures.fractions import inches
from journal_tui.measures.layers import Layer

_REFERENCE = 2 * Fraction(19, 32) ** 3
_UNIFORM, _POINT = 1000.0, 400.0
_EQUAL = 0.94  # two 7/8 at 24 in, which the source calls equal, comes out at 0.948 of the reference
STIFF = frozenset({"plywood", "osb"})
#: Old boards carry load, each alone; how much they stiffen a panel over them nobody can read off a table.
BOARDS = frozenset({"plank", "planks", "boards", "board sheathing"})
NO_CREDIT = frozenset(
    {"particleboard", "backer", "backer board", "gypsum", "vinyl", "tile", "thin-set", "membrane", "mortar"}
)
_RULE = Rule(
    "L/360 for the panel between joists as well as for the joists; backer adds nothing",
    "NTCA Reference Manual, subfloor summary",
    "2024/25",
)


def panel_ratios(layers: tuple[Layer, ...], spacing: Fraction) -> tuple[float, float]:
    """Return x of L/x under uniform load and under 300 lb at mid-bay; 0 where no layer is structural."""
    cubes = sum((layer.thickness**3 for layer in layers if _stiff(layer)), Fraction(0))
    ratio, wide = float(cubes / _REFERENCE), float(16 / spacing)
    return _UNIFORM * ratio * wide**3, _POINT * ratio * wide**2


def _stiff(layer: Layer) -> bool:
    return layer.material.lower() in STIFF


def equal_to_reference(layers: tuple[Layer, ...], spacing: Fraction) -> bool:
    """Whether the layers are as stiff under uniform load as the reference, as closely as its source says."""
    return panel_ratios(layers, spacing)[0] >= _UNIFORM * _EQUAL


def check_panel(layers: tuple[Layer, ...], spacing: Fraction, *, stone: bool = False) -> Check:
    """Return whether the panel between joists is stiff enough for tile, and which layer would fix it."""
    uniform, point = panel_ratios(layers, spacing)
    limit = 720 if stone else 360
    verdict, sentence = _verdict(layers, uniform, point, limit)
    return Check(
        name="panel between joists",
        verdict=verdict,
        sentence=sentence,
        rule=_RULE,
        governs="300 lb at mid-bay" if point / 360 <= uniform / limit else "uniform load",
        margin=f"{min(point / 360, uniform / limit):.2f} of what is needed",
        inputs={
            "layers": ", ".join(f"{inches(layer.thickness)} {layer.material}" for layer in layers) or "none",
            "joist spacing": inches(spacing),
            "limit": f"L/{limit} uniform, L/360 under 300 lb",
        },
        figures={"panel_uniform_ratio": round(uniform, 1), "panel_point_ratio": round(point, 1)},
        notes=_notes(layers, spacing),
        fixes=_fixes(layers, spacing, limit) if verdict is not Verdict.PASSES else (),
        who_can="an engineer, or a look at the boards from below" if verdict is Verdict.CANNOT_TELL else "",
    )


def _verdict(layers: tuple[Layer, ...], uniform: float, point: float, limit: int) -> tuple[Verdict, str]:
    figures = f"about L/{uniform:.0f} under 50 psf and L/{point:.0f} under 300 lb at mid-bay"
    if uniform >= limit and point >= 360:
        return Verdict.PASSES, f"The panel bends {figures}."
    if any(layer.material.lower() in BOARDS for layer in layers):
        return (
            Verdict.CANNOT_TELL,
            f"The panel alone bends {figures}; what the old boards add cannot be read off a table.",
        )
    return Verdict.SHORT, f"The panel bends {figures}; it needs L/{limit} and L/360."


def _notes(layers: tuple[Layer, ...], spacing: Fraction) -> tuple[str, ...]:
    notes = ["Worked out by scaling the published reference; glue between layers is not counted."]
    if equal_to_reference(layers, spacing):
        notes.append("As stiff as two layers of 19/32 plywood over joists at 16 in, or stiffer.")
    notes += [
        f"{layer.material} counts for nothing here" for layer in layers if layer.material.lower() in NO_CREDIT
    ]
    if any(layer.material.lower() == "particleboard" for layer in layers):
        notes.append(
            "Particleboard underlayment swells and is no base for tile: take it up "
            "(common practice, no source)."
        )
    stiff = [layer for layer in layers if _stiff(layer)]
    if len(stiff) == 1 and stiff[0].thickness < Fraction(9, 8):
        notes.append(
            "A single layer of plywood as the tile's own base is a listed cause of failure "
            "(NTCA Reference Manual 2024/25, plywood problem table)."
        )
    if stiff and stiff[-1].material.lower() == "osb":
        notes.append("Tile is not bonded straight to OSB (NTCA Reference Manual 2024/25).")
    return tuple(notes)


def _fixes(layers: tuple[Layer, ...], spacing: Fraction, limit: int) -> tuple[Fix, ...]:
    kept = tuple(layer for layer in layers if layer.material.lower() not in NO_CREDIT)
    fixes = []
    for thickness in (Fraction(15, 32), Fraction(19, 32), Fraction(23, 32)):
        uniform, point = panel_ratios((*kept, Layer("plywood", thickness)), spacing)
        verdict = Verdict.PASSES if uniform >= limit and point >= 360 else Verdict.SHORT
        fixes.append(
            Fix(
                f"{inches(thickness)} plywood over what is sound",
                f"about L/{uniform:.0f} and L/{point:.0f} under 300 lb",
                verdict,
            )
        )
    return tuple(fixes)
