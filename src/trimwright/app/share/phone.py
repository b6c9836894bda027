"""One paired phone: its key, what it says it is, and what ends when it is let go."""

import asyncio
import re
from secrets import token_urlsafe

from msgspec import Struct, field

from trimwright.app.share.limit import Allowance

# what a browser says it is, and the plain word: the first that is found counts
DEVICES = (
    (r"iPhone", "iPhone"),
    (r"iPad", "iPad"),
    (r"Android.*Mobile", "Android phone"),
    (r"Android", "Android tablet"),
    (r"Windows", "Windows computer"),
    (r"CrOS", "Chromebook"),
    (r"Macintosh", "Mac"),
    (r"Linux", "Linux computer"),
)
BROWSERS = (
    (r"\bEdg", "Edge"),
    (r"SamsungBrowser", "Samsung browser"),
    (r"Firefox|FxiOS", "Firefox"),
    (r"Chrom|CriOS", "Chrome"),
    (r"Safari", "Safari"),
)
MOST_READ = 400  # signs of what a browser says


def device(agent: str) -> str:
    """Return in plain words what a browser says it is: our words only, none of what it sent.

    Examples
    --------
    >>> device("Mozilla/5.0 (iPhone; CPU iPhone OS 19_0) AppleWebKit/605 Version/19 Safari/604")
    'iPhone, Safari'
    >>> device("<b>trust me</b>")
    'a device that does not say what it is'
    """
    said = agent[:MOST_READ]
    found = (
        next((word for sign, word in kinds if re.search(sign, said)), "")
        for kinds in (DEVICES, BROWSERS)
    )
    return ", ".join(filter(None, found)) or "a device that does not say what it is"


class Phone(Struct, eq=False):
    """A paired phone.

    Attributes
    ----------
    number : int
        Which it is, among all that were paired.
    says : str
        What its browser says it is, in plain words.
    paired, heard : str
        When it was paired and last heard, as on the clock: '21:14'.
    allowance : Allowance
        What it may still ask.
    key : str
        What its cookie holds; drawn when it is paired, never taken from what it sends.
    over : asyncio.Event
        Set when it is let go; `why` then says in words what it is told.
    """

    number: int
    says: str
    paired: str
    heard: str
    allowance: Allowance
    key: str = field(default_factory=lambda: token_urlsafe(32))
    over: asyncio.Event = field(default_factory=asyncio.Event)
    why: str = ""

    def end(self, why: str) -> None:
        """Let it go: nothing more is answered, and what is open ends."""
        self.why = why
        self.over.set()
