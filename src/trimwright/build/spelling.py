"""How a text is written so that YAML reads it back as it was."""

from trimwright.build.compose import composed
from trimwright.build.fault import InputError
from trimwright.build.node import Mapping, Node, Scalar, Sequence
from trimwright.build.trap import node_traps, text_traps

Data = str | dict[str, "Data"] | list["Data"]


def data(node: Node) -> Data:
    """Return what a node holds as plain texts, groups and lists.

    Raises
    ------
    ValueError
        If a group has a key twice.
    """
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [data(item) for item in node.items]
    held = {key.text: data(value) for key, value in node.pairs}
    if len(held) != len(node.pairs):
        raise ValueError(f"text must hold each key once, got one twice near line {node.line}")
    return held


def spelled(text: str, *, flow: bool) -> str:
    """Return a text as it is written in a file: plain where YAML reads it back, else quoted.

    Parameters
    ----------
    text : str
        What is to be read back.
    flow : bool
        Whether it stands inside brackets or braces.

    Examples
    --------
    >>> spelled("12,5", flow=False), spelled("12,5", flow=True), spelled("#8 screw", flow=False)
    ('12,5', '"12,5"', '"#8 screw"')
    """
    if text.isprintable() and _reads_back(text, text, flow=flow):
        return text
    signs = (_escaped(sign) for sign in text)
    return f'"{"".join(signs)}"'


def _escaped(sign: str) -> str:
    """Return one character as it stands in double quotes."""
    if sign in ('"', "\\"):
        return f"\\{sign}"
    return sign if sign.isprintable() else f"\\U{ord(sign):08x}"


def _reads_back(written: str, text: str, *, flow: bool) -> bool:
    """Return whether a spelling is read as that text, as a value and as a key, with no trap."""
    probes = [f"{{k: {written}, l: 1}}", f"{{{written}: k}}", f"[{written}, k]"] if flow else []
    probes += [f"k: {written}\n", f"{written}: k\n", f"- {written}\n"]
    wanted: list[Data] = [{"k": text, "l": "1"}, {text: "k"}, [text, "k"]] if flow else []
    wanted += [{"k": text}, {text: "k"}, [text]]
    for probe, right in zip(probes, wanted, strict=True):
        try:
            root = composed(probe)
        except InputError:
            return False
        if text_traps(probe) or node_traps(root, probe) or data(root) != right:
            return False
        if not all(_plain(node) for node in _below(root)):
            return False
    return True


def _below(root: Node) -> list[Node]:
    """Return what a probe holds."""
    if isinstance(root, Mapping):
        return [part for pair in root.pairs for part in pair]
    return root.items if isinstance(root, Sequence) else [root]


def _plain(node: Node) -> bool:
    """Return whether a node is a plain scalar."""
    return isinstance(node, Scalar) and not node.style
