"""Notes and photos over the wire: what is taken in, what is refused in words, what is shown again."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from tests.invented_picture import MADE_BY, encoded, from_phone, latitude, png_of, shaded
from tests.served_bench import CAR, Answer, Page, served
from trimwright.app.door import MOST_BYTES
from trimwright.build import MOST_PICTURE_BYTES, load

PHOTO = from_phone()
SCRIPT = b"<svg xmlns='http://www.w3.org/2000/svg' onload='alert(1)'/>"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of a build, something that is nobody's business beside it."""
    (tmp_path / "secret.jpg").write_bytes(PHOTO)
    path = tmp_path / "car"
    path.mkdir()
    (path / "build.yaml").write_text(CAR, encoding="utf-8")
    return path


@pytest.fixture
def page(folder: Path) -> Iterator[Page]:
    """Return a page of a bench that serves it."""
    (folder.parent / "page").mkdir()
    with served(folder / "build.yaml", folder.parent / "page") as one:
        (named,) = one.inside.state.benches
        assert named == "car"
        yield one.page()


def at(more: str) -> str:
    return f"/api/builds/car{more}"


def send(page: Page, data: bytes, **headers: str) -> Answer:
    return page.ask("POST", at("/photos"), data, **{"Content_Type": "image/jpeg", **headers})


def note(page: Page, **said: str) -> Answer:
    return page.post(at("/notes"), said)


def test_a_photo_is_kept_shown_and_undone_without_being_lost(page: Page, folder: Path) -> None:
    before = (folder / "build.yaml").read_bytes()
    sent = send(page, PHOTO)
    assert (sent.status, sent.json["width"], sent.json["height"]) == (200, 400, 300)
    reference = sent.json["photo"]
    assert (folder / "build.yaml").read_bytes() == before  # no note shows it yet
    told = note(page, kind="finding", about="nose to dash", says="from  the\nleft", photo=reference)
    assert told.status == 200
    (one,) = told.json["notes"]
    assert (one["kind"], one["about"], one["says"]) == ("finding", "nose to dash", "from the left")
    shown = page.get(at(f"/photos/{one['photo']}"))
    assert shown.status == 200
    assert shown.body == (folder / reference).read_bytes()
    assert shown.headers["content-type"] == "image/jpeg"
    assert shown.headers["x-content-type-options"] == "nosniff"
    assert "immutable" in shown.headers["cache-control"]
    assert page.get(at("")).json["last"] == "Photo at nose to dash"
    assert page.ask("POST", at("/undo")).status == 200
    assert (folder / "build.yaml").read_bytes() == before
    assert (folder / reference).is_file()
    assert page.get(at("/notes")).json["notes"] == []
    assert page.get(at(f"/photos/{reference}")).status == 404  # no note shows it any more
    assert page.ask("POST", at("/redo")).status == 200
    assert page.get(at(f"/photos/{reference}")).body == shown.body


def test_what_a_phone_tells_stays_on_the_phone(page: Page, folder: Path) -> None:
    assert latitude(PHOTO) is not None
    reference = send(page, PHOTO).json["photo"]
    kept = (folder / reference).read_bytes()
    assert latitude(kept) is None
    assert MADE_BY.encode() not in kept


def test_the_same_photo_twice_is_one_file(page: Page, folder: Path) -> None:
    assert send(page, PHOTO).json == send(page, PHOTO).json
    assert len(list((folder / "photos").iterdir())) == 1


@pytest.mark.parametrize(
    ("data", "status", "says"),
    [
        (b"", 415, "Nothing was sent. Choose the picture again."),
        (SCRIPT, 415, "This is no picture that the bench can read: send JPEG, PNG or WebP."),
        (PHOTO[:2000], 415, "damaged or did not arrive whole"),
        (b"\0\0\0\x18ftypheic" + bytes(40), 415, "Set the phone's camera to JPEG"),
        (png_of(9000, 7000), 415, "63 million pixels; at most 60 million"),
        (bytes(MOST_PICTURE_BYTES + 1), 413, "At most 12 MiB may be sent."),
    ],
)
def test_what_is_no_photo_is_refused_in_words_and_nothing_is_kept(
    page: Page, folder: Path, data: bytes, status: int, says: str
) -> None:
    answer = send(page, data)
    assert (answer.status, says in answer.json["detail"]) == (status, True)
    assert not (folder / "photos").exists()


def test_a_photo_may_be_larger_than_an_edit_and_nothing_else_may(page: Page) -> None:
    large = encoded(Image.effect_noise((1500, 1500), 90), "PNG") + bytes(MOST_BYTES)
    assert MOST_BYTES < len(large) < MOST_PICTURE_BYTES
    assert send(page, large).status == 200
    for path in ("/notes", "/edits", "/photos/x", "/walk"):
        answer = page.ask("POST", at(path), bytes(MOST_BYTES + 1))
        assert (path, answer.status) == (path, 413)
        assert answer.json["detail"] == "At most 1 MiB may be sent."
    assert page.ask("POST", "/api/builds", bytes(MOST_BYTES + 1)).status == 413


def test_a_photo_from_another_page_is_refused(page: Page, folder: Path) -> None:
    assert send(page, PHOTO, Origin="http://evil.example").status == 403
    assert send(page, PHOTO, Cookie="").status == 401
    assert not (folder / "photos").exists()


