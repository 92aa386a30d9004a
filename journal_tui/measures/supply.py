"""Water supply: what the fixtures draw, what pipe carries it, what pressure is left at the last one.

Fixture units give demand by the code's curve, read between its points by straight lines (usual
practice, not stated in the tables). Friction is Hazen and Williams in psi per foot,
4.52 Q^1.852 / (C^1.852 d^4.8704); velocity 0.4085 Q / d^2 ft/s; Q in gpm, d in inches. A foot of
rise costs 0.433 psi. Velocity limits 8 ft/s cold and 5 ft/s hot to 140 F (copper tube guidance).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from journal_tui.domain.errors import BadInput
from journal_tui.domain.text import folded, one_line
from journal_tui.measures.checks import Check, Fix, Rule, Standing, Verdict
from journal_tui.measures.data_files import table

PSI_PER_FOOT = 0.433
COLD_LIMIT, HOT_LIMIT = 8.0, 5.0
#: Fittings and valves as a share of the pipe's own friction: common practice, change it to suit.
FITTINGS = 0.5
LEAST_ENTRY, MOST_STATIC = 40.0, 80.0

_RULE = Rule(
    "velocity within the limit in every run, and the last outlet's own pressure left at it",
    "IRC P2903.1 outlet pressures; copper tube guidance for velocity",
    "",
    Standing.READ,
)


def fixture_units(fixtures: Mapping[str, int], code: str = "ipc", side: str = "total") -> float:
    """Return supply fixture units; ``side`` is "cold", "hot" or "total".

    Raises `BadInput` for a fixture or code nobody has a row for.
    """
    units = _units(code)
    column = ("cold", "hot", "total").index(side)
    total = 0.0
    for name, count in fixtures.items():
        key = folded(name)
        if key not in units:
            raise BadInput(f"fixture: {one_line(name)}", f"Accepted: {', '.join(units)}.")
        if count < 0:
            raise BadInput(f"fixture: {count} x {one_line(name)}", "Count fixtures from one up.")
        total += count * units[key][column]
    return round(total, 4)


def _units(code: str) -> dict[str, list[float]]:
    codes = table("supply")["code"]
    if code not in codes:
        raise BadInput(f"code: {one_line(code)}", f"Accepted: {', '.join(codes)}.")
    found: dict[str, list[float]] = codes[codes[code].get("units_of", code)]["units"]
    return found


def demand(units: float, curve: str = "ipc") -> float:
    """Return gpm for ``units`` fixture units; below a curve's first point, the first point's flow.

    Raises `BadInput` past its last point.
    """
    curves = table("supply")["curve"]
    if curve not in curves:
        raise BadInput(f"demand curve: {one_line(curve)}", f"Accepted: {', '.join(curves)}.")
    points = curves[curve]["points"]
    if units <= points[0][0]:
        return float(points[0][1])
    for (x0, y0), (x1, y1) in pairwise(points):
        if units <= x1:
            return float(y0 + (y1 - y0) * (units - x0) / (x1 - x0))
    raise BadInput(f"fixture units: {units:g}", f"The curve ends at {points[-1][0]}; a designer sizes that.")


def friction(gpm: float, bore: float, c: float = 150) -> float:
    """Return friction in psi per foot of pipe (Hazen and Williams); ``bore`` in inches."""
    return float(4.52 * gpm**1.852 / (c**1.852 * bore**4.8704))


def velocity(gpm: float, bore: float) -> float:
    """Return feet per second in a pipe of ``bore`` inches."""
    return 0.4085 * gpm / bore**2


def flow_at(speed: float, bore: float) -> float:
    """Return gpm at ``speed`` ft/s in a pipe of ``bore`` inches."""
    return speed * bore**2 / 0.4085


def pipe(material: str) -> dict[str, Any]:
    """Return the data of a pipe material. Raises `BadInput` naming those known."""
    pipes = table("supply")["pipe"]
    if material not in pipes:
        raise BadInput(f"pipe: {one_line(material)}", f"Accepted: {', '.join(pipes)}.")
    found: dict[str, Any] = pipes[material]
    return found


@dataclass(frozen=True, slots=True)
class Run:
    """A length of pipe between branches: feet, feet of rise, every fixture it feeds downstream.

    ``size`` is the nominal size; empty asks for the smallest that does. ``side`` picks the fixture units:
    "total" before the water heater's branch, "cold" or "hot" after it.
    """

    name: str
    length: float
    fixtures: tuple[tuple[str, int], ...]
    rise: float = 0.0
    size: str = ""
    side: str = "total"


@dataclass(frozen=True, slots=True)
class SizedRun:
    """A sized run and what flows: gpm, ft/s, psi lost to friction and to rise, psi left at its end."""

    run: Run
    size: str
    gpm: float
    speed: float
    friction: float
    lift: float
    left: float


@dataclass(frozen=True, slots=True)
class Supply:
    """A line from the source to the last fixture. Pressure in psi; ``hot`` picks the velocity limit."""

    runs: tuple[Run, ...]
    pressure: float
    material: str = "pex"
    code: str = "ipc"
    hot: bool = False
    fittings: float = FITTINGS

    @property
    def limit(self) -> float:
        """Velocity limit in ft/s."""
        return HOT_LIMIT if self.hot else COLD_LIMIT

    @property
    def curve(self) -> str:
        """The demand curve of the code family."""
        _units(self.code)
        found: str = table("supply")["code"][self.code]["curve"]
        return found


def run_demand(supply: Supply, run: Run) -> float:
    """Return gpm through ``run``: the curve for several fixtures, one fixture's own flow for one."""
    fixtures = {folded(name): count for name, count in run.fixtures}
    single = len(fixtures) == 1 and next(iter(fixtures.values())) == 1
    outlet = table("supply")["outlet"].get(next(iter(fixtures))) if single else None
    if outlet:
        return float(outlet[0])
    return demand(fixture_units(fixtures, supply.code, run.side), supply.curve)


