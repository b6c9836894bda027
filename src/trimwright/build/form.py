"""How an entry may be written shorter than its fields: one text for several, or free keys."""

import re
from collections.abc import Callable
from typing import Any

from msgspec import Struct


class Split(Struct, frozen=True):
    """A text that fills several fields, named by the groups of its pattern.

    `main` names the field that is the reading proper: it answers to the entry's own key. Of
    fields in `alike` only one is ever filled, and answers to the key of the text.
    """

    pattern: re.Pattern[str]
    expected: str
    example: str
    main: str = ""
    alike: tuple[str, ...] = ()


class FreeKeys(Struct, frozen=True):
    """Keys that carry a figure ('down 30'), each of which makes one item of the field `into`.

    `item` turns a key and its match into the fields the key itself says; where the value of such
    a key is a plain text, it fills the field `scalar`. `key` and `says` are its words in the handbook.
    """

    pattern: re.Pattern[str]
    into: str
    item: Callable[[str, re.Match[str]], dict[str, Any]]
    example: str
    scalar: str = ""
    key: str = "a key with a figure"
    says: str = "one for each reading"
