"""Cabin: everything that is computed from a build, in stages that are kept by what went in.

In: a frozen `Build`. Out: a `Cabin` with surfaces, carcass, gaps and their certainty, the least
cut, what to measure next. Each stage depends only on the parts of the build it names, so an edit
computes anew only what it touches.
"""

from trimwright.cabin.stage import Cabin, cabin

__all__ = ["Cabin", "cabin"]
