"""Invented cars, written as a builder would."""

from collections.abc import Callable, Sequence

import numpy as np
import pytest

from trimwright.build import Build, parse

Writer = Callable[..., Build]


def _along(x: float) -> str:
    return f"{abs(x):.6f} {'behind' if x >= 0 else 'ahead'}"


def section_text(
    x: float, top: float, rows: Sequence[tuple[float, float, float]], more: str
) -> str:
    """Return one section: rows of (down, left, right), its top below a string 400 up."""
    lines = [f"    - at: {_along(x)}", f"      top: {400 - top:.6f} below string"]
    lines += [f"      {one}" for one in more.splitlines()]
    lines += [f"      down {d:.6f}: {{left: {a:.6f}, right: {b:.6f}}}" for d, a, b in rows]
    return "\n".join(lines)


@pytest.fixture(scope="session")
def write() -> Writer:
    """Return a function that writes and reads a car with sections (x, top, rows)."""

    def one(
        sections: Sequence[tuple[float, float, Sequence[tuple[float, float, float]]]],
        more: str = "",
        each: str = "",
        unit: str = "mm",
    ) -> Build:
        text = [f"build: Larkfield saloon\nunit: {unit}\ncar:"]
        text.append("  datum: {marks: two lines, top of tunnel here: bare metal,")
        text.append("    string above tunnel: 400}")
        if more:
            text.append(more)
        if sections:
            text.append("  tunnel:")
            text += [section_text(x, top, rows, each) for x, top, rows in sections]
        return parse("\n".join(text) + "\n").build

    return one


@pytest.fixture(scope="session")
def half_round() -> Callable[..., list[tuple[float, float, float]]]:
    """Return a function that gives the rows of half a circle or ellipse."""

    def rows(
        wide: float, tall: float | None = None, count: int = 18
    ) -> list[tuple[float, float, float]]:
        turn = np.pi / 2 * np.arange(1, count + 1) / count
        height = wide if tall is None else tall
        out, down = wide * np.sin(turn), height * (1 - np.cos(turn))
        return [(float(d), float(y), float(y)) for d, y in zip(down, out, strict=True)]

    return rows
