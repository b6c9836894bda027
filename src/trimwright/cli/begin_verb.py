"""The verb 'begin': a new build file with the first twelve readings to fill in."""

import argparse

from trimwright.cli.terminal import RefusedError, say

# every figure is a place to write over; the file reads as it stands
BLANK = """\
# Measure, write over the figures, and run: trimwright check {file}
# Left and right as seated facing forward; ahead and behind of the datum marks.
build: {name}
unit: {unit}
driver: {driver}

car:
  datum:
    marks: two marks that stay visible after deadener and carpet, string across
    top of tunnel here: bare metal
  carpet:
    loose: {loose}
    squeezed by hand: {squeezed}
  dash above tunnel:            # straight up from the bare tunnel
    {ahead} ahead: {dash}
    at datum: {dash}
  tunnel:
    - at: {section} behind
      height above floor: {height}
      width at shoulder: {shoulder}
      width at floor: {floor}
  between seats:
    at hip: {seats}
  lever knob:
    across: {knob}
    neutral: {{behind datum: {neutral}, above tunnel: {high}}}
    furthest left: {out}
    furthest right: {out}
    furthest rear: {{behind datum: {rear}, above tunnel: {high}}}

console:
  deck height: {deck}
  width: {width}
  from: {ahead} ahead
  to: {end} behind
"""
MM = {
    "loose": "15 ± 2", "squeezed": "6 ± 1", "ahead": "60", "dash": "230 ± 5", "section": "300",
    "height": "180", "shoulder": "200", "floor": "340", "seats": "262 ± 4", "knob": "48",
    "neutral": "150", "high": "270", "out": "60", "rear": "230", "deck": "200", "width": "236",
    "end": "690",
}  # fmt: skip
IN = {
    "loose": "5/8 ± 1/16", "squeezed": "1/4", "ahead": "2 1/2", "dash": "9 ± 1/4",
    "section": "12", "height": "7", "shoulder": "8", "floor": "13 1/2", "seats": "10 1/4 ± 1/8",
    "knob": "1 7/8", "neutral": "6", "high": "10 1/2", "out": "2 3/8", "rear": "9", "deck": "8",
    "width": "9 1/4", "end": "27",
}  # fmt: skip


def run(asked: argparse.Namespace) -> int:
    """Write the new file, never over one that is there."""
    figures = MM if asked.unit == "mm" else IN
    name = asked.name or asked.file.stem.replace("-", " ")
    text = BLANK.format(
        file=asked.file, name=f'"{name}"', unit=asked.unit, driver="right", **figures
    )
    if asked.file.exists():
        raise RefusedError(f"{asked.file} is there already; name a file that is not.")
    asked.file.parent.mkdir(parents=True, exist_ok=True)
    asked.file.write_text(text, encoding="utf-8")
    say(f"Written: {asked.file}", "Every figure in it is an example: write yours over it, then:")
    say(f"  trimwright check {asked.file}")
    return 0