def size_line(supply: Supply) -> tuple[SizedRun, ...]:
    """Return the line with sizes: given ones kept, the rest the smallest inside the velocity limit, then
    the run that loses most made bigger until the last outlet has its pressure or no run can grow."""
    _sound(supply)
    bores: dict[str, float] = pipe(supply.material)["bore"]
    sizes = [run.size or _smallest(supply, run, bores) for run in supply.runs]
    sized = _flowing(supply, sizes, bores)
    while sized[-1].left < last_outlet(supply)[1]:
        growing = [i for i, run in enumerate(supply.runs) if not run.size and _next(sizes[i], bores)]
        if not growing:
            break
        worst = max(growing, key=lambda i: sized[i].friction)
        sizes[worst] = _next(sizes[worst], bores) or sizes[worst]
        sized = _flowing(supply, sizes, bores)
    return sized


def _smallest(supply: Supply, run: Run, bores: dict[str, float]) -> str:
    gpm = run_demand(supply, run)
    fitting = [name for name, bore in bores.items() if velocity(gpm, bore) <= supply.limit]
    return fitting[0] if fitting else list(bores)[-1]


def _next(size: str, bores: dict[str, float]) -> str | None:
    names = list(bores)
    at = names.index(size) + 1
    return names[at] if at < len(names) else None


def _flowing(supply: Supply, sizes: list[str], bores: dict[str, float]) -> tuple[SizedRun, ...]:
    out, left, c = [], supply.pressure, pipe(supply.material)["c"]
    for run, size in zip(supply.runs, sizes, strict=True):
        if size not in bores:
            raise BadInput(f"size: {one_line(size)}", f"Accepted for {supply.material}: {', '.join(bores)}.")
        gpm, bore = run_demand(supply, run), bores[size]
        lost = friction(gpm, bore, c) * run.length * (1 + supply.fittings)
        lift = PSI_PER_FOOT * run.rise
        left -= lost + lift
        out.append(SizedRun(run, size, gpm, velocity(gpm, bore), lost, lift, left))
    return tuple(out)


def last_outlet(supply: Supply) -> tuple[str, float]:
    """Return the fixture at the end of the line and the psi it wants; 8 psi where no row names it."""
    names = [folded(name) for name, _count in supply.runs[-1].fixtures]
    outlets = table("supply")["outlet"]
    most = max(names, key=lambda name: outlets.get(name, (0, 8.0))[1])
    return most, float(outlets.get(most, (0, 8.0))[1])


