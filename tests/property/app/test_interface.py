"""Whatever is asked, the answer is one that the interface's own description tells of."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
import schemathesis
from hypothesis import given, settings
from hypothesis import strategies as st
from schemathesis import Case
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from tests.served_bench import CAR, Page, Served, served
from tests.shared_bench import NAME, Shared, shared
from trimwright.app import app
from trimwright.app.share.code import LENGTH, LETTERS
from trimwright.app.share.limit import WITHIN_S
from trimwright.build import load, written

CHECKS: list[Callable[..., bool | None]] = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
]
SCHEMA = schemathesis.openapi.from_dict(app({}).openapi()).exclude(path="/api/events")
PATHS = sorted(written(CAR), key=str)
STEPS = st.one_of(
    st.sampled_from([step for path in PATHS for step in path]), st.text(), st.integers()
)
PLACES = st.one_of(
    st.sampled_from(PATHS),
    st.builds(lambda path, step: (*path[:-1], step), st.sampled_from(PATHS), STEPS),
    st.builds(lambda path, steps: (*path, *steps), st.sampled_from(PATHS), st.lists(STEPS)),
    st.lists(STEPS, min_size=1, max_size=20).map(tuple),
)
VALUES = st.one_of(
    st.none(),
    st.text(),
    st.sampled_from(
        ["12 ± 1", "1/2 in", "-3", "", "0", "1e999", "nan", "x: y", "- a", "\x00", "}"]
    ),
)
EDITS = st.lists(st.tuples(PLACES, VALUES), min_size=1, max_size=4)


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    file = tmp_path_factory.mktemp("car") / "build.yaml"
    file.write_text(CAR, encoding="utf-8")
    with served(file) as one:
        yield one


@SCHEMA.parametrize()
@settings(max_examples=40)
def test_every_answer_is_as_the_description_says(case: "Case[Any]", here: Served) -> None:
    if len(case.path_parameters.get("name", "")) % 2:
        case.path_parameters["name"] = next(iter(here.inside.state.benches))
    page = here.page()
    origin = f"http://{page.host}:{page.port}"
    headers = {"Origin": origin, "Cookie": page.cookie}
    answer = case.call(base_url=origin, headers=headers)
    case.validate_response(answer, checks=CHECKS)


@pytest.fixture(scope="module")
def network(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shared]:
    with shared(tmp_path_factory.mktemp("shared")) as one:
        yield one


@pytest.fixture(scope="module")
def paired(network: Shared) -> Page:
    return network.phone()


@SCHEMA.parametrize()
@settings(max_examples=10)
def test_every_answer_to_a_phone_is_as_the_description_says(
    case: "Case[Any]", network: Shared, paired: Page
) -> None:
    if len(case.path_parameters.get("name", "")) % 2:
        case.path_parameters["name"] = NAME
    network.hands.steady += WITHIN_S  # or it would soon be told that it asks too much
    origin = f"http://{network.share.addresses[0]}"
    answer = case.call(base_url=origin, headers={"Origin": origin, "Cookie": paired.cookie})
    case.validate_response(answer, checks=CHECKS)
    assert network.share.on
    assert len(network.share.phones) == 1


@given(st.one_of(st.text(max_size=40), st.text(LETTERS, min_size=LENGTH, max_size=LENGTH)))
@settings(max_examples=150)
def test_no_code_but_the_one_that_is_up_pairs(network: Shared, typed: str) -> None:
    network.hands.steady += WITHIN_S
    said = network.stranger().post("/api/pair", {"code": typed})
    assert said.status in (401, 422)
    assert "set-cookie" not in said.headers


@given(st.binary(max_size=200))
def test_a_body_of_any_bytes_pairs_nothing(network: Shared, body: bytes) -> None:
    network.hands.steady += WITHIN_S
    assert network.stranger().ask("POST", "/api/pair", body).status in (400, 422)


@given(
    st.text(
        st.characters(min_codepoint=1, max_codepoint=255, exclude_characters="\r\n"), max_size=60
    )
)
def test_no_cookie_that_is_guessed_opens_anything(network: Shared, guess: str) -> None:
    network.hands.steady += WITHIN_S
    sent = f"{network.cookie}={guess}"
    assert network.stranger().ask("GET", "/api/builds", Cookie=sent).status in (400, 401)


@given(EDITS, st.booleans())
@settings(max_examples=150)
def test_edits_of_any_kind_are_made_or_refused_and_the_file_stays_whole(
    here: Served,
    edits: list[tuple[tuple[str | int, ...], str | None]],
    stale: bool,  # noqa: FBT001  drawn
) -> None:
    page, (name, bench) = here.page(), next(iter(here.inside.state.benches.items()))
    base = page.version(name)
    if stale:
        page.edit(name, base, ["car", "carpet", "loose"], f"{len(edits)}.{len(base)}")
    message = {
        "base": base,
        "edits": [{"path": path, "value": value} for path, value in edits],
        "says": "Anything",
    }
    before = bench.path.read_bytes()
    answer = page.post(f"/api/builds/{name}/edits", message)
    assert answer.status in (200, 409, 422)
    assert (answer.status == 200) or bench.path.read_bytes() == before
    assert load(bench.path).text == bench.standing().text
    assert page.post(f"/api/builds/{name}/trial", {"edits": message["edits"]}).status in (200, 422)


def _raw(page: Page, name: str, body: bytes) -> int:
    return page.ask("POST", f"/api/builds/{name}/edits", body).status


@given(st.one_of(st.binary(max_size=200), st.text().map(str.encode)))
def test_a_body_of_any_bytes_is_refused_in_words(here: Served, body: bytes) -> None:
    name = next(iter(here.inside.state.benches))
    assert _raw(here.page(), name, body) in (400, 422)


@pytest.mark.parametrize(
    "body",
    [
        b'{"base": "\\ud800", "edits": [{"path": ["\\ud800"], "value": "\\udfff"}], "says": "\\ud800"}',
        b"[" * 100_000,
        b"9" * 10_000,
        b'{"base": NaN, "edits": Infinity, "says": -Infinity}',
        b'{"base": "", "edits": [{"path": [1e400, true, null], "value": 1}], "says": ""}',
        b"\xff\xfe{}",
    ],
)
def test_what_trips_parsers_is_refused_in_words(here: Served, body: bytes) -> None:
    name = next(iter(here.inside.state.benches))
    assert _raw(here.page(), name, body) in (400, 422)


@pytest.mark.parametrize("at", ["nan", "inf", "-inf", "1e308", "1e400", "x", "", "%00", "10001"])
def test_a_section_that_is_nowhere_is_refused(here: Served, at: str) -> None:
    name = next(iter(here.inside.state.benches))
    assert here.page().get(f"/api/builds/{name}/views?at={at}").status == 422


def test_the_description_tells_of_every_address(here: Served) -> None:
    told = here.page().get("/openapi.json").json["paths"]
    for place in ("fit", "drag", "views", "trial", "edits", "undo", "redo"):
        assert f"/api/builds/{{name}}/{place}" in told
