"""Who is let in, and what a browser may do with what it gets."""

from collections.abc import Iterator
from pathlib import Path
from socket import AF_INET, SOCK_STREAM, socket

import pytest

from tests.served_bench import CAR, Page, Served, served
from trimwright.app.door import HEADERS, MOST_BYTES

INNER = "/api/builds"


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    folder = tmp_path_factory.mktemp("car")
    (folder / "build.yaml").write_text(CAR, encoding="utf-8")
    (folder / "secret.txt").write_text("not for pages", encoding="utf-8")
    page = folder / "page"
    (page / "assets").mkdir(parents=True)
    (page / "index.html").write_text("<!doctype html><title>bench</title>", encoding="utf-8")
    (page / "assets" / "bench.js").write_text("'use strict'", encoding="utf-8")
    (page / "out.txt").symlink_to(folder / "secret.txt")
    with served(folder / "build.yaml", page) as one:
        yield one


@pytest.fixture
def page(here: Served) -> Page:
    return here.page()


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "127.0.0.1:1", "", "[::1]:{port}"]
)
def test_another_name_gets_nothing(page: Page, host: str) -> None:
    said = page.ask("GET", INNER, Host=host.format(port=page.port))
    assert said.status in (400, 403)
    assert b"Larkspur" not in said.body


def test_our_own_names_are_answered_in_any_case(page: Page) -> None:
    assert page.ask("GET", INNER, Host=f"LocalHost:{page.port}").status == 200


@pytest.mark.parametrize(
    "origin",
    [
        "http://evil.example",
        "null",
        "http://127.0.0.1:1",
        "https://127.0.0.1:{port}",
        "http://127.0.0.1:{port}.evil.example",
        "http://evil.example#@127.0.0.1:{port}",
        "http://[",
        "http://http://127.0.0.1:{port}",
    ],
)
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_pages_of_other_sites_may_not_ask(page: Page, method: str, origin: str) -> None:
    said = page.ask(method, INNER, Origin=origin.format(port=page.port))
    assert said.status == 403


def test_an_edit_without_an_origin_is_refused(page: Page) -> None:
    assert page.ask("POST", f"{INNER}/build/undo", Origin="").status == 403


@pytest.mark.parametrize("site", ["cross-site", "same-site", "anything"])
def test_a_browser_that_says_it_asks_for_another_site_is_refused(page: Page, site: str) -> None:
    assert page.ask("GET", INNER, Sec_Fetch_Site=site).status == 403


@pytest.mark.parametrize("site", ["same-origin", "none"])
def test_a_browser_that_asks_for_our_page_is_answered(page: Page, site: str) -> None:
    assert page.ask("GET", INNER, Sec_Fetch_Site=site).status == 200


@pytest.mark.parametrize(
    "cookie",
    [
        "",
        "{name}=",
        "{name}=wrong",
        "{name}={half}",
        "trimwright={key}",
        "x{name}={key}",
        "=;;\x7f",
    ],
)
def test_without_the_key_nothing_is_told(here: Served, cookie: str) -> None:
    door, page = here.door, here.page()
    page.cookie = cookie.format(name=door.cookie, key=door.key, half=door.key[:-1])
    for path in ("/", INNER, "/assets/bench.js", "/openapi.json", "/api/events"):
        said = page.get(path)
        assert said.status == 401
        assert door.key.encode() not in said.body


def test_other_cookies_beside_ours_do_no_harm(page: Page) -> None:
    page.cookie = f'a=b; path; "=\\; {page.cookie}; expires=1'
    assert page.get(INNER).status == 200


def test_the_key_in_the_address_becomes_a_cookie_and_leaves_the_address(here: Served) -> None:
    page = here.page()
    page.cookie = ""
    said = page.get(f"/build?key={here.door.key}")
    assert said.status == 303
    assert said.headers["location"] == "/build"
    name, _, rest = said.headers["set-cookie"].partition("=")
    assert name == here.door.cookie
    assert rest == f"{here.door.key}; HttpOnly; SameSite=Strict; Path=/"
    page.cookie = f"{name}={rest.split(';')[0]}"
    assert page.get(INNER).status == 200
    assert page.get(f"/?key={here.door.key}").status == 303  # who has the cookie is sent on too


@pytest.mark.parametrize(
    "path", ["//evil.example/", "/\\evil.example", "/%5Cevil.example", "/%0d%0aX:y"]
)
def test_the_key_sends_nobody_to_another_site(here: Served, path: str) -> None:
    to = here.page().get(f"{path}?key={here.door.key}").headers["location"]
    assert to.startswith("/")
    assert not to.startswith(("//", "/\\"))


