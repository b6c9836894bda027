"""What a request asks about: the builds on the bench, one of them, and what it says if it can be used."""

from typing import Annotated

from fastapi import Depends, HTTPException, Request

from trimwright.app.bench import Bench
from trimwright.app.feed import Feed
from trimwright.app.reckoning import Reckoning
from trimwright.app.standing import Standing
from trimwright.build import Loaded

Benches = dict[str, Bench]


def _benches(request: Request) -> Benches:
    """Return every build that is served, by the name its address carries."""
    found: Benches = request.app.state.benches
    return found


def _feed(request: Request) -> Feed:
    """Return what tells pages of new versions."""
    found: Feed = request.app.state.feed
    return found


def _reckoning(request: Request) -> Reckoning:
    """Return what computes each thing once."""
    found: Reckoning = request.app.state.reckoning
    return found


Shelf = Annotated[Benches, Depends(_benches)]
News = Annotated[Feed, Depends(_feed)]
Reckoned = Annotated[Reckoning, Depends(_reckoning)]


def _bench(name: str, shelf: Shelf) -> Bench:
    """Return the build that an address names."""
    if name not in shelf:
        raise HTTPException(404, "There is no such build here.")
    return shelf[name]


OneBench = Annotated[Bench, Depends(_bench)]


def _good(bench: OneBench) -> tuple[Standing, Loaded]:
    """Return the last that could be used of what a build holds, with the version that it was."""
    now = bench.standing().usable
    if now is None or now.good is None:
        raise HTTPException(409, "The file cannot be used as it is.")
    return now, now.good


Good = Annotated[tuple[Standing, Loaded], Depends(_good)]
