"""The built app as files: what is kept for ever, what is asked for anew, and what is never handed out."""

import gzip

import pytest

from broodline.web.pwa_files import file_for
from tests.server.web.conftest import BUILT_FILES
from tests.server.web.test_refusals import assert_guarded, assert_refused


@pytest.mark.parametrize(
    ("path", "kind", "kept"),
    [
        ("/", "text/html; charset=utf-8", "no-cache"),
        ("/index.html", "text/html; charset=utf-8", "no-cache"),
        ("/sw.js", "text/javascript; charset=utf-8", "no-cache"),
        ("/manifest.webmanifest", "application/manifest+json", "no-cache"),
        ("/icons/icon-192.png", "image/png", "no-cache"),
        ("/assets/main-3f2a.js", "text/javascript; charset=utf-8", "public, max-age=31536000, immutable"),
        ("/assets/main-3f2a.css", "text/css; charset=utf-8", "public, max-age=31536000, immutable"),
    ],
)
def test_files_go_out_with_their_kind_and_how_long_they_keep(server, path, kind, kept):
    answer = server.browser().get(path)
    assert answer.status_code == 200
    assert answer.text == BUILT_FILES[path.strip("/") or "index.html"]
    assert answer.headers["content-type"] == kind
    assert answer.headers["cache-control"] == kept
    assert_guarded(answer)


@pytest.mark.parametrize("path", ["/due", "/rooms/setting/0195-7", "/season/2026", "/api-of-the-app"])
def test_a_place_inside_the_app_gets_the_first_page(server, path):
    answer = server.browser().get(path)
    assert (answer.status_code, answer.text) == (200, BUILT_FILES["index.html"])
    assert answer.headers["cache-control"] == "no-cache"


@pytest.mark.parametrize(
    "path",
    [
        "/assets/main-0000.js",
        "/assets/gone",
        "/missing.js",
        "/favicon.ico",
        "/.stamp",
        "/notes.map",
        "/.git/config",
        "/api/v1/index.html",
    ],
)
def test_a_file_that_is_not_ours_to_give_is_a_404_and_never_the_first_page(server, path):
    """A page in place of a script would break an app that is half updated."""
    assert_refused(server.browser().get(path), 404, "not_found")


@pytest.mark.parametrize(
    "path",
    ["/../secret.txt", "/assets/../../secret.txt", "//secret.txt", "/..\\secret.txt", "/c:/secret.txt", "/a\0b.js"],
)
def test_no_path_leads_out_of_the_app(built_app, path):
    (built_app.parent / "secret.txt").write_text("secret")
    found = file_for(path, built_app)
    assert found is None or found.is_relative_to(built_app)
    assert found is None or found.name != "secret.txt"


def test_an_unchanged_file_is_not_sent_again(server):
    browser = server.browser()
    mark = browser.get("/sw.js").headers["etag"]
    again = browser.get("/sw.js", headers={"if-none-match": mark})
    assert (again.status_code, again.content) == (304, b"")
    assert_guarded(again)
    assert browser.get("/sw.js", headers={"if-none-match": '"other"'}).status_code == 200


def test_without_a_built_app_the_server_says_so_and_the_rest_works(server, built_app):
    (built_app / "index.html").unlink()
    assert_refused(server.browser().get("/"), 404, "not_found")
    assert server.browser().get("/healthz").status_code == 200


def test_asking_for_the_head_only_gives_no_body(server):
    answer = server.browser().head("/")
    assert (answer.status_code, answer.content) == (200, b"")


def test_a_packed_copy_goes_to_whoever_can_unpack_it(server, built_app):
    text = BUILT_FILES["assets/main-3f2a.js"]
    (built_app / "assets" / "main-3f2a.js.gz").write_bytes(gzip.compress(text.encode()))
    packed = server.browser().get("/assets/main-3f2a.js", headers={"accept-encoding": "gzip"})
    plain = server.browser().get("/assets/main-3f2a.js", headers={"accept-encoding": "identity"})
    assert (packed.headers["content-encoding"], packed.text) == ("gzip", text)
    assert ("content-encoding" in plain.headers, plain.text) == (False, text)
    assert packed.headers["vary"] == plain.headers["vary"] == "accept-encoding"
    assert packed.headers["content-type"] == plain.headers["content-type"] == "text/javascript; charset=utf-8"
    assert packed.headers["etag"] != plain.headers["etag"]
    assert_refused(server.browser().get("/assets/main-3f2a.js.gz"), 404, "not_found")


def test_a_name_too_long_for_any_disk_is_not_there(server):
    for name in ("a" * 300 + ".css", "é" * 200 + ".js", "assets/" + "b" * 256 + ".js"):
        assert_refused(server.browser().get(f"/{name}"), 404, "not_found")
    assert server.browser().get("/" + "a" * 300).status_code == 404
