"""A picture is written anew from its dots; what is no picture is refused in words, before it costs."""

import re
import struct
from io import BytesIO

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image, ImageDraw

from tests.invented_picture import (
    MADE_BY,
    WHEN,
    encoded,
    from_phone,
    latitude,
    png_of,
    segments,
    shaded,
    told,
)
from trimwright.drawing import Photo, PhotoError, photo

JPEG = from_phone()
HEIC = struct.pack(">I4s4s4s", 24, b"ftyp", b"heic", b"\0\0\0\0") + b"mif1heic" + bytes(200)
EMPTY_JPEG_SEGMENTS = {0xE0, 0xDB, 0xC0, 0xC4}  # JFIF, tables, frame: what dots need


def read(made: Photo) -> Image.Image:
    """Return the picture that came out."""
    return Image.open(BytesIO(made.data)).convert("RGB")


def test_where_when_and_with_what_it_was_taken_do_not_come_along() -> None:
    assert latitude(JPEG) == pytest.approx(51.507222, abs=1e-6)  # the reader does read it
    made = photo(JPEG)
    assert latitude(made.data) is None
    assert set(segments(made.data)) == EMPTY_JPEG_SEGMENTS
    for telling in (MADE_BY, WHEN, "Ada", "Exif", "2024"):
        assert telling.encode() in JPEG
        assert telling.encode() not in made.data


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_kinds_tell_nothing_either(kind: str) -> None:
    sent = encoded(shaded(300, 200), kind, exif=told())
    assert MADE_BY.encode() in sent
    made = photo(sent)
    assert (made.ending, MADE_BY.encode() in made.data) == (".jpg", False)


@pytest.mark.parametrize(
    ("orientation", "red_corner"),
    # TIFF 6.0 p. 36: where the first row and the first column of what was stored belong
    [
        (1, (1, 0)),
        (2, (0, 0)),
        (3, (0, 1)),
        (4, (1, 1)),
        (5, (0, 1)),
        (6, (1, 1)),
        (7, (1, 0)),
        (8, (0, 0)),
    ],
)
def test_it_stands_upright_however_the_camera_was_held(
    orientation: int, red_corner: tuple[int, int]
) -> None:
    stored = Image.new("RGB", (400, 300), "navy")
    stored.paste("red", (300, 0, 400, 100))  # at the right of the first row
    noise = Image.effect_noise((400, 300), 12).convert("RGB")  # else it is a drawing
    made = photo(
        encoded(Image.blend(stored, noise, 0.1), "JPEG", quality=95, exif=told(orientation))
    )
    assert (made.width, made.height) == ((400, 300) if orientation < 5 else (300, 400))
    seen = read(made)
    x, y = (20 if not end else size - 21 for end, size in zip(red_corner, seen.size, strict=True))
    red, _, blue = seen.getpixel((x, y))  # type: ignore[misc]  # RGB has three
    assert red > 150 > blue


def test_it_is_no_larger_than_it_has_to_be_and_keeps_its_shape() -> None:
    made = photo(encoded(shaded(5000, 2500), "JPEG"))
    assert (made.width, made.height) == (2000, 1000)
    assert read(made).size == (2000, 1000)
    left, right = (read(made).getpixel((x, 500)) for x in (20, 1980))
    assert abs(right[0] - left[0]) > 200  # type: ignore[index]  # RGB has three
    small = photo(encoded(shaded(50, 40), "JPEG"))
    assert (small.width, small.height) == (50, 40)


def test_a_drawing_keeps_its_sharp_lines() -> None:
    drawn = Image.new("RGB", (300, 200), "white")
    ImageDraw.Draw(drawn).line((20, 20, 280, 180), fill="black", width=3)
    made = photo(encoded(drawn, "PNG"))
    assert made.ending == ".png"
    assert read(made).tobytes() == drawn.tobytes()


def test_what_can_be_seen_through_lies_on_white() -> None:
    clear = Image.new("RGBA", (40, 40), (255, 0, 0, 0))
    clear.paste((0, 0, 0, 255), (10, 10, 20, 20))
    for sent in (encoded(clear, "PNG"), encoded(clear.quantize(8), "PNG")):
        seen = read(photo(sent))
        assert (seen.getpixel((0, 0)), seen.getpixel((15, 15))) == ((255, 255, 255), (0, 0, 0))


