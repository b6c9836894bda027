"""A photograph as page and paper can show it: turned upright, of a useful size, and nothing else.

Whatever comes in is told by its first bytes, measured before it is decoded, decoded, and written
anew from its dots alone: where and when it was taken, and with what, does not come along.
"""

import struct
from io import BytesIO
from typing import TYPE_CHECKING

from msgspec import Struct

if TYPE_CHECKING:
    from PIL import Image

LONGEST_PX = 2000  # of a picture that is kept: a page of A4 at 170 dots an inch
MOST_PIXELS = 60_000_000  # of a picture that is taken in; more is a bomb or a stitched panorama
QUALITY = 85  # of JPEG: half the bytes of 95, and no eye on paper tells them apart
FEW_COLOURS = 256  # up to so many it is a drawing, and PNG keeps its lines sharp
ISO_MEDIA, BRAND = slice(4, 8), slice(8, 12)  # of ISO 14496-12: 'ftyp', then what it is
HEIC = (b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1")
# what decoders raise on bytes that are not what they should be
DAMAGED = (
    *(OSError, SyntaxError, ValueError, TypeError, LookupError, ArithmeticError, EOFError),
    *(AttributeError, NotImplementedError, struct.error),
)
WHAT_TO_DO = (
    "Set the phone's camera to JPEG (some call it 'most compatible') and take it again, or send"
    " the picture through the phone's own sharing as JPEG."
)


class Photo(Struct, frozen=True):
    """A picture written anew: its bytes, the ending of its file, its size in pixels."""

    data: bytes
    ending: str
    width: int
    height: int


class PhotoError(Exception):
    """What was sent is no picture that can be shown; why and what to do, in plain words."""


def picture_kind(data: bytes) -> str:
    """Return the kind of a picture, as its first bytes tell: 'JPEG', 'PNG' or 'WEBP'; else nothing.

    Examples
    --------
    >>> picture_kind(b"<svg onload=...>"), picture_kind(b"RIFF....WEBPVP8 ")
    ('', 'WEBP')
    """
    if data.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    return "WEBP" if data[:4] == b"RIFF" and data[BRAND] == b"WEBP" else ""


def photo(data: bytes, longest_px: int = LONGEST_PX) -> Photo:
    """Return a picture turned upright, its longer side at most so long, without anything said in it.

    Parameters
    ----------
    data : bytes
        JPEG, PNG or WebP, whatever its file was called.
    longest_px : int, default 2000
        The longer side at most [px].

    Raises
    ------
    PhotoError
        If it is another kind, is damaged or cut short, or has too many pixels.

    Notes
    -----
    The same bytes give the same bytes. Colours beyond sRGB are taken as if they were in it.
    """
    kind = picture_kind(data)
    if not kind:
        raise PhotoError(_other_kind(data))
    from PIL import Image  # noqa: PLC0415  lazy: costs 0.1 s, and few builds have pictures

    try:
        with Image.open(BytesIO(data), formats=(kind,)) as read:
            _refuse_many(read.width * read.height)
            return _anew(_upright(read, longest_px))
    except (Image.DecompressionBombError, Image.DecompressionBombWarning):
        raise PhotoError(_too_many("more than 89 million")) from None
    except PhotoError:
        raise
    except DAMAGED as damaged:
        raise PhotoError(
            "The picture is damaged or did not arrive whole. Take it or send it again."
        ) from damaged


def _other_kind(data: bytes) -> str:
    """Return what is said of a file that is no picture we read."""
    if data[ISO_MEDIA] == b"ftyp" and data[BRAND] in HEIC:
        return f"This is a HEIC picture, which the bench cannot read. {WHAT_TO_DO}"
    if data[ISO_MEDIA] == b"ftyp" and data[BRAND] in (b"avif", b"avis"):
        return f"This is an AVIF picture, which the bench cannot read. {WHAT_TO_DO}"
    if not data:
        return "Nothing was sent. Choose the picture again."
    return "This is no picture that the bench can read: send JPEG, PNG or WebP."


def _refuse_many(pixels: int) -> None:
    """Refuse a picture that would fill the memory, before it is decoded."""
    if pixels > MOST_PIXELS:
        raise PhotoError(_too_many(f"{pixels / 1e6:.0f} million"))


def _too_many(count: str) -> str:
    """Return what is said of a picture with too many pixels."""
    most = MOST_PIXELS // 1_000_000
    return (
        f"The picture has {count} pixels; at most {most} million can be taken in."
        " Take it at the camera's usual size."
    )


def _upright(read: "Image.Image", longest_px: int) -> "Image.Image":
    """Return a picture decoded, made smaller and turned as the camera was held."""
    from PIL import ImageOps  # noqa: PLC0415  lazy, as above

    if read.mode in ("1", "P", "PA"):  # else it is made smaller by leaving dots out
        read = read.convert("RGBA")
    read.thumbnail((longest_px, longest_px))
    return ImageOps.exif_transpose(read)


def _anew(decoded: "Image.Image") -> Photo:
    """Return a picture written from its dots alone, on white where it can be seen through."""
    from PIL import Image  # noqa: PLC0415  lazy, as above

    if decoded.mode.startswith(("I", "F")):  # 16 bits of grey
        decoded = decoded.point(lambda level: level * (1 / 257)).convert("L")
    clean = Image.new("RGB", decoded.size, "white")
    if decoded.has_transparency_data:
        seen = decoded.convert("RGBA")
        clean.paste(seen, mask=seen)
    else:
        clean.paste(decoded.convert("RGB"))
    out = BytesIO()
    if clean.getcolors(FEW_COLOURS):
        clean.save(out, "PNG", optimize=True)
        return Photo(out.getvalue(), ".png", *clean.size)
    clean.save(out, "JPEG", quality=QUALITY, optimize=True)
    return Photo(out.getvalue(), ".jpg", *clean.size)