def _sound(supply: Supply) -> None:
    _units(supply.code)
    if not supply.runs:
        raise BadInput("supply", "Give at least one run of pipe.")
    if not 0 < supply.pressure <= 200:
        raise BadInput(
            f"pressure: {supply.pressure:g} psi", "Static pressure is more than 0 and up to 200 psi."
        )
    for run in supply.runs:
        if not 0 < run.length <= 5000:
            raise BadInput(f"{run.name}: {run.length:g} ft", "A run is more than 0 and up to 5000 ft long.")
        if abs(run.rise) > run.length:
            raise BadInput(f"{run.name}: rise {run.rise:g} ft", "A run cannot rise more than it is long.")
        if not run.fixtures:
            raise BadInput(f"{run.name}", "Name the fixtures this run feeds.")


def check_supply(supply: Supply) -> Check:
    """Return whether the line works: sizes along it, speeds, and the pressure left at the last outlet."""
    sized = size_line(supply)
    outlet, wanted = last_outlet(supply)
    spare = sized[-1].left - wanted
    fast = [run for run in sized if run.speed > supply.limit + 1e-9]
    verdict = Verdict.PASSES if spare >= 0 and not fast else Verdict.SHORT
    data = pipe(supply.material)
    return Check(
        name="supply pipe",
        verdict=verdict,
        sentence=f"{sized[-1].left:.1f} psi is left at the {outlet}, which wants {wanted:g}."
        + "".join(f" {run.speed:.1f} ft/s in {run.run.name} is over {supply.limit:g}." for run in fast),
        rule=_RULE,
        governs=f"velocity in {fast[0].run.name}" if fast else "pressure at the last outlet",
        margin=f"{spare:.1f} psi",
        inputs={
            "source": f"{supply.pressure:g} psi, {'hot' if supply.hot else 'cold'}",
            "pipe": f"{data['title']} ({data['source']})",
            "code": f"{table('supply')['code'][supply.code]['title']}; curve {_curve_title(supply)}",
            "fittings": f"{supply.fittings:.0%} of the pipe's friction, common practice",
        },
        figures={
            "pressure_at_last_psi": round(sized[-1].left, 2),
            "spare_psi": round(spare, 2),
            "max_velocity_ft_s": round(max(run.speed for run in sized), 2),
        },
        notes=_notes(supply, sized),
        fixes=_fixes(supply) if verdict is Verdict.SHORT else (),
    )


def _curve_title(supply: Supply) -> str:
    title: str = table("supply")["curve"][supply.curve]["title"]
    return title


def _notes(supply: Supply, sized: Iterable[SizedRun]) -> tuple[str, ...]:
    bores = pipe(supply.material)["bore"]
    out = [
        f"{s.run.name}: {s.size} in, {s.gpm:.2f} gpm, {s.speed:.1f} ft/s, "
        f"at most {flow_at(supply.limit, bores[s.size]):.2f} at {supply.limit:g}, "
        f"{s.friction:.2f} psi friction, {s.lift:.2f} psi rise, {s.left:.1f} psi left"
        for s in sized
    ]
    if supply.pressure > MOST_STATIC:
        out.append("More than 80 psi wants a pressure reducing valve (IRC P2903.3, from memory).")
    if supply.pressure < LEAST_ENTRY:
        out.append(
            "Less than 40 psi at the entry is under the least the code asks (IRC P2903.3, from memory)."
        )
    out.append("Pipe makers' sheets may allow more speed than the limit used here.")
    return tuple(out)


def _fixes(supply: Supply) -> tuple[Fix, ...]:
    out = []
    freed = replace(supply, runs=tuple(replace(run, size="") for run in supply.runs))
    for title, tried in (
        ("sizes chosen anew", freed),
        ("the same in copper", replace(freed, material="copper")),
    ):
        if tried == supply:
            continue
        sized = size_line(tried)
        spare = sized[-1].left - last_outlet(tried)[1]
        ok = spare >= 0 and all(run.speed <= tried.limit + 1e-9 for run in sized)
        sizes = ", ".join(f"{s.run.name} {s.size}" for s in sized)
        out.append(
            Fix(f"{title}: {sizes}", f"{spare:.1f} psi to spare", Verdict.PASSES if ok else Verdict.SHORT)
        )
    return tuple(out)


def bore_change(old: tuple[str, str], new: tuple[str, str]) -> float:
    """Return the new bore's area over the old one's, each given as (material, size)."""
    before, after = (float(pipe(m)["bore"][s]) for m, s in (old, new))
    return (after / before) ** 2
