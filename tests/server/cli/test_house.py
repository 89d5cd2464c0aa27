"""`serve --house`: https with a chain that a strict client checks, the page on plain http, and renewal by itself."""

import asyncio
import hashlib
import re
import socket
import ssl
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import httpx2 as httpx
import pytest
import uvicorn
from cryptography import x509

from broodline.cli import house as house_module
from broodline.cli.addresses import read_proxies
from broodline.cli.house import house_origin, open_house, renew_by_itself
from broodline.errors import WrongUse
from broodline.settings import Settings
from tests.browser.serving import ServedHouse, free_port
from tests.server.cli.commands import broodline

NAME = "barn.home.arpa"


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    house = ServedHouse(tmp_path_factory.mktemp("house") / "book", NAME)
    house.start()
    yield house
    house.stop()


def trusting(served):
    return ssl.create_default_context(cafile=served.authority)


def test_a_client_that_trusts_the_authority_pairs_over_https_and_no_other_can(served):
    with httpx.Client(base_url=served.url, verify=trusting(served), headers={"origin": served.url}) as phone:
        assert phone.get("/healthz").json()["ok"] is True
        answer = phone.post("/api/v1/pair", json={"code": served.code(), "name": "Shed phone"})
        assert answer.status_code == 200
        cookie = answer.headers["set-cookie"]
        assert cookie.startswith("__Host-broodline=")
        assert {"Secure", "HttpOnly", "Path=/", "SameSite=lax"} <= {part.strip() for part in cookie.split(";")}
        assert phone.get("/api/v1/pull").status_code == 200
        assert "strict-transport-security" not in answer.headers  # the page that mends a lost trust is on plain http
    with pytest.raises(httpx.ConnectError, match="certificate"):
        httpx.get(f"{served.url}/healthz")


def test_the_name_is_in_the_certificate_and_is_served(served):
    with (
        socket.create_connection(("127.0.0.1", served.port), timeout=5) as line,
        trusting(served).wrap_socket(line, server_hostname=NAME) as safe,
    ):
        assert safe.version() in ("TLSv1.2", "TLSv1.3")
        safe.sendall(f"GET /healthz HTTP/1.1\r\nHost: {NAME}:{served.port}\r\nConnection: close\r\n\r\n".encode())
        assert safe.recv(100).startswith(b"HTTP/1.1 200")


def test_the_page_tells_each_kind_of_phone_how_and_shows_the_fingerprint(served):
    page = httpx.get(f"{served.install}/")
    certificate = httpx.get(f"{served.install}/broodline-authority.crt")
    assert certificate.headers["content-type"] == "application/x-x509-ca-cert"
    printed = ":".join(re.findall("..", hashlib.sha256(certificate.content).hexdigest().upper()))
    for told in ("iPhone", "Certificate Trust Settings", "Android", "CA certificate", "Windows", "Mac", "Firefox"):
        assert told in page.text
    assert printed in page.text
    assert f"https://{NAME}:{served.port}/" in page.text
    assert "never\nchange it" in page.text
    assert "set-cookie" not in page.headers
    for answer in (page, certificate, httpx.get(f"{served.install}/page.css"), httpx.get(f"{served.install}/nothing")):
        assert answer.headers["content-security-policy"].startswith("default-src 'none'")
        assert "script-src" not in answer.headers["content-security-policy"]
        assert answer.headers["x-content-type-options"] == "nosniff"
    assert "<script" not in page.text
    assert httpx.get(f"{served.install}/api/v1/pull").status_code == 404
    assert httpx.post(f"{served.install}/").status_code == 405


def test_the_picture_that_pairs_leads_to_the_page_first(served):
    told = broodline("pair", "--data", served.folder).out
    assert f"Open {served.install}/ on the phone and follow its steps." in told


def test_another_name_later_is_refused_with_what_it_would_cost(served):
    done = broodline(
        "serve", "--data", served.folder, "--house", "--house-name", "loft.local", "--install-port", free_port()
    )
    assert done.code == 2
    assert NAME in done.err
    assert "copy" in done.err


@pytest.mark.parametrize(
    "words",
    [("--house", "--public-origin", "https://x.example"), ("--house", "--house-name", "bank.example"),
     ("--house", "--proxy", "127.0.0.1"), ("--proxy", "nowhere")],
)  # fmt: skip
def test_words_that_do_not_go_together_are_refused(tmp_path, words):
    done = broodline("serve", "--data", tmp_path / "x", "--install-port", free_port(), "--port", free_port(), *words)
    assert (done.code, "Traceback" in done.err) == (2, False)
    assert not (tmp_path / "x" / "book.db").exists()


