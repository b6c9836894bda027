"""Pictures made for tests, with what phones write into them, and a reader of it that is our own."""

import struct
import zlib
from io import BytesIO

from PIL import Image

ORIENTATION, CAMERA, TAKEN, GPS = 0x0112, 0x010F, 0x0132, 0x8825
LATITUDE = 2  # of the GPS group
MADE_BY, WHEN = "Wrenfold Optics", "2024:03:02 19:40:00"


def encoded(picture: Image.Image, kind: str, **more: object) -> bytes:
    """Return a picture as the bytes of a file."""
    out = BytesIO()
    picture.save(out, kind, **more)
    return out.getvalue()


def shaded(width: int, height: int) -> Image.Image:
    """Return a picture of many colours, red growing to the right, green growing downwards."""
    across = Image.linear_gradient("L").rotate(90).resize((width, height))
    down = Image.linear_gradient("L").resize((width, height))
    return Image.merge("RGB", (across, down, Image.new("L", (width, height), 90)))


def told(orientation: int = 1) -> Image.Exif:
    """Return what a phone writes into a picture: where, when, with what, and how it was held."""
    exif = Image.Exif()
    exif[ORIENTATION], exif[CAMERA], exif[TAKEN] = orientation, MADE_BY, WHEN
    exif.get_ifd(GPS).update({1: "N", LATITUDE: (51.0, 30.0, 26.0), 3: "W", 4: (0.0, 7.0, 39.0)})
    return exif


def from_phone(width: int = 400, height: int = 300, orientation: int = 1) -> bytes:
    """Return a JPEG as a phone makes it, with all that it tells about whoever took it."""
    return encoded(
        shaded(width, height), "JPEG", quality=90, exif=told(orientation), comment=b"Ada's phone"
    )


def segments(jpeg: bytes) -> dict[int, list[bytes]]:
    """Return the segments of a JPEG before its dots, by marker, read as ISO 10918-1 B.1.1 has them."""
    found: dict[int, list[bytes]] = {}
    place = 2
    while jpeg[place] == 0xFF and jpeg[place + 1] != 0xDA:
        (length,) = struct.unpack_from(">H", jpeg, place + 2)
        found.setdefault(jpeg[place + 1], []).append(jpeg[place + 4 : place + 2 + length])
        place += 2 + length
    return found


def latitude(jpeg: bytes) -> float | None:
    """Return the latitude [deg] that a JPEG tells, None where it tells none; read as TIFF 6.0 has it."""
    blocks = [one[6:] for one in segments(jpeg).get(0xE1, []) if one.startswith(b"Exif\0\0")]
    if not blocks:
        return None
    tiff = blocks[0]
    order = "<" if tiff[:2] == b"II" else ">"

    def entries(at: int) -> dict[int, int]:
        (count,) = struct.unpack_from(f"{order}H", tiff, at)
        rows = (struct.unpack_from(f"{order}HHII", tiff, at + 2 + 12 * n) for n in range(count))
        return {tag: value for tag, _, _, value in rows}

    (first,) = struct.unpack_from(f"{order}I", tiff, 4)
    place = entries(first).get(GPS)
    if place is None:
        return None
    parts = struct.unpack_from(f"{order}6I", tiff, entries(place)[LATITUDE])
    return float(sum(parts[2 * n] / parts[2 * n + 1] / 60**n for n in range(3)))


def png_of(width: int, height: int, *, bits: int = 1, grey: bool = True) -> bytes:
    """Return a PNG of one colour, as few bytes as it can have: what bombs are made of."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    row = 1 + (width * bits * (1 if grey else 3) + 7) // 8
    packed = zlib.compressobj(9)
    data = b"".join(packed.compress(bytes(row)) for _ in range(height)) + packed.flush()
    head = struct.pack(">IIBBBBB", width, height, bits, 0 if grey else 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", data) + chunk(b"IEND", b"")
