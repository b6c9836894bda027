"""What the bench asks about sharing, and the one thing that a phone may ask of it: to be paired."""

from datetime import UTC, datetime
from typing import Annotated
from urllib.parse import quote

import segno
from fastapi import APIRouter, Depends, Header, HTTPException, Path, Request, Response

from trimwright.app.asked import Shelf
from trimwright.app.share.code import plain
from trimwright.app.share.door import PAIR, PhoneDoor
from trimwright.app.share.message import (
    HereMessage,
    PairedMessage,
    PairingMessage,
    PhoneMessage,
    SharingMessage,
    WayIn,
)
from trimwright.app.share.sharing import NotPairedError, Share

router = APIRouter(prefix="/api")
QUIET_MODULES = 4  # white around the picture, as ISO/IEC 18004 asks


def _share(request: Request) -> Share:
    """Return the sharing of this bench, to the bench itself only."""
    if request.scope.get("door") != "bench":
        raise HTTPException(403, "This is done at the bench itself.")
    found: Share = request.app.state.share
    return found


def _door(request: Request) -> PhoneDoor:
    """Return the door that a phone stands before."""
    found = request.scope.get("pairs")
    if not isinstance(found, PhoneDoor):
        raise HTTPException(
            403, "This is the bench itself: a phone asks at its address on the network."
        )
    return found


AtTheBench = Annotated[Share, Depends(_share)]
AtTheDoor = Annotated[PhoneDoor, Depends(_door)]


@router.get("/here")
def here(request: Request) -> HereMessage:
    """Return where the page is looked at."""
    return HereMessage(at="bench" if request.scope.get("door") == "bench" else "phone")


@router.get("/share")
async def sharing(share: AtTheBench) -> SharingMessage:
    """Return whether the bench is shared, with whom, and how the next phone gets in."""
    return _told(share)


@router.post("/share/on")
async def on(share: AtTheBench, request: Request) -> SharingMessage:
    """Share the bench on this machine's network."""
    await share.switch_on(lambda hosts: PhoneDoor(request.app, hosts, share))
    return _told(share)


@router.post("/share/off")
async def off(share: AtTheBench) -> SharingMessage:
    """Take the bench off the network, and every phone with it."""
    share.switch_off()
    await share.closed()
    return _told(share)


@router.post("/share/code")
async def code(share: AtTheBench) -> SharingMessage:
    """Put up a new code for one phone more."""
    share.offer()
    return _told(share)


@router.post("/share/let-go")
async def let_all_go(share: AtTheBench) -> SharingMessage:
    """Let every phone go."""
    share.let_go()
    return _told(share)


@router.post("/share/let-go/{number}")
async def let_go(share: AtTheBench, number: Annotated[int, Path(ge=0)]) -> SharingMessage:
    """Let one phone go."""
    share.let_go(number)
    return _told(share)


@router.get("/pair", dependencies=[Depends(_door)])
async def paired(request: Request, shelf: Shelf) -> PairedMessage:
    """Return whether this phone is paired."""
    is_paired = request.scope.get("phone") is not None
    return PairedMessage(paired=is_paired, to=_first(list(shelf)) if is_paired else "")


@router.post("/pair")
async def pair(
    door: AtTheDoor,
    request: Request,
    response: Response,
    asked: PairingMessage,
    shelf: Shelf,
    user_agent: Annotated[str, Header()] = "",
) -> PairedMessage:
    """Pair this phone if it brings the code; its key goes into a cookie."""
    if request.scope.get("phone") is not None:  # a second code is left for another phone
        return await paired(request, shelf)
    who = request.client.host if request.client else ""
    try:
        phone = door.share.pair(asked.code, who, user_agent)
    except NotPairedError as refused:
        status = 429 if refused.wait_s else 401
        raise HTTPException(status, str(refused)) from None
    response.headers["set-cookie"] = door.cookie_line(phone.key)
    return PairedMessage(paired=True, to=_first(list(shelf)))


def _first(names: list[str]) -> str:
    """Return a phone's first page: measuring, if there is one build, else the shelf."""
    return f"/{quote(names[0], safe='')}/measure" if len(names) == 1 else "/"


def _told(share: Share) -> SharingMessage:
    """Return the sharing as a message."""
    left_s = share.left_s()
    text = share.code.text if share.code and left_s else ""
    until = datetime.fromtimestamp(share.clocks.wall() + left_s, UTC).astimezone()
    return SharingMessage(
        on=share.on,
        said=share.said,
        code=text,
        left_s=int(left_s),
        until=f"{until:%H:%M}" if text else "",
        ways=tuple(_way(address, text) for address in share.addresses),
        phones=tuple(
            PhoneMessage(number=one.number, says=one.says, paired=one.paired, heard=one.heard)
            for one in share.phones
        ),
    )


def _way(address: str, text: str) -> WayIn:
    """Return an address, with a picture that a phone's camera reads: always black on white."""
    if not text:
        return WayIn(address=f"http://{address}", picture="")
    made = segno.make(f"http://{address}{PAIR}#{plain(text)}", error="m", micro=False)
    picture = made.svg_data_uri(border=QUIET_MODULES, dark="#000", light="#fff", omitsize=True)
    return WayIn(address=f"http://{address}", picture=picture)
