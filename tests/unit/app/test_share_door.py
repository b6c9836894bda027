"""Who gets in from the network, against a real listener; an attacker's questions among them."""

import json
from collections.abc import Iterator
from threading import Barrier, Thread

import pytest

from tests.served_bench import Answer, Page
from tests.shared_bench import INNER, NAME, PAIRING, Log, Shared, shared
from trimwright.app.door import HEADERS, MOST_BYTES
from trimwright.app.share import door as share_door
from trimwright.app.share.door import MOST_CODE, NOT_PAIRED
from trimwright.app.share.limit import AT_ONCE, PER_S, WITHIN_S, WRONG_FROM_ONE
from trimwright.app.share.sharing import LET_GO, USED, WRONG

SWITCHES = ("on", "off", "code", "let-go", "let-go/1")


@pytest.fixture(scope="module")
def once(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shared]:
    with shared(tmp_path_factory.mktemp("car")) as one:
        yield one


@pytest.fixture
def bench(once: Shared) -> Shared:
    """Return a bench with no phone, a code, and no wrong try that counts still."""
    once.hands.steady += 2 * WITHIN_S
    once.bench.post("/api/share/let-go", {})
    once.code()
    return once


def test_a_code_becomes_a_cookie_that_scripts_and_other_sites_do_not_get(bench: Shared) -> None:
    phone = bench.stranger()
    said = bench.pair(phone, bench.code())
    assert said.json == {"paired": True, "to": f"/{NAME}/measure"}
    name, _, rest = said.headers["set-cookie"].partition("=")
    key, rest = rest.split("; ", 1)
    assert (name, rest) == (bench.cookie, "HttpOnly; SameSite=Strict; Path=/")
    assert len(key) >= 43  # 256 bits
    assert phone.get(INNER).status == 200


def test_a_session_is_never_one_that_was_brought(bench: Shared) -> None:
    phone = bench.stranger()
    phone.cookie = f"{bench.cookie}=chosen-by-another"
    before = phone.cookie
    bench.pair(phone, bench.code())
    assert phone.cookie != before
    assert Page(bench.port, before).get(INNER).status == 401


def test_of_two_phones_with_one_code_exactly_one_is_paired(bench: Shared) -> None:
    for _ in range(5):
        code, start = bench.code(), Barrier(4)
        said: list[Answer] = []

        def knock(code: str = code, start: Barrier = start, said: list[Answer] = said) -> None:
            phone = bench.stranger()
            start.wait()
            said.append(bench.pair(phone, code))

        threads = [Thread(target=knock) for _ in range(4)]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        assert sorted(one.status for one in said) == [200, 401, 401, 401]
        assert {one.json["detail"] for one in said if one.status == 401} == {USED}
        bench.hands.steady += WITHIN_S
        bench.bench.post("/api/share/let-go", {})


def test_without_a_code_nothing_is_told_of_any_build(bench: Shared) -> None:
    phone = bench.stranger()
    for path in ("/", f"/{NAME}", "/index.html", f"/{NAME}/measure", "/openapi.json"):
        said = phone.get(path)
        assert (said.status, said.headers["location"], said.body) == (303, PAIRING, b"")
    for path in (INNER, "/api/events", "/api/here", "/api/share", "/api/nothing", "/api/pair/"):
        said = phone.get(path)
        assert (said.status, said.json) == (401, {"detail": NOT_PAIRED})
    assert phone.post(f"{INNER}/{NAME}/undo", {}).status == 401
    assert phone.ask("DELETE", "/api/pair").status == 401
    assert phone.get("/api/pair").json == {"paired": False, "to": ""}


def test_the_page_that_pairs_is_shown_to_everybody(bench: Shared) -> None:
    phone = bench.stranger()
    assert b"<title>pair" in phone.get(PAIRING).body
    assert phone.get("/assets/bench.js").status == 200


@pytest.mark.parametrize(
    "path",
    [
        "/assets/../../secret.txt",
        "/assets/%2e%2e/%2e%2e/secret.txt",
        "/assets/..%2f..%2fsecret.txt",
        "/assets/out.txt",
        "/out.txt",
        "/%2e%2e/secret.txt",
        "/assets/%2e%2e/%2e%2e/larkspur.yaml",
        "/assets//etc/passwd",
        "/assets/../api/builds",
        "/pair.html/../../secret.txt",
        "//etc/passwd",
        "/icon.svg/../../secret.txt",
    ],
)
@pytest.mark.parametrize("paired", [False, True])
def test_no_address_leads_out_of_the_page(bench: Shared, path: str, *, paired: bool) -> None:
    said = (bench.phone() if paired else bench.stranger()).get(path)
    assert said.status in (200, 303, 404)
    for secret in (b"not for pages", b"root:", b"Larkspur"):
        assert secret not in said.body