@pytest.mark.parametrize("path", ["/?key=wrong", "/?key=", "/?key=%FF%00", "/%C3%A4?key=wrong"])
def test_a_wrong_key_in_the_address_opens_nothing(here: Served, path: str) -> None:
    page = here.page()
    page.cookie = ""
    said = page.get(path)
    assert said.status == 401
    assert "set-cookie" not in said.headers


def test_two_doors_of_one_machine_keep_their_cookies_apart(here: Served, tmp_path: Path) -> None:
    (tmp_path / "build.yaml").write_text(CAR, encoding="utf-8")
    with served(tmp_path / "build.yaml") as other:
        assert other.door.cookie != here.door.cookie
        assert other.door.key != here.door.key


@pytest.mark.parametrize(
    ("method", "path", "status"),
    [
        ("GET", "/", 200),
        ("HEAD", "/", 200),
        ("GET", "/assets/bench.js", 200),
        ("GET", INNER, 200),
        ("GET", "/openapi.json", 200),
        ("GET", "/api/nothing", 404),
        ("GET", "/nothing.js", 404),
        ("GET", "/api/builds/nobody", 404),
        ("GET", "/api/builds/nobody/fit", 404),
        ("HEAD", INNER, 405),
        ("DELETE", INNER, 405),
        ("PUT", "/", 405),
        ("PATCH", "/api/builds/build", 405),
        ("OPTIONS", INNER, 405),
        ("TRACE", "/", 405),
        ("POST", "/api/nothing", 405),
        ("BREW", "/", 405),
    ],
)
def test_every_answer_says_what_a_browser_may_do(
    page: Page, method: str, path: str, status: int
) -> None:
    said = page.ask(method, path)
    assert said.status == status
    assert {name: said.headers[name] for name in HEADERS if name != "cache-control"} == {
        name: value for name, value in HEADERS.items() if name != "cache-control"
    }
    assert said.headers["cache-control"] == "no-store" or not path.startswith("/api")


def test_refusals_say_it_too(here: Served) -> None:
    for said in (
        here.page().ask("GET", "/", Host="evil.example"),
        here.page().ask("GET", "/", Cookie=""),
        here.page().ask("GET", f"/?key={here.door.key}"),
        here.page().ask("POST", f"{INNER}/build/edits", b"{"),
        here.page().ask("POST", f"{INNER}/build/edits", b" " * (MOST_BYTES + 1)),
    ):
        assert said.headers["content-security-policy"] == HEADERS["content-security-policy"]


@pytest.mark.parametrize(
    "path",
    [
        "/../secret.txt",
        "/%2e%2e/secret.txt",
        "/..%2fsecret.txt",
        "/assets/../../secret.txt",
        "/assets/%2e%2e/%2e%2e/secret.txt",
        "/%2e%2e%2f%2e%2e%2fetc%2fpasswd",
        "//etc/passwd",
        "/%2fetc/passwd",
        "/..%5csecret.txt",
        "/%252e%252e/secret.txt",
        "/out.txt",
        "/secret.txt%00.js",
        "/" + "a" * 5000 + ".js",
        "/.%00./x",
        "/assets",
    ],
)
def test_no_address_leads_out_of_the_page(page: Page, path: str) -> None:
    said = page.get(path)
    assert said.status in (200, 404)
    assert b"not for pages" not in said.body
    assert b"root:" not in said.body


def test_more_than_an_edit_needs_is_refused(page: Page) -> None:
    path = f"{INNER}/build/edits"
    assert page.ask("POST", path, b" " * (MOST_BYTES + 1)).status == 413
    assert page.ask("POST", path, b" " * MOST_BYTES).status == 422


def test_more_than_was_announced_is_refused_as_it_comes(page: Page) -> None:
    with socket(AF_INET, SOCK_STREAM) as line:
        line.settimeout(10)
        line.connect((page.host, page.port))
        head = (
            f"POST {INNER}/build/edits HTTP/1.1\r\nHost: {page.host}:{page.port}\r\n"
            f"Origin: http://{page.host}:{page.port}\r\nCookie: {page.cookie}\r\n"
            "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
        )
        line.sendall(head.encode())
        chunk = b"10000\r\n" + b" " * 0x10000 + b"\r\n"
        for _ in range(MOST_BYTES // 0x10000 + 1):
            line.sendall(chunk)
        assert line.recv(4096).startswith(b"HTTP/1.1 413 ")


def test_only_this_machine_can_reach_it(here: Served) -> None:
    listening = {row.split()[1] for row in Path("/proc/net/tcp").read_text().splitlines()[1:]}
    where = [one for one in listening if one.endswith(f":{here.port:04X}")]
    assert where == [f"0100007F:{here.port:04X}"]
