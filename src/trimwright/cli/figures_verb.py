"""The verb 'figures': every computed figure by its dotted name."""

import argparse
import json
from math import isfinite

from trimwright.build import load
from trimwright.cabin import Cabin, cabin
from trimwright.cli.progress import progress
from trimwright.cli.terminal import RefusedError, say, wrapped

SCHEMA = 1  # of the JSON; raised when a name or a unit changes, see docs/figures.md
Figure = float | str | None


def run(asked: argparse.Namespace) -> int:
    """Print the figures whose names begin with what was asked for."""
    build = load(asked.file).build
    with progress("weighing all doubts"):
        found = figures(cabin(build))
    wanted = {name: one for name, one in found.items() if name.startswith(asked.name)}
    if not wanted:
        starts = ", ".join(sorted({name.split(".")[0] for name in found}))
        raise RefusedError(f'found "{asked.name}"; expected the start of a name, such as: {starts}')
    if asked.json:
        say(
            json.dumps(
                {"schema": SCHEMA, "build": build.name, "figures": wanted},
                indent=1,
                ensure_ascii=False,
            )
        )
        return 0
    for name, one in wanted.items():
        shown = one if isinstance(one, str) or one is None else f"{one:.4g}"
        say(*wrapped(f"{name} = {shown}", "", "  "))
    return 0


def figures(one: Cabin) -> dict[str, Figure]:
    """Return every computed figure: mm, kg, degrees, shares from 0 to 1; none where unknown."""
    found: dict[str, Figure] = {}
    carcass = one.carcass
    if carcass is not None and carcass.panels:
        found["console.mass.kg"] = round(carcass.mass_kg, 4)
        for axis, at in zip("xyz", carcass.centre_mm, strict=True):
            found[f"console.centre.{axis}.mm"] = round(float(at), 3)
        for panel in carcass.panels:
            found[f"panel.{_name(panel.name)}.mass.kg"] = round(panel.mass_kg, 4)
    outcome = one.outcome
    if outcome is not None:
        for gap in outcome.gaps:
            base = f"gap.{_name(gap.gap.name)}"
            found[f"{base}.nominal.mm"] = _mm(gap.nominal)
            found[f"{base}.wanted.mm"] = gap.gap.wanted
            found[f"{base}.low.mm"] = _mm(gap.low)
            found[f"{base}.high.mm"] = _mm(gap.high)
            found[f"{base}.worst.mm"] = _mm(gap.worst)
            found[f"{base}.sure"] = round(gap.sure.value, 4)
        if outcome.joint is not None:
            found["all.sure"] = round(outcome.joint.value, 4)
            found["all.sure.error"] = round(outcome.joint.error, 5)
    found.update(_plan(one))
    for gone in one.unknown:
        found[f"gap.{_name(gone.gap)}.missing"] = "; ".join(gone.missing)
    return found


def _mm(figure: float) -> float | None:
    """Return a figure to the thousandth, none where the console tips and there is none."""
    return round(figure, 3) if isfinite(figure) else None


def _plan(one: Cabin) -> dict[str, Figure]:
    """Return the least cut's amounts and what they reach."""
    plan = one.plan
    if plan is None:
        return {}
    found: dict[str, Figure] = {
        f"cut.{_name(cut.name)}.mm": round(amount, 3) for cut, amount in plan.cuts
    }
    return {**found, "cut.all.sure": round(plan.reached.value, 4)}


def _name(words: str) -> str:
    """Return words as one part of a dotted name.

    Examples
    --------
    >>> _name("lever to opening, standing")
    'lever-to-opening-standing'
    """
    return "-".join(words.lower().replace(",", " ").replace(".", " ").split())