@pytest.mark.parametrize(
    "path",
    [
        "build.yaml",
        "../secret.jpg",
        "..%2fsecret.jpg",
        "photos/../../secret.jpg",
        "%2e%2e/secret.jpg",
        "/etc/passwd",
        "other.jpg",
        "..%5csecret.jpg",
        "secret.jpg%00",
    ],
)
def test_only_what_a_note_shows_is_served(page: Page, folder: Path, path: str) -> None:
    (folder / "other.jpg").write_bytes(PHOTO)  # beside the build, but no note shows it
    assert page.get(at(f"/photos/{path}")).status == 404


def test_a_file_that_only_calls_itself_a_picture_is_not_served(page: Page, folder: Path) -> None:
    (folder / "trick.jpg").write_bytes(SCRIPT)
    text = f"{CAR}notes:\n  - photo: trick.jpg\n"
    (folder / "build.yaml").write_text(text, "utf-8")
    (one,) = page.get(at("/notes")).json["notes"]
    assert (one["photo"], one["lacks"]) == ("", "trick.jpg is no picture that a page can show.")
    assert page.get(at("/photos/trick.jpg")).status == 404


def test_a_page_hidden_in_a_photo_of_the_builders_own_is_served_as_the_picture_it_is(
    page: Page, folder: Path
) -> None:
    (folder / "own.png").write_bytes(encoded(shaded(30, 20), "WEBP") + SCRIPT)
    (folder / "build.yaml").write_text(f"{CAR}notes:\n  - photo: own.png\n", "utf-8")
    shown = page.get(at("/photos/own.png"))
    assert shown.headers["content-type"] == "image/webp"
    assert shown.headers["x-content-type-options"] == "nosniff"
    assert shown.headers["cache-control"] == "no-cache"  # the builder may put another in its place
    assert Image.open(BytesIO(shown.body)).size == (30, 20)


def test_a_link_put_there_later_is_not_followed(page: Page, folder: Path) -> None:
    reference = send(page, PHOTO).json["photo"]
    note(page, photo=reference)
    (folder / reference).unlink()
    (folder / reference).symlink_to(folder.parent / "secret.jpg")
    assert page.get(at(f"/photos/{reference}")).status == 404
    assert "leads out" in page.get(at("/notes")).json["notes"][0]["lacks"]


def test_nothing_is_written_through_a_link(page: Page, folder: Path) -> None:
    (folder.parent / "elsewhere").mkdir()
    (folder / "photos").symlink_to(folder.parent / "elsewhere")
    answer = send(page, PHOTO)
    assert (answer.status, "nothing is kept" in answer.json["detail"]) == (409, True)
    assert list((folder.parent / "elsewhere").iterdir()) == []


def test_a_missing_picture_is_said_and_the_rest_is_served(page: Page, folder: Path) -> None:
    (folder / "build.yaml").write_text(f"{CAR}notes:\n  - photo: gone.jpg\n", "utf-8")
    assert page.get(at("/notes")).json["notes"][0]["lacks"] == "The picture gone.jpg is not there."
    assert page.get(at("")).json["faults"] == []


@pytest.mark.parametrize(
    ("said", "status", "says"),
    [
        ({"says": "  \n "}, 409, "Write a few words, or add a photo."),
        ({"kind": "part", "says": "x"}, 409, "Say what the note is about."),
        ({"says": "x", "photo": "photos/none.jpg"}, 404, "is not there"),
        ({"says": "x", "photo": "../secret.jpg"}, 404, "leads out of the build's folder"),
        ({"says": "x", "photo": "build.yaml"}, 404, "leads out of the build's folder"),
    ],
)
def test_a_note_of_nothing_is_refused_in_words(
    page: Page, folder: Path, said: dict[str, str], status: int, says: str
) -> None:
    answer = note(page, **said)
    assert (answer.status, says in answer.json["detail"]) == (status, True)
    assert (folder / "build.yaml").read_text("utf-8") == CAR


def test_a_note_is_added_below_whatever_another_page_wrote_meanwhile(
    page: Page, folder: Path
) -> None:
    assert page.get(at("/notes")).json["notes"] == []
    with (folder / "build.yaml").open("a", encoding="utf-8") as file:
        file.write("notes:\n  - says: by hand\n")
    told = note(page, kind="reading", about="carpet, loose", says="by the door").json
    assert [one["says"] for one in told["notes"]] == ["by hand", "by the door"]
    assert [one.reading for one in load(folder / "build.yaml").build.notes] == [
        None,
        "carpet, loose",
    ]


def test_the_walk_says_what_each_reading_is_called(page: Page) -> None:
    called = {tuple(one["path"]): one["called"] for one in page.get(at("/walk")).json["steps"]}
    at_300 = ["tunnel at 300 behind, width at floor", "tunnel 1st, width at floor"]
    assert called["car", "tunnel", 0, "width at floor"] == at_300
    assert called["car", "carpet", "loose"] == ["carpet, loose"]
    assert called["console", "width"] == ["console, width"]  # not written yet


def test_the_parts_are_the_panels(page: Page) -> None:
    assert page.get(at("/parts")).json["parts"] == []
    version = page.version("car")
    message = {
        "base": version,
        "edits": [
            {"path": ["console", key], "value": value}
            for key, value in (
                ("deck height", "260"),
                ("width", "236"),
                ("from", "250 behind"),
                ("to", "550 behind"),
            )
        ],
        "says": "A console",
    }
    assert page.post(at("/edits"), message).status == 200
    assert page.get(at("/parts")).json["parts"] == ["deck", "left wall", "right wall"]