@pytest.mark.parametrize(
    "host", ["evil.example", "evil.example:{port}", "localhost:{port}", "127.0.0.1:{own}", ""]
)
@pytest.mark.parametrize("path", [INNER, PAIRING, "/api/pair"])
def test_only_the_shared_address_is_answered(bench: Shared, host: str, path: str) -> None:
    host = host.format(port=bench.port, own=bench.here.port)
    assert bench.phone().ask("GET", path, Host=host).status in (400, 403)


@pytest.mark.parametrize("origin", ["http://evil.example", "null", "http://127.0.0.1:{own}", ""])
def test_no_page_of_another_site_pairs_a_phone_or_edits(bench: Shared, origin: str) -> None:
    origin, phone, code = origin.format(own=bench.here.port), bench.phone(), bench.code()
    body = json.dumps({"code": code}).encode()
    assert bench.stranger().ask("POST", "/api/pair", body, Origin=origin).status == 403
    assert phone.ask("POST", f"{INNER}/{NAME}/undo", b"", Origin=origin).status == 403
    assert bench.share.code is not None  # it was not used up


def test_what_other_sites_ask_does_not_count_as_wrong(bench: Shared) -> None:
    body = json.dumps({"code": "WRONG"}).encode()
    for _ in range(2 * WRONG_FROM_ONE):
        bench.stranger().ask("POST", "/api/pair", body, Origin="http://evil.example")
    assert bench.pair(bench.stranger(), bench.code()).status == 200


@pytest.mark.parametrize("what", SWITCHES)
def test_the_switch_is_out_of_reach_of_other_sites_and_of_links(bench: Shared, what: str) -> None:
    before = bench.bench.get("/api/share").json
    path = f"/api/share/{what}"
    for origin in ("http://evil.example", "", f"http://127.0.0.1:{bench.port}"):
        assert bench.bench.ask("POST", path, b"{}", Origin=origin).status == 403
    assert bench.bench.get(path).status in (404, 405)
    assert bench.bench.get("/api/share").json == before


@pytest.mark.parametrize("what", SWITCHES)
def test_a_paired_phone_switches_pairs_and_revokes_nothing(bench: Shared, what: str) -> None:
    phone, other = bench.phone(), bench.phone()
    code = bench.code()
    before = bench.bench.get("/api/share").json
    assert phone.post(f"/api/share/{what}", {}).status == 403
    assert phone.get("/api/share").status == 403
    assert code.encode() not in phone.get("/api/share").body
    assert phone.get("/api/here").json == {"at": "phone"}
    assert bench.bench.get("/api/here").json == {"at": "bench"}
    assert bench.pair(phone, code).status == 200  # it is paired already: the code is for another
    assert bench.bench.get("/api/share").json == before
    assert other.get(INNER).status == 200


def test_a_paired_phone_works_on_the_builds(bench: Shared) -> None:
    phone = bench.phone()
    said = phone.edit(NAME, phone.version(NAME), ["car", "carpet", "loose"], "14 ± 1")
    assert said.status == 200
    assert bench.bench.version(NAME) == said.json["version"]


def test_the_two_doors_take_each_only_its_own_keys(bench: Shared) -> None:
    own, phone = bench.here.door.key, bench.phone()
    assert Page(bench.port, f"{bench.cookie}={own}").get(INNER).status == 401
    assert Page(bench.port, f"{bench.here.door.cookie}={own}").get(INNER).status == 401
    assert bench.stranger().get(f"/?key={own}").headers["location"] == PAIRING
    key = phone.cookie.partition("=")[2]
    assert Page(bench.here.port, f"{bench.here.door.cookie}={key}").get(INNER).status == 401
    assert bench.bench.post("/api/pair", {"code": bench.code()}).status == 403


def test_the_key_of_the_bench_never_travels_to_a_phone(bench: Shared) -> None:
    phone, key = bench.phone(), bench.here.door.key
    paths = ("/", PAIRING, INNER, f"{INNER}/{NAME}", "/api/here", "/api/pair", "/openapi.json")
    answers = [one.get(path) for one in (phone, bench.stranger()) for path in paths]
    answers += [bench.pair(bench.stranger(), bench.code())]
    for said in answers:
        assert key not in f"{said.headers}{said.body!r}"


