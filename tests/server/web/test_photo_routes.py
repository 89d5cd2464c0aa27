"""Pictures over HTTP: kept once under their hash, told by their bytes, and refused in words."""

import hashlib
import secrets

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from broodline.sync.photos import MOST_PICTURE_BYTES
from tests.server.conftest import HandClock
from tests.server.web.conftest import serving
from tests.server.web.test_refusals import assert_guarded, assert_refused

JPEG = b"\xff\xd8\xff\xe0\x00\x10JFIF" + b"\x00" * 40
PNG = b"\x89PNG\r\n\x1a\n" + b"\x00" * 40
WEBP = b"RIFF\x30\x00\x00\x00WEBPVP8 " + b"\x00" * 40


def at(picture: bytes) -> str:
    return f"/api/v1/photos/{hashlib.sha256(picture).hexdigest()}"


@pytest.mark.parametrize(
    ("picture", "kind"), [(JPEG, "image/jpeg"), (PNG, "image/png"), (WEBP, "image/webp")], ids=["jpeg", "png", "webp"]
)
def test_a_picture_comes_back_by_its_hash_as_what_its_bytes_are(server, picture, kind):
    sender = server.paired("helper")
    answer = sender.put(at(picture), content=picture, headers={"content-type": "text/html"})
    assert (answer.status_code, answer.json()["status"]) == (200, "stored")
    shown = server.paired("reader").get(at(picture))
    assert (shown.status_code, shown.content, shown.headers["content-type"]) == (200, picture, kind)
    assert_guarded(shown)


def test_a_picture_sent_twice_is_kept_once(server):
    keeper = server.paired()
    told = [keeper.put(at(JPEG), content=JPEG).json()["status"] for _ in range(3)]
    assert told == ["stored", "duplicate", "duplicate"]
    assert server.desk.reader.shelf.connection.execute("SELECT count(*) FROM photos").fetchone() == (1,)


def test_a_picture_of_two_mebibytes_is_taken_and_one_byte_more_is_not(server):
    keeper = server.paired()
    full = JPEG.ljust(MOST_PICTURE_BYTES, b"\x00")
    assert keeper.put(at(full), content=full).status_code == 200
    assert_refused(keeper.put(at(full + b"\x00"), content=full + b"\x00"), 413, "too_large")
    assert_refused(keeper.get(at(full + b"\x00")), 404, "not_found")


@pytest.mark.parametrize(
    ("address", "content", "field"),
    [
        (at(JPEG), PNG, "sha256"),
        (at(JPEG).upper().replace("/API/V1/PHOTOS", "/api/v1/photos"), JPEG, "sha256"),
        ("/api/v1/photos/abc", JPEG, "sha256"),
        (at(b"<svg onload=alert(1)>"), b"<svg onload=alert(1)>", "content"),
        (at(b"GIF89a"), b"GIF89a", "content"),
        (at(b""), b"", "content"),
    ],
)
def test_what_is_no_picture_or_not_the_one_named_is_refused(server, address, content, field):
    answer = server.paired().put(address, content=content)
    assert_refused(answer, 400, "envelope")
    assert answer.json()["error"]["field"] == field
    assert server.desk.reader.shelf.connection.execute("SELECT count(*) FROM photos").fetchone() == (0,)


@pytest.fixture(scope="module")
def keeper(tmp_path_factory):
    with serving(tmp_path_factory.mktemp("photos"), HandClock(), secrets.token_bytes) as server:
        yield server.paired()


starts = st.sampled_from([b"", JPEG[:3], PNG[:8], WEBP[:12], b"RIFF", b"\xff\xd8"])


@settings(max_examples=150, deadline=None)
@given(start=starts, rest=st.binary(max_size=200), named=st.none() | st.text("0123456789abcdefg-", max_size=70))
def test_any_bytes_under_any_name(keeper, start, rest, named):
    """Taken exactly where the name is the hash and the first bytes are one of the three kinds."""
    content = start + rest
    address = at(content) if named is None else f"/api/v1/photos/{named}"
    answer = keeper.put(address, content=content)
    assert_guarded(answer)
    is_picture = content.startswith((JPEG[:3], PNG[:8])) or (content[:4], content[8:12]) == (b"RIFF", b"WEBP")
    if is_picture and address == at(content):
        assert answer.status_code == 200
        assert keeper.get(address).content == content
    else:
        assert answer.status_code in (400, 404), answer.text
        assert answer.json()["error"]["remedy"]
