"""What the bench and the phones say to each other about sharing."""

from typing import Literal

from pydantic import Field

from trimwright.app.message import Message


class HereMessage(Message):
    """Where a page is looked at: at the bench itself, or on a paired phone."""

    at: Literal["bench", "phone"]


class WayIn(Message):
    """An address of the bench on the network, and a picture of it with the code, if there is one."""

    address: str
    picture: str


class PhoneMessage(Message):
    """A paired phone, by what its browser says it is."""

    number: int
    says: str
    paired: str
    heard: str


class SharingMessage(Message):
    """Whether the bench is shared, how the next phone gets in, and which phones are in."""

    on: bool
    said: str
    code: str
    left_s: int
    until: str
    ways: tuple[WayIn, ...]
    phones: tuple[PhoneMessage, ...]


class PairingMessage(Message):
    """A code that was typed, or that came with the picture."""

    code: str = Field(min_length=1, max_length=40)


class PairedMessage(Message):
    """Whether a phone is paired, and its first page."""

    paired: bool
    to: str
