"""Every key of the schema is found on the place 'fields' and can be written there."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from fastapi import FastAPI

from tests.unit.app.caller import Answer, call
from tests.unit.app.every_key import LONG, SHORT
from trimwright.app import Bench, app
from trimwright.build import Build, Entry, InputError, edited, parse
from trimwright.build.shape import inner_type
from trimwright.findings import Edit

AT = "/api/builds/one"
Told = dict[str, Any]
Pattern = tuple[str, ...]


class Served:
    """One build behind the server."""

    def __init__(self, folder: Path, text: str) -> None:
        self.path = folder / "one.yaml"
        self.path.write_text(text, "utf-8")
        self.inside: FastAPI = app({"one": Bench(self.path)})

    @property
    def text(self) -> str:
        """What the file holds."""
        return self.path.read_bytes().decode("utf-8")

    def root(self) -> Told:
        """Return the tree of all keys."""
        found: Told = call(self.inside, f"{AT}/fields").told["root"]
        return found

    def edit(self, edits: list[tuple[list[str | int], str | None]]) -> Answer:
        """Return the answer to edits made to the version that stands."""
        body = {
            "base": call(self.inside, AT).told["version"],
            "edits": [{"path": path, "value": value} for path, value in edits],
            "says": "typed on the fields sheet",
        }
        return call(self.inside, f"{AT}/edits", body)

    def tried(self, edits: list[tuple[list[str | int], str | None]]) -> bool:
        """Return whether edits were taken; the file must be what the splice alone makes of it."""
        before = self.text
        answer = self.edit(edits)
        wanted = edited(before, [Edit(tuple(path), value) for path, value in edits])
        if answer.status == 200:
            assert self.text == wanted, edits
            parse(self.text)
            if wanted != before:
                assert call(self.inside, f"{AT}/undo", {}).status == 200
        else:
            assert answer.status == 422, (edits, answer.content)
            with pytest.raises(InputError, match="cannot be used") as refused:
                parse(wanted)
            assert [one["found"] for one in answer.told] == [f.found for f in refused.value.faults]
        assert self.text == before
        return answer.status == 200


def every(one: Told) -> Iterator[Told]:
    """Yield a field and all that it holds."""
    yield one
    for below in one["below"]:
        yield from every(below)


def pattern(path: list[str | int]) -> Pattern:
    """Return a path without the places of items and the figures in keys."""
    figure = re.compile(r"at datum|down .*|.* (?:ahead|behind|wide|long)")
    return tuple(
        "#" if isinstance(one, int) else "*" if figure.fullmatch(one) else one for one in path
    )


def keys_of(model: type[Entry], above: Pattern = ()) -> Iterator[Pattern]:
    """Yield the pattern of every text that the schema knows, from the models alone."""
    if model.WHOLE:
        yield above
        return
    for alias in model.SPLITS:
        yield (*above, alias)
    for name, info in model.model_fields.items():
        kind, many = inner_type(info.annotation)
        free = model.FREE is not None and name == model.FREE.into
        if not info.alias and not free:
            continue
        here = (*above, "*" if free else str(info.alias), *(("#",) if many and not free else ()))
        entry = isinstance(kind, type) and issubclass(kind, Entry)
        if entry and not (free and model.FREE and model.FREE.scalar):
            yield from keys_of(kind, here)
        else:
            yield here


def guesses(one: Told) -> list[str]:
    """Return texts to try in a field, most likely first."""
    others = [word for word in one["choices"] if word != one["value"]]
    told = one["value"] or one["example"]
    bumped = re.sub(r"\d+", lambda found: str(int(found[0]) + 1), told, count=1)
    return [*others, bumped, f"{told} too", told]


@pytest.mark.parametrize("text", [LONG, SHORT], ids=["long", "short"])
def test_every_text_can_be_written_anew(tmp_path: Path, text: str) -> None:
    served = Served(tmp_path, text)
    written = [one for one in every(served.root()) if one["value"] is not None]
    stuck = [
        one["path"]
        for one in written
        if not any(served.tried([(one["path"], guess)]) for guess in guesses(one))
    ]
    assert stuck == []


def test_the_sheet_holds_every_key_of_the_schema(tmp_path: Path) -> None:
    found = set[Pattern]()
    for number, text in enumerate((LONG, SHORT)):
        folder = tmp_path / str(number)
        folder.mkdir()
        root = Served(folder, text).root()
        found |= {pattern(one["path"]) for one in every(root) if one["value"] is not None}
    assert sorted(set(keys_of(Build)) - found) == []


@pytest.mark.parametrize(("text", "most"), [(LONG, 200), (SHORT, 35)], ids=["long", "short"])
def test_lines_and_texts_are_those_of_the_file(tmp_path: Path, text: str, most: int) -> None:
    served = Served(tmp_path, text)
    lines = text.splitlines()
    written = [one for one in every(served.root()) if one["line"] and one["path"]]
    assert len(written) > most
    for one in written:
        line, key = lines[one["line"] - 1], one["path"][-1]
        assert (one["value"] or "") in line, one["path"]
        assert isinstance(key, int) or key in line, one["path"]


def test_whatever_is_not_required_can_be_taken_out_or_is_refused_in_words(tmp_path: Path) -> None:
    served = Served(tmp_path, LONG)
    written = [one for one in every(served.root()) if one["line"] and one["path"]]
    gone = {
        pattern(one["path"])
        for one in written
        if not one["required"] and served.tried([(one["path"], None)])
    }
    assert {("console", "bulkheads", "#"), ("car", "bodies", "#"), ("car", "handbrake")} <= gone
    assert {("test fit", "#"), ("car", "tunnel", "#", "*"), ("wanted", "certainty")} <= gone


def needed(one: Told) -> list[tuple[list[str | int], str | None]]:
    """Return the edits that write what an entry has to hold, from its examples."""
    if one["kind"] == "value":
        return [(one["path"], one["example"])]
    inside = [below for below in one["below"] if below["required"]]
    if one["kind"] == "list" and not inside and one["more"]:
        inside = [one["more"]]
    return [edit for below in inside for edit in needed(below)]


def test_lists_take_another_entry(tmp_path: Path) -> None:
    served = Served(tmp_path, LONG)
    lists = [one for one in every(served.root()) if one["more"] is not None]
    grown = set[Pattern]()
    for one in lists:
        edits = needed(one["more"]) or [
            ([*one["more"]["path"], below["key"]], below["example"])
            for below in one["more"]["below"]
        ]
        if served.tried(edits):
            grown.add(pattern(one["path"]))
    for name in ("bulkheads", "held by", "as built"):
        assert ("console", name) in grown
    assert {("car", "bodies", "#", "outline", "points"), ("left as is",)} <= grown


@pytest.mark.parametrize(
    ("path", "entry"),
    [
        (("car", "tunnel", 4), {"at": "700 behind", "top": "328 below string"}),
        (
            ("car", "layers", 1),
            {"name": "felt", "thick": "3 ± 1", "from": "0 ahead", "to": "90 behind"},
        ),
        (
            ("console", "openings", 1),
            {"name": "tray", "at": "500 behind", "long": "90", "wide": "60"},
        ),
        (("console", "held by", 1), {"bolt": "M8", "at": "300 behind"}),
        (("test fit", 2), {"probe": "right wall at 300 behind", "reads": "at least 2"}),
    ],
    ids=lambda one: str(one[-2]) if isinstance(one, tuple) else "",
)
def test_an_entry_is_added_as_typed(
    tmp_path: Path, path: tuple[str | int, ...], entry: dict[str, str]
) -> None:
    served = Served(tmp_path, LONG)
    assert served.tried([([*path, key], value) for key, value in entry.items()])


def test_what_cannot_be_read_comes_back_with_its_readings(tmp_path: Path) -> None:
    served = Served(tmp_path, LONG)
    answer = served.edit([(["console", "openings", 0, "long"], "1,250")])
    assert answer.status == 422
    fault = answer.told[0]
    assert fault["path"] == ["console", "openings", 0, "long"]
    assert len(fault["readings"]) == 2
    assert served.tried([(["console", "openings", 0, "long"], "125 mm")])


def test_a_file_with_faults_still_shows_its_fields(tmp_path: Path) -> None:
    served = Served(tmp_path, LONG.replace("driver: right", "driver: middle"))
    driver = next(one for one in served.root()["below"] if one["key"] == "driver")
    assert (driver["value"], driver["choices"]) == ("middle", ["left", "right"])


@pytest.mark.parametrize("text", [LONG, SHORT], ids=["long", "short"])
def test_no_two_fields_are_at_one_place(tmp_path: Path, text: str) -> None:
    def places(one: Told) -> Iterator[tuple[str | int, ...]]:
        yield tuple(one["path"])
        for below in (*one["below"], *([one["more"]] if one["more"] else [])):
            yield from places(below)

    found = list(places(Served(tmp_path, text).root()))
    assert len(found) == len(set(found))
