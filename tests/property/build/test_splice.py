"""Edits change one value and leave every other line as it was, to the byte."""

from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from trimwright.build import edited
from trimwright.findings import Edit

Held = str | dict[str, "Held"] | list["Held"]
EVERY_KEY = (Path(__file__).parents[2] / "unit" / "build" / "every_key.yaml").read_text("utf-8")

WORDS = st.sampled_from(
    ["15 ± 1", "nose down", "¾ in", "Größe", "a b", "x", "3", "M6", '1-1/2"', "it's", "☃ 7"]
)
KEYS = st.sampled_from(["loose", "down 30", "up", "Maß", "by hand", "q", "to"])
NEW = st.one_of(
    WORDS,
    st.sampled_from(
        ["#8 screw", "12,5", "no", "a: b", "- x", "012", "{x}", "", " y ", "@", "'", "&z"]
    ),
    st.text(alphabet=st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=8),
)
COMMENTS = st.sampled_from(["", "  # thick", "   # 3 mm", " #"])


def quoted_or_not(text: str, *, quotes: bool) -> str:
    return "'" + text.replace("'", "''") + "'" if quotes or text[0] in "'\"" else text


@st.composite
def flow_texts(draw: st.DrawFn) -> str:
    values = [
        quoted_or_not(draw(WORDS), quotes=draw(st.booleans()))
        for _ in range(draw(st.integers(1, 3)))
    ]
    if draw(st.booleans()):
        return f"[{', '.join(values)}]"
    keys = draw(st.lists(KEYS, min_size=len(values), max_size=len(values), unique=True))
    return "{" + ", ".join(f"{k}: {v}" for k, v in zip(keys, values, strict=True)) + "}"


@st.composite
def block_lines(draw: st.DrawFn, depth: int = 0, indent: int = 0) -> list[str]:
    lines: list[str] = []
    listed = depth > 0 and draw(st.booleans())
    for key in draw(st.lists(KEYS, min_size=1, max_size=3, unique=True)):
        if draw(st.integers(0, 3)) == 0:
            lines += [" " * draw(st.integers(0, 4)) + "# a remark", ""]
        head = " " * indent + (
            "- " if listed else quoted_or_not(key, quotes=draw(st.booleans())) + ":"
        )
        sort = draw(st.integers(0, 5))
        if sort >= 3 and depth < 3:
            below = draw(block_lines(depth + 1, indent + 2))
            if listed and not below[0].lstrip().startswith("#"):
                lines += [head + below[0].lstrip(), *below[1:]]
            else:
                lines += [head.rstrip() + draw(COMMENTS), *below]
        else:
            text = draw(flow_texts()) if sort == 2 else quoted_or_not(draw(WORDS), quotes=sort == 1)
            lines.append(f"{head.rstrip()} {text}{draw(COMMENTS)}")
    return lines


@st.composite
def files(draw: st.DrawFn) -> str:
    ending = draw(st.sampled_from(["\n", "\r\n"]))
    return ending.join(draw(block_lines())) + draw(st.sampled_from(["", ending]))


def paths(
    held: Held, above: tuple[str | int, ...] = ()
) -> list[tuple[tuple[str | int, ...], Held]]:
    found: list[tuple[tuple[str | int, ...], Held]] = [(above, held)]
    if isinstance(held, dict):
        for key, below in held.items():
            found += paths(below, (*above, key))
    elif isinstance(held, list):
        for number, below in enumerate(held):
            found += paths(below, (*above, number))
    return found


def read(text: str) -> Held:
    """Return what an independent reader makes of a text, every scalar as typed."""
    held: Held = yaml.load(text, Loader=yaml.BaseLoader)  # noqa: S506  the base loader makes nothing but text
    return held


def lines_that_differ(old: str, new: str) -> tuple[list[str], list[str]]:
    """Return the lines of each text between the lines both have in front and behind."""
    before, after = old.splitlines(keepends=True), new.splitlines(keepends=True)
    while before and after and before[0] == after[0]:
        before, after = before[1:], after[1:]
    while before and after and before[-1] == after[-1]:
        before, after = before[:-1], after[:-1]
    return before, after


@given(files(), st.data(), NEW)
@settings(max_examples=40, deadline=None)
def test_a_set_value_reads_back_and_touches_its_own_line_only(
    text: str, data: st.DataObject, value: str
) -> None:
    scalars = [(path, held) for path, held in paths(read(text)) if isinstance(held, str) and path]
    path, _ = data.draw(st.sampled_from(scalars))
    new = edited(text, [Edit(path, value)])
    assert dict(scalars) | {path: value} == {
        p: h for p, h in paths(read(new)) if isinstance(h, str)
    }
    old_lines, new_lines = lines_that_differ(text, new)
    assert len(old_lines) <= 1
    assert len(new_lines) <= 1


