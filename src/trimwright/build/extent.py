"""Where nodes and lines end in a text."""

from trimwright.build.node import Mapping, Node, Scalar


def content_end(text: str, node: Node) -> int:
    """Return the place after the last character of a node."""
    if isinstance(node, Scalar):
        if node.style in ("|", ">"):
            return node.start + len(text[node.start : node.end].rstrip())
        return node.end
    if node.flow:
        return node.end
    below = [value for _, value in node.pairs] if isinstance(node, Mapping) else node.items
    return content_end(text, below[-1]) if below else node.start


def line_start(text: str, place: int) -> int:
    """Return the place at which the line of a place begins."""
    return max(text.rfind("\n", 0, place), text.rfind("\r", 0, place)) + 1


def line_stop(text: str, place: int) -> int:
    """Return the place of the line end that follows a place, or of the end of the text."""
    while place < len(text) and text[place] not in "\r\n":
        place += 1
    return place


def next_line(text: str, place: int) -> int:
    """Return the place at which the line after that of a place begins."""
    stop = line_stop(text, place)
    return stop + (2 if text[stop : stop + 2] == "\r\n" else 1) if stop < len(text) else stop


def line_end_of(text: str) -> str:
    """Return the line end that a text uses first."""
    stop = line_stop(text, 0)
    if stop == len(text):
        return "\n"
    return "\r\n" if text[stop : stop + 2] == "\r\n" else text[stop]
