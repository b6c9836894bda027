"""Two pages on one bench, and a server that is stopped under them."""

import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.served_bench import CAR, Page, Served, pause, served, until
from trimwright.app import answer, bench_routes, fit_routes
from trimwright.app.message import FitMessage

RUN = "import sys; from trimwright.cli import main; sys.exit(main())"
LOOSE: list[str | int] = ["car", "carpet", "loose"]
SQUEEZED: list[str | int] = ["car", "carpet", "squeezed by hand"]
WIDTH: list[str | int] = ["car", "tunnel", 0, "width at floor"]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "larkspur.yaml"
    path.write_text(CAR, encoding="utf-8")
    return path


@pytest.fixture
def here(file: Path) -> Iterator[Served]:
    with served(file) as one:
        yield one


def test_an_edit_reaches_the_other_page_within_a_second(here: Served) -> None:
    one, other = here.page(), here.page()
    base = one.version("larkspur")
    with other.events(1.0) as news:
        assert next(news) == ("version", "larkspur", base)
        after = one.edit("larkspur", base, LOOSE, "14 ± 1").json["version"]
        assert next(news) == ("version", "larkspur", after)
        assert other.get("/api/builds/larkspur").json["version"] == after


def test_an_edit_by_hand_reaches_a_page_within_a_second(here: Served, file: Path) -> None:
    with here.page().events(1.0) as news:
        next(news)
        other = file.with_suffix(".new")  # in one step: a file half written has a version too
        other.write_text(CAR.replace("6\n", "lots\n"), encoding="utf-8")
        other.replace(file)
        _, _, version = next(news)
    said = here.page().get("/api/builds/larkspur").json
    assert said["version"] == version
    assert [fault["line"] for fault in said["faults"]] == [6]


def test_what_both_change_is_told_with_what_the_other_wrote(here: Served) -> None:
    one, other = here.page(), here.page()
    base = one.version("larkspur")
    assert one.edit("larkspur", base, LOOSE, "14 ± 1").status == 200
    assert other.edit("larkspur", base, SQUEEZED, "5").status == 200
    clash = other.edit("larkspur", base, LOOSE, "13")
    assert clash.status == 409
    assert clash.json == {"theirs": [{"path": LOOSE, "value": "14 ± 1"}]}


def test_edits_kept_while_away_go_in_in_their_order(here: Served, file: Path) -> None:
    one, away = here.page(), here.page()
    known = away.version("larkspur")
    assert one.edit("larkspur", known, LOOSE, "14 ± 1").status == 200  # meanwhile
    kept = [(SQUEEZED, "5"), (WIDTH, "331"), (LOOSE, "13"), (SQUEEZED, "4"), (WIDTH, "lots")]
    patches = [
        {"edits": [{"path": path, "value": value}], "says": f"{path[-1]}: {value}"}
        for path, value in kept
    ]
    said = away.post("/api/builds/larkspur/replay", {"base": known, "patches": patches})
    assert said.status == 200
    clash, fault = said.json["refused"]
    assert (clash["number"], fault["number"]) == (2, 4)
    assert clash["theirs"] == [{"path": LOOSE, "value": "14 ± 1"}]
    assert fault["faults"][0]["path"] == WIDTH
    assert said.json["standing"]["version"] == one.version("larkspur")
    told = file.read_text(encoding="utf-8")
    assert "loose: 14 ± 1" in told
    assert "squeezed by hand: 4" in told
    assert "width at floor: 331" in told
    steps = here.inside.state.benches["larkspur"].steps()[0]
    assert [step.says for step in steps] == [
        "As first kept",
        "Set loose",
        "squeezed by hand: 5",
        "width at floor: 331",
        "squeezed by hand: 4",
    ]