def test_ten_wrong_codes_are_refused_for_a_minute_with_a_plain_page(bench: Shared) -> None:
    phone, friend, code = bench.stranger(), bench.phone(), bench.code()
    for _ in range(WRONG_FROM_ONE):
        said = bench.pair(phone, "WRONG")
        assert (said.status, said.json) == (401, {"detail": WRONG})
    assert bench.pair(phone, code).status == 429
    said = phone.get("/")
    assert (said.status, said.headers["content-type"]) == (429, "text/plain; charset=utf-8")
    assert said.body.startswith(b"Too many wrong codes. Wait 60 s")
    assert said.headers["retry-after"] == "60"
    assert friend.get(INNER).status == 200  # at the same address: its key is right
    bench.hands.steady += WITHIN_S
    assert bench.pair(phone, code).status == 200


def test_who_says_to_be_another_address_is_counted_all_the_same(bench: Shared) -> None:
    body = json.dumps({"code": "WRONG"}).encode()
    for k in range(WRONG_FROM_ONE):
        said = bench.stranger().ask("POST", "/api/pair", body, X_Forwarded_For=f"192.0.2.{k}")
        assert said.status == 401
    assert bench.stranger().ask("GET", "/", X_Forwarded_For="192.0.2.99").status == 429


def test_wrong_keys_are_counted_as_wrong_codes_are(bench: Shared) -> None:
    guesser = Page(bench.port, f"{bench.cookie}=guessed")
    for k in range(WRONG_FROM_ONE):
        assert guesser.get((INNER, "/api/pair", "/")[k % 3]).status in (200, 303, 401)
    assert guesser.get(INNER).status == 429
    assert bench.stranger().get(PAIRING).status == 429


def test_a_phone_that_was_let_go_is_told_so_and_does_not_count_as_wrong(bench: Shared) -> None:
    phone = bench.phone()
    bench.bench.post("/api/share/let-go", {})
    for _ in range(2 * WRONG_FROM_ONE):
        said = phone.get(INNER)
        assert (said.status, said.json) == (401, {"detail": LET_GO})
    assert phone.get("/").headers["location"] == PAIRING
    assert bench.pair(phone, bench.code()).status == 200


def test_a_phone_may_ask_much_but_not_without_end(bench: Shared) -> None:
    phone, other = bench.phone(), bench.phone()
    statuses = [phone.get("/api/here").status for _ in range(AT_ONCE + 5)]
    assert statuses == [200] * AT_ONCE + [429] * 5
    assert other.get("/api/here").status == 200
    bench.hands.steady += 1
    assert [phone.get("/api/here").status for _ in range(PER_S + 1)] == [200] * PER_S + [429]


def test_what_a_stranger_sends_is_short_and_quick(
    bench: Shared, monkeypatch: pytest.MonkeyPatch
) -> None:
    phone = bench.stranger()
    assert phone.ask("POST", "/api/pair", b" " * (MOST_CODE + 1)).status == 413
    assert phone.ask("POST", "/api/pair", b" " * MOST_CODE).status == 422
    assert bench.phone().ask("POST", f"{INNER}/{NAME}/edits", b" " * MOST_BYTES).status == 422
    monkeypatch.setattr(share_door, "BODY_S", 0.1)
    assert phone.ask("POST", "/api/pair", None, Content_Length="9").status == 408


@pytest.mark.parametrize("path", ["/", PAIRING, INNER, "/api/pair", "/assets/bench.js", "/no.js"])
def test_every_answer_says_what_a_browser_may_do(bench: Shared, path: str) -> None:
    meant = {k: v for k, v in HEADERS.items() if k != "cross-origin-opener-policy"}
    for phone in (bench.stranger(), bench.phone()):
        for said in (phone.get(path), phone.ask("GET", path, Host="evil.example")):
            told = {**said.headers, "cache-control": meant["cache-control"]}
            assert {name: told[name] for name in meant} == meant
            assert "cross-origin-opener-policy" not in told  # heeded on encrypted pages only


def test_nothing_of_it_is_logged(bench: Shared) -> None:
    phone, code = bench.stranger(), bench.code()
    with Log() as log:
        bench.pair(phone, code)
        phone.get(f"/?key={code}")
    assert log.said == ""


def test_a_phone_is_listed_by_what_its_browser_says_it_is(bench: Shared) -> None:
    phone = bench.stranger(agent="Mozilla/5.0 (iPhone; <b>) Version/19 Safari/604")
    bench.hands.wall += 5
    bench.pair(phone, bench.code())
    (listed,) = bench.bench.get("/api/share").json["phones"]
    now = bench.share.now()
    number = listed["number"]
    assert listed == {"number": number, "says": "iPhone, Safari", "paired": now, "heard": now}