@given(files(), st.data())
@settings(max_examples=40, deadline=None)
def test_a_value_set_and_set_back_restores_the_file(text: str, data: st.DataObject) -> None:
    plain = [
        (path, held)
        for path, held in paths(read(text))
        if isinstance(held, str) and path and f"'{held}'" not in text and "'" not in held
    ]
    if plain:
        path, was = data.draw(st.sampled_from(plain))
        assert isinstance(was, str)
        assert edited(edited(text, [Edit(path, "77 ± 7")]), [Edit(path, was)]) == text


@given(files(), st.data(), NEW)
@settings(max_examples=40, deadline=None)
def test_an_added_key_keeps_every_line(text: str, data: st.DataObject, value: str) -> None:
    groups = [(path, held) for path, held in paths(read(text)) if isinstance(held, dict)]
    path, _ = data.draw(st.sampled_from(groups))
    deep = data.draw(st.sampled_from([("new key",), ("new key", "ä b"), ("new key", 0, "x")]))
    new = edited(text, [Edit((*path, *deep), value)])
    there = {p: h for p, h in paths(read(text)) if isinstance(h, str)}
    assert there | {(*path, *deep): value} == {
        p: h for p, h in paths(read(new)) if isinstance(h, str)
    }
    old_lines, new_lines = lines_that_differ(text, new)
    assert len(old_lines) <= 1
    for line in old_lines:  # the line of a group in braces, or a last line that had no end
        assert "{" in line or new_lines[0].rstrip("\r\n") == line


@given(files(), st.data(), NEW)
@settings(max_examples=60, deadline=None)
def test_a_new_item_in_a_list_keeps_every_line(text: str, data: st.DataObject, value: str) -> None:
    lists = [(path, held) for path, held in paths(read(text)) if isinstance(held, list)]
    if not lists:
        return
    path, held = data.draw(st.sampled_from(lists))
    number = data.draw(st.integers(0, len(held)))
    deep = data.draw(st.sampled_from([(), ("new key",), ("new key", "ä b")]))
    edit = Edit((*path, number, *deep), value, inserts=True)
    if number == 0 and held and shares_its_line(text, edit):
        return
    new = edited(text, [edit])
    item: Held = value
    for step in reversed(deep):
        item = {step: item}
    assert read(new) == put_in(read(text), path, number, item)
    old_lines, new_lines = lines_that_differ(text, new)
    assert len(old_lines) <= 1
    for line in old_lines:  # the line of a list in brackets, or a last line that had no end
        assert "[" in line or new_lines[0].rstrip("\r\n") == line


def shares_its_line(text: str, edit: Edit) -> bool:
    """Return whether the first item of a list shares its line with what holds it."""
    try:
        edited(text, [edit])
    except ValueError as refused:
        return "holds more than this list" in str(refused)
    return False


def put_in(held: Held, path: tuple[str | int, ...], number: int, item: Held) -> Held:
    """Return what is held with an item put into the list at a path."""
    if not path:
        assert isinstance(held, list)
        return [*held[:number], item, *held[number:]]
    if isinstance(held, dict):
        return {
            k: put_in(v, path[1:], number, item) if k == path[0] else v for k, v in held.items()
        }
    return [put_in(v, path[1:], number, item) if k == path[0] else v for k, v in enumerate(held)]


@given(files(), st.data())
@settings(max_examples=40, deadline=None)
def test_a_removed_key_takes_nothing_else_with_it(text: str, data: st.DataObject) -> None:
    keyed = [p for p, _ in paths(read(text)) if p and isinstance(p[-1], str)]
    path = data.draw(st.sampled_from(keyed))
    there = {p: h for p, h in paths(read(text)) if isinstance(h, str)}
    rest = {p: h for p, h in there.items() if p[: len(path)] != path}
    if not rest:
        with pytest.raises(ValueError, match="is all there is"):
            edited(text, [Edit(path, None)])
        return
    new = edited(text, [Edit(path, None)])
    left = {p: h for p, h in paths(read(new)) if isinstance(h, str)}
    assert sorted(map(repr, left.values())) == sorted(map(repr, rest.values()))
    assert len(lines_that_differ(text, new)[1]) <= 1  # at most the line of a dash or a brace


@given(st.data(), NEW)
@settings(max_examples=40, deadline=None)
def test_edits_of_a_whole_build_touch_one_line_and_undo_each_other(
    data: st.DataObject, value: str
) -> None:
    ending = data.draw(st.sampled_from(["\n", "\r\n"]))
    text = EVERY_KEY.replace("\n", ending)
    scalars = [(p, h) for p, h in paths(read(text)) if isinstance(h, str) and p]
    path, _ = data.draw(st.sampled_from(scalars))
    new = edited(text, [Edit(path, value)])
    old_lines, new_lines = lines_that_differ(text, new)
    assert len(old_lines) == len(new_lines) <= 1
    assert dict(paths(read(new)))[path] == value