def test_a_page_that_goes_is_forgotten(here: Served, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("trimwright.app.feed.QUIET_S", 0.05)
    feed = here.inside.state.feed
    with here.page().events() as news:
        next(news)
        assert len(feed) == 1
    until(lambda: len(feed) == 0)


def test_several_pages_that_ask_for_the_same_version_have_it_reckoned_once(
    here: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = []

    def slow(*asked: object) -> FitMessage:
        made.append(1)
        pause(0.2)
        return answer.fit(*asked)  # type: ignore[arg-type]  # what it is given

    monkeypatch.setattr(fit_routes, "fit", slow)
    pages = [
        threading.Thread(target=here.page().get, args=("/api/builds/larkspur/fit",))
        for _ in range(12)
    ]
    for page in pages:
        page.start()
    for page in pages:
        page.join()
    assert made == [1]


def test_edits_go_in_while_findings_are_worked_out(
    here: Served, monkeypatch: pytest.MonkeyPatch
) -> None:
    gate = threading.Event()
    monkeypatch.setattr(fit_routes, "fit", lambda *_: gate.wait(20) and None)
    page = here.page()
    waiting = [
        threading.Thread(target=page.get, args=("/api/builds/larkspur/fit",)) for _ in range(60)
    ]  # more than the server has threads
    for one in waiting:
        one.start()
    pause(0.3)
    assert page.edit("larkspur", page.version("larkspur"), LOOSE, "14").status == 200
    monkeypatch.setattr(fit_routes, "fit", answer.fit)
    gate.set()
    for one in waiting:
        one.join()


def test_the_shelf_opens_at_once_and_is_filled_in_later(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for number in range(5):
        (tmp_path / f"car-{number}.yaml").write_text(CAR, encoding="utf-8")
    gate = threading.Event()

    def slow(*asked: object) -> FitMessage:
        gate.wait(20)
        return answer.fit(*asked)  # type: ignore[arg-type]  # what it is given

    monkeypatch.setattr(bench_routes, "fit", slow)
    with served(tmp_path) as here:
        page = here.page()
        with page.events() as news:
            shelf = page.get("/api/builds").json
            assert [one["waits"] for one in shelf] == [True] * 5
            assert [one["title"] for one in shelf] == ["Larkspur estate, 1974"] * 5
            page.get("/api/builds")
            gate.set()
            while next(news)[0] != "reckoned":
                pass
        until(lambda: not any(one["waits"] for one in page.get("/api/builds").json))
        assert all(one["stops"] is not None for one in page.get("/api/builds").json)


def test_a_file_with_an_error_still_shows_its_last_good_findings(here: Served, file: Path) -> None:
    page = here.page()
    good = page.get("/api/builds/larkspur/fit").json
    file.write_text(CAR.replace("6\n", "lots\n"), encoding="utf-8")
    assert page.version("larkspur") != good["version"]
    assert page.get("/api/builds/larkspur/fit").json == good
    file.unlink()
    assert page.get("/api/builds/larkspur/fit").json == good


def test_a_file_that_never_could_be_used_says_so(tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("nonsense", encoding="utf-8")
    with served(tmp_path) as here:
        page = here.page()
        assert page.get("/api/builds").json[0]["stops"] is None
        assert page.get("/api/builds/bad").json["faults"]
        for place in ("fit", "views"):
            said = page.get(f"/api/builds/bad/{place}")
            assert (said.status, said.json) == (
                409,
                {"detail": "The file cannot be used as it is."},
            )


@pytest.mark.parametrize("sign", [signal.SIGINT, signal.SIGTERM])
def test_ctrl_c_stops_it_with_pages_open(file: Path, sign: int) -> None:
    words = [sys.executable, "-c", RUN, "open", "--no-browser", str(file)]
    pipe = subprocess.PIPE
    with subprocess.Popen(words, stdout=pipe, stderr=pipe, text=True) as run:  # noqa: S603  our own
        try:
            _stop(run, sign)
        finally:
            run.kill()


def _stop(run: "subprocess.Popen[str]", sign: int) -> None:
    assert run.stdout is not None
    assert run.stderr is not None
    run.stdout.readline()
    address = run.stdout.readline().strip()
    port = int(address.split(":")[2].split("/")[0])
    page = Page(port, f"trimwright-{port}={address.partition('key=')[2]}")
    with page.events() as news, page.events() as others:
        next(news)
        next(others)
        run.send_signal(sign)
        run.wait(5)
        assert list(news) == []
    assert run.stderr.read() == ""
    if sign == signal.SIGINT:
        assert run.returncode == 0
        assert run.stdout.read().endswith("The bench is closed. Every edit is in its file.\n")