def leaf_shown(served, port):
    """The serial number of the certificate a phone is shown by a new connection that it trusts."""
    with (
        socket.create_connection(("127.0.0.1", port), timeout=5) as line,
        ssl.create_default_context(cafile=served).wrap_socket(line, server_hostname=NAME) as safe,
    ):
        return x509.load_der_x509_certificate(safe.getpeercert(binary_form=True) or b"").serial_number


def test_a_certificate_is_renewed_while_the_server_runs_and_shown_to_the_next_phone(tmp_path, monkeypatch):
    """Over real handshakes with the server that serves the book: the old leaf, then the new one, and no restart."""
    monkeypatch.setattr(house_module, "FIRST_AFTER_S", 0.02)
    monkeypatch.setattr(house_module, "LOOK_EVERY_S", 0.02)
    now = datetime.now(UTC).replace(microsecond=0)
    start = now - timedelta(days=340)
    told: list[str] = []
    with socket.create_server(("127.0.0.1", 0)) as install, socket.create_server(("127.0.0.1", 0)) as listener:
        port = listener.getsockname()[1]
        house = open_house(Settings(tmp_path, port=port, house=True), NAME, install, start)
        certificate, key, _ = house.certify(start)

        async def app(scope, receive, send):
            await send({"type": "http.response.start", "status": 200, "headers": []})
            await send({"type": "http.response.body", "body": b""})

        config = uvicorn.Config(app, lifespan="off", ssl_certfile=str(certificate), ssl_keyfile=str(key))
        server = uvicorn.Server(config)
        clock = [start + timedelta(days=100)]

        async def look():
            return await asyncio.to_thread(leaf_shown, tmp_path / "house" / "authority.pem", port)

        async def a_while():
            running = asyncio.create_task(server.serve([listener]))
            while not server.started:
                await asyncio.sleep(0.01)
            job = asyncio.create_task(renew_by_itself(house, lambda: server.config.ssl, lambda: clock[0], told.append))
            first = await look()
            await asyncio.sleep(0.1)
            assert await look() == first
            clock[0] = now
            while (renewed := await look()) == first:
                await asyncio.sleep(0.02)
            job.cancel()
            server.should_exit = True
            await running
            return renewed

        renewed = asyncio.run(asyncio.wait_for(a_while(), 20))
    held = x509.load_pem_x509_certificate(certificate.read_bytes())
    assert (held.serial_number, told) == (renewed, [])
    assert held.not_valid_after_utc == now + timedelta(days=396)


def test_the_first_look_comes_soon_after_the_start(tmp_path, monkeypatch):
    """A small machine starts with the time of its last stop; the network's comes within a minute."""
    assert house_module.FIRST_AFTER_S <= 60
    monkeypatch.setattr(house_module, "FIRST_AFTER_S", 0.01)
    looked = asyncio.Event()

    def clock():
        looked.set()
        return datetime.now(UTC)

    async def starts(house):
        job = asyncio.create_task(renew_by_itself(house, lambda: None, clock, lambda _: None))
        await asyncio.wait_for(looked.wait(), 5)
        job.cancel()

    with socket.create_server(("127.0.0.1", 0)) as install:
        asyncio.run(starts(open_house(Settings(tmp_path, house=True), NAME, install, datetime.now(UTC))))


def test_what_stands_in_the_way_of_a_renewal_is_told(tmp_path, monkeypatch):
    monkeypatch.setattr(house_module, "FIRST_AFTER_S", 0.01)
    monkeypatch.setattr(house_module, "LOOK_EVERY_S", 0.01)
    told: list[str] = []
    now = datetime.now(UTC)
    with socket.create_server(("127.0.0.1", 0)) as install:
        house = open_house(Settings(tmp_path, house=True), NAME, install, now)
    (tmp_path / "book.db").write_text("no folder")
    broken = replace(house, data_dir=tmp_path / "book.db")
    faults = [KeyError("Rowan")]

    def clock():
        if faults:
            raise faults.pop()
        return now

    async def fails():
        job = asyncio.create_task(renew_by_itself(broken, lambda: None, clock, told.append))
        while len(told) < 2:
            await asyncio.sleep(0.01)
        job.cancel()

    asyncio.run(asyncio.wait_for(fails(), 10))
    assert "could not be renewed: KeyError in test_house.py" in told[0], "a fault of our own, by its place"
    assert "could not be renewed" in told[1]


def test_addresses_as_they_are_written():
    assert house_origin(NAME, 443) == "https://barn.home.arpa"
    assert house_origin(NAME, 8420) == "https://barn.home.arpa:8420"
    assert read_proxies(["127.0.0.1", "::1"]) == {"127.0.0.1", "::1"}
    with pytest.raises(WrongUse):
        read_proxies(["proxy.example"])
