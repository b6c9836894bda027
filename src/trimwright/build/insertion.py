"""New keys and items, written in block style beside what is there."""

from trimwright.build.extent import content_end, line_end_of, line_start, line_stop, next_line
from trimwright.build.fault import spoken
from trimwright.build.node import NOWHERE, Mapping, Node, Path, Scalar, Sequence, child
from trimwright.build.schema import key_order
from trimwright.build.spelling import spelled

STEP = 2  # spaces a group is indented by


def inserted(text: str, root: Node, above: Path, steps: Path, value: str) -> str:
    """Return the text with a value added under keys that are not there yet.

    Parameters
    ----------
    text, root
        The file and its nodes.
    above : tuple
        Path of the group or list that is there.
    steps : tuple
        What follows it and is not.
    value : str
        The value's text.

    Raises
    ------
    ValueError
        If the path leads through a value, or past the end of a list.
    """
    holder: Node = root
    held_by: Node = root
    flow = False
    for step in above:
        held_by = holder
        flow = flow or (not isinstance(holder, Scalar) and holder.flow)
        holder = child(holder, step) or holder
    _refuse_gaps(holder, above, steps)
    if isinstance(holder, Scalar):
        return _into_nothing(text, holder, held_by, steps, value)
    if holder.flow or flow:
        return _into_flow(text, holder, steps, value)
    before, column = _neighbour(holder, above, steps[0]), holder.column
    lines = _block(steps, value, column)
    return _add_lines(text, content_end(text, before), lines)


def put_before(text: str, root: Node, place: Path, steps: Path, value: str) -> str:
    """Return the text with a new item put into a list before one that is there.

    What is written above an item, such as a remark, stays with it.

    Parameters
    ----------
    text, root
        The file and its nodes.
    place : tuple
        Path of the item that is there.
    steps : tuple
        What of the new item holds the value; empty where the item is the value.
    value : str
        The value's text.

    Raises
    ------
    ValueError
        If the list's first item shares its line with what holds it.
    """
    number, holder, flow = int(place[-1]), root, False
    for step in place[:-1]:
        flow = flow or (not isinstance(holder, Scalar) and holder.flow)
        holder = child(holder, step) or holder
    if not isinstance(holder, Sequence):
        raise TypeError(f"{spoken(place)} must be in a list")
    if flow or holder.flow:
        start = holder.items[number].start
        return f"{text[:start]}{_flow((number, *steps), value)[1:-1]}, {text[start:]}"
    lines = _block((number, *steps), value, holder.column)
    if number:
        return _add_lines(text, content_end(text, holder.items[number - 1]), lines)
    start = line_start(text, holder.start)
    if text[start : holder.start].strip():
        raise ValueError(f"line {holder.line} holds more than this list")
    start, ending = _remarks_start(text, start, holder.column), line_end_of(text)
    return text[:start] + ending.join(lines) + ending + text[start:]


def _remarks_start(text: str, start: int, column: int) -> int:
    """Return where the remarks begin that stand right above a line, in a column."""
    while start:
        above = line_start(text, start - 1 - (text[start - 2 : start] == "\r\n"))
        if not text[above:start].startswith(f"{' ' * column}#"):
            break
        start = above
    return start


def _refuse_gaps(holder: Node, above: Path, steps: Path) -> None:
    """Refuse steps that cannot follow what is there."""
    if isinstance(holder, Scalar) and holder.text:
        raise ValueError(f"{spoken(above)} holds a value, so nothing can be added under it")
    there = len(getattr(holder, "items", ())) if not isinstance(holder, Mapping) else 0
    for number, step in enumerate(steps):
        if isinstance(step, int) and step != (there if number == 0 else 0):
            raise ValueError(f"{spoken(above + steps)} leaves a gap in its list")


def _neighbour(holder: Node, above: Path, step: str | int) -> Node:
    """Return the entry after which a new one goes: by the order of the schema, else the last."""
    if not isinstance(holder, Mapping):
        return holder
    order = key_order(above)
    if step not in order:
        return holder
    before = order[: order.index(str(step))]
    ahead = [value for key, value in holder.pairs if key.text in before]
    return ahead[-1] if ahead else holder


def _add_lines(text: str, after: int, lines: list[str]) -> str:
    """Return the text with lines added below the line of a place."""
    ending = line_end_of(text)
    place = next_line(text, after)
    added = ending.join(lines)
    if line_stop(text, after) == len(text):  # the last line has no end of its own
        return text + (ending if text else "") + added
    return text[:place] + added + ending + text[place:]


def _into_nothing(text: str, empty: Scalar, held_by: Node, steps: Path, value: str) -> str:
    """Return the text with an entry in a key that held nothing yet."""
    if empty is NOWHERE or isinstance(held_by, Scalar):
        return _add_lines(text, len(text.rstrip()), _block(steps, value, 0))
    if held_by.flow:
        return f"{text[: empty.end]} {_flow(steps, value)}{text[empty.end :]}"
    return _add_lines(text, empty.end, _block(steps, value, held_by.column + STEP))


def _into_flow(text: str, holder: Node, steps: Path, value: str) -> str:
    """Return the text with an entry added inside brackets or braces."""
    if isinstance(holder, Scalar):
        raise TypeError("holder must be a group or a list, got a value")
    entry = _flow(steps, value)[1:-1]
    below = [pair[1] for pair in holder.pairs] if isinstance(holder, Mapping) else holder.items
    place = content_end(text, below[-1]) if below else holder.end - 1
    return text[:place] + (", " if below else "") + entry + text[place:]


def _flow(steps: Path, value: str) -> str:
    """Return new entries in braces."""
    written = spelled(value, flow=True)
    for step in reversed(steps):
        if isinstance(step, int):
            written = f"[{written}]"
        else:
            written = f"{{{spelled(step, flow=True)}: {written}}}"
    return written


def _block(steps: Path, value: str, column: int) -> list[str]:
    """Return new entries as lines in block style."""
    indent, step, rest = " " * column, steps[0], steps[1:]
    if isinstance(step, int):
        if not rest:
            return [f"{indent}- {spelled(value, flow=False)}"]
        lines = _block(rest, value, column + STEP)
        return [f"{indent}- {lines[0].lstrip(' ')}", *lines[1:]]
    name = spelled(step, flow=False)
    if not rest:
        return [f"{indent}{name}: {spelled(value, flow=False)}"]
    return [f"{indent}{name}:", *_block(rest, value, column + STEP)]
