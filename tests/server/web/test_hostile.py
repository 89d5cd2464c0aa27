"""Whatever is sent, the answer is one of those in the contract, in its one shape, and never a crash."""

import json
import secrets
from urllib.parse import quote

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.server.conftest import HandClock
from tests.server.store.log_suite import note
from tests.server.web.conftest import serving
from tests.server.web.test_refusals import assert_guarded

EXPECTED = {200, 400, 401, 404, 405, 409, 413, 426, 429}
POSTS = ["/api/v1/push", "/api/v1/pair", "/api/v1/invitations"]

odd = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=10,
)
CLOCK = HandClock()
fields = ["id", "v", "kind", "device", "at", "zone", "skew_ms", "amends", "void", "body", "entries", "code", "role"]
bodies = st.one_of(
    st.binary(max_size=300),
    odd.map(lambda value: json.dumps(value).encode()),
    st.dictionaries(st.sampled_from([*fields, "name", "holding"]), odd, max_size=6).map(
        lambda value: json.dumps(value).encode()
    ),
    st.builds(
        lambda field, value: json.dumps(
            {"v": 1, "entries": [{**json.loads(note(1).canonical), field: value}]}
        ).encode(),
        st.sampled_from(fields),
        odd,
    ),
)
letters = st.text(st.characters(codec="utf-8", exclude_characters="#?"), max_size=30)


@pytest.fixture(scope="module")
def keeper(tmp_path_factory):
    with serving(tmp_path_factory.mktemp("book"), CLOCK, secrets.token_bytes) as server:
        yield server.paired()


def assert_answered(answer):
    assert answer.status_code in EXPECTED, (answer.status_code, answer.text)
    assert_guarded(answer)
    if answer.headers["content-type"] == "application/json":
        told = answer.json()
        assert isinstance(told, dict)
        assert ("error" in told) is (answer.status_code >= 400)


@settings(max_examples=150)
@given(path=st.sampled_from(POSTS), body=bodies)
def test_any_body(keeper, path, body):
    CLOCK.go_on(minutes=1)  # so that wrong codes do not run into the limit of tries
    assert_answered(keeper.post(path, content=body, headers={"content-type": "application/json"}))


@settings(max_examples=100)
@given(
    start=st.sampled_from(["/", "/api/", "/api/v1/", "/api/v1/reports/", "/api/v1/reports/setting/", "/assets/"]),
    rest=letters,
)
def test_any_address(keeper, start, rest):
    for method in ("GET", "DELETE"):
        assert_answered(keeper.request(method, start + quote(rest)))


@settings(max_examples=100)
@given(cursor=letters, limit=letters)
def test_any_cursor(keeper, cursor, limit):
    assert_answered(keeper.get("/api/v1/pull", params={"cursor": cursor}))
    assert_answered(keeper.get("/api/v1/pull", params={"limit": limit}))