def test_sixteen_bits_of_grey_stay_grey() -> None:
    deep = Image.new("I;16", (30, 30), 32896)  # 128 of 255
    assert read(photo(encoded(deep, "PNG"))).getpixel((3, 3)) == (128, 128, 128)


def test_the_same_picture_gives_the_same_bytes_and_again_nearly_itself() -> None:
    assert photo(JPEG) == photo(JPEG)
    once = photo(JPEG)
    assert photo(once.data).width == once.width


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        (b"", "Nothing was sent"),
        (HEIC, r"HEIC picture.*Set the phone's camera to JPEG"),
        (HEIC.replace(b"heic", b"avif"), r"AVIF picture.*JPEG"),
        (b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>", "no picture that"),
        (b"<!doctype html><script>alert(1)</script>", "no picture that"),
        (b"GIF89a" + bytes(40), "no picture that"),
        (b"%PDF-1.7", "no picture that"),
        (b"\xff\xd8\xff<svg onload=alert(1)>", "damaged or did not arrive whole"),
        (JPEG[: len(JPEG) // 2], "damaged or did not arrive whole"),
        (JPEG[:300], "damaged or did not arrive whole"),
        (png_of(60, 60)[:-40], "damaged or did not arrive whole"),
        (b"RIFF\x10\0\0\0WEBPVP8 " + bytes(8), "damaged or did not arrive whole"),
    ],
)
def test_what_is_no_picture_is_refused_in_words(sent: bytes, says: str) -> None:
    with pytest.raises(PhotoError, match=says):
        photo(sent)


@pytest.mark.parametrize(
    "sent",
    [
        png_of(9000, 7000),  # 63 million dots in 8 kB
        png_of(20000, 10000),
        b"RIFF\x4c\0\0\0WEBPVP8L\x37\0\0\0\x2f"
        + struct.pack("<I", 16382 | 16382 << 14)
        + bytes(52),
    ],
)
def test_a_bomb_is_refused_before_it_is_decoded(
    sent: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    def decoded(*_: object) -> None:
        raise AssertionError("it was decoded")

    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", decoded)
    with pytest.raises(PhotoError, match="million pixels; at most 60 million"):
        photo(sent)


def test_a_page_hidden_behind_a_picture_does_not_come_along() -> None:
    page = b"<!doctype html><script>alert(1)</script>"
    for sent in (
        JPEG + page,
        encoded(shaded(300, 200), "JPEG", comment=page),
        encoded(shaded(300, 200), "PNG") + page,
    ):
        assert page in sent
        assert not re.search(b"<[a-z!]*(?:script|doctype)", photo(sent).data)


@pytest.mark.filterwarnings("ignore::UserWarning")  # of what is said in it, which is not kept
@given(st.data())
@settings(max_examples=100)
def test_whatever_is_damaged_is_a_picture_still_or_refused_in_words(data: st.DataObject) -> None:
    kinds = [from_phone(64, 48), encoded(shaded(40, 30), "PNG"), encoded(shaded(40, 30), "WEBP")]
    sent = bytearray(data.draw(st.sampled_from(kinds)))
    for _ in range(data.draw(st.integers(1, 8))):
        sent[data.draw(st.integers(0, len(sent) - 1))] = data.draw(st.integers(0, 255))
    del sent[data.draw(st.integers(len(sent) // 2, len(sent))) :]
    try:
        made = photo(bytes(sent))
    except PhotoError:
        return
    assert read(made).size == (made.width, made.height)


def test_only_the_decoder_of_its_kind_sees_it(monkeypatch: pytest.MonkeyPatch) -> None:
    photo(JPEG)  # so that all decoders are known
    seen = []

    def any_kind(file: BytesIO, _: str) -> None:
        seen.append(file)
        raise SyntaxError("not mine")

    monkeypatch.setattr(Image, "ID", ["ANY", *Image.ID])
    monkeypatch.setitem(Image.OPEN, "ANY", (any_kind, None))
    with pytest.raises(PhotoError, match="damaged"):
        photo(JPEG[:100])
    assert seen == []
