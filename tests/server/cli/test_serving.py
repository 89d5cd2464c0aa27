"""A real server in its own process: what it says, what works beside it, what it survives."""

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import threading
from datetime import UTC, datetime, timedelta

import httpx2 as httpx
import pytest

from broodline.book.wire import canonical_bytes, content_hash
from broodline.cli import serve
from broodline.cli.serve import listen
from broodline.settings import Settings
from broodline.store.log import CHAIN_START, next_link
from broodline.web import app
from tests.browser.serving import Served, free_port
from tests.server.cli.commands import apart, broodline, document, phone, write_lines


@pytest.fixture
def served(tmp_path):
    running = Served(tmp_path / "book")
    running.start()
    yield running
    running.stop()


@pytest.fixture
def keeper(served):
    with phone(served) as client:
        yield client


def everything(client):
    """Every row by pull, page by page."""
    rows, cursor, more = [], None, True
    while more:
        page = client.get("/api/v1/pull", params={"limit": 500, **({"cursor": cursor} if cursor else {})}).json()
        rows += page["entries"]
        cursor, more = page["cursor"], page["more"]
    return rows, cursor


def assert_chain(rows, cursor):
    """The chain in the cursor is that of the rows, recomputed from what was pulled."""
    chain = CHAIN_START
    for row in rows:
        chain = next_link(chain, row["entry"]["id"], content_hash(canonical_bytes(row["entry"])))
    assert cursor.split(".")[1:] == [str(rows[-1]["position"]), chain]


@pytest.mark.parametrize("word", [signal.SIGINT, signal.SIGTERM])
def test_it_answers_once_it_has_said_so_and_stops_when_told(tmp_path, word):
    port = free_port()
    process = subprocess.Popen(
        [sys.executable, "-m", "broodline", "serve", "--data", str(tmp_path / "book"), "--port", str(port)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    assert f"http://127.0.0.1:{port}" in line
    assert httpx.get(f"http://127.0.0.1:{port}/healthz").json()["ok"] is True
    process.send_signal(word)
    rest, errors = process.communicate(timeout=20)
    assert (process.returncode, rest) == (0, "")
    assert all("SQLite" in told for told in errors.splitlines()), errors  # an old SQLite is worth a word
    assert not (tmp_path / "book" / "book.db-wal").exists(), "the file was left tidy"


def test_a_second_server_on_the_same_folder_is_refused_until_the_first_dies(served):
    words = ("serve", "--data", served.folder, "--port", free_port())
    second = broodline(*words)
    assert second.code == 2
    assert "running on this folder" in second.err
    served.kill()  # no chance to tidy up: the lock must die with its process
    served.start()
    assert httpx.get(served.url + "/healthz").status_code == 200


def test_answers_wait_for_no_more_to_send(tmp_path):
    """Nagle's algorithm (RFC 896) and delayed acknowledgements together hold small answers back for 40 ms."""

    async def is_sent_at_once() -> bool:
        options = asyncio.Queue[int]()

        async def accept(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            line = writer.get_extra_info("socket")
            options.put_nowait(line.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()

        settings = Settings(data_dir=tmp_path, host="127.0.0.1", port=free_port())
        async with await asyncio.start_server(accept, sock=listen(settings)):
            _, writer = await asyncio.open_connection(settings.host, settings.port)
            writer.close()
            return bool(await options.get())

    assert asyncio.run(is_sent_at_once())


def test_pairing_works_beside_the_server(served):
    told = broodline("pair", "--role", "helper", "--data", served.folder, "--json").json
    assert set(told) == {"code", "role", "expires_at"}
    left = datetime.fromisoformat(told["expires_at"]) - datetime.now(UTC)
    assert timedelta(minutes=9) < left <= timedelta(minutes=10)
    with httpx.Client(base_url=served.url, headers={"origin": served.url}) as client:
        body = {"code": told["code"], "name": "Loft"}
        assert client.post("/api/v1/pair", json=body).json()["role"] == "helper"
        assert client.post("/api/v1/pair", json=body).status_code == 401
        assert client.get("/api/v1/me").status_code == 200
        (device,) = broodline("devices", "--data", served.folder, "--json").json["devices"]
        assert (device["name"], device["role"], device["revoked_at"]) == ("Loft", "helper", None)
        own = (device["id"], "--data", served.folder)
        assert broodline("devices", "rename", own[0], "Barn phone", *own[1:]).out == "It is called Barn phone now.\n"
        code = broodline("pair", "--data", served.folder, "--json").json["code"]
        lost = broodline("devices", "lost", *own).out
        assert lost.startswith("Barn phone is no longer paired.")
        assert "Should it turn up, pair it again" in lost
        assert client.get("/api/v1/me").status_code == 401
        assert (
            client.post("/api/v1/pair", json={"code": code, "name": "Loft"}).status_code == 401
        )  # it may have read it
        assert broodline("devices", "revoke", *own).code == 0


def test_the_code_for_people_shows_a_picture_of_the_address_and_not_of_the_code(served):
    words = broodline("pair", "--data", served.folder).out
    assert served.url in words
    assert "Pairing code: " in words
    assert "▀" in words or "█" in words or "▄" in words
    assert "ten minutes" in words


def test_an_import_beside_the_server_is_seen_at_once_and_the_chain_holds(served, keeper, tmp_path):
    """Two processes write in turns; the server reads the last link of the chain from the file each time."""
    file = write_lines(tmp_path / "in.jsonl", *[document(n) for n in range(10_000, 12_000)])
    imported = []
    beside = threading.Thread(target=lambda: imported.append(apart("import", file, "--data", served.folder, "--json")))
    beside.start()
    pushed = 0
    while beside.is_alive() or pushed < 20:
        answer = keeper.post("/api/v1/push", json={"v": 1, "entries": [document(pushed + 1)]})
        assert answer.json()["results"][0]["status"] == "stored"
        pushed += 1
    beside.join()
    assert imported[0].json["added"] == 2000
    rows, cursor = everything(keeper)
    assert len(rows) == 2000 + pushed
    assert_chain(rows, cursor)
    assert broodline("check", "--data", served.folder).code == 0


def test_killed_in_the_middle_of_pushes_everything_acknowledged_is_there(served, keeper):
    """Invariant 3, five rounds of kill -9."""
    acknowledged: dict[str, int] = {}
    number = 0
    for round_number in range(5):
        enough = threading.Event()

        def kill_soon(waited_for=enough):
            waited_for.wait(20)
            os.kill(served.process.pid, signal.SIGKILL)

        killer = threading.Thread(target=kill_soon)
        killer.start()
        try:
            for batch in range(10_000):
                entries = [document(number + n) for n in range(1, 21)]
                number += 20
                results = keeper.post("/api/v1/push", json={"v": 1, "entries": entries}).json()["results"]
                acknowledged |= {told["id"]: told["position"] for told in results}
                if batch == 2 + round_number:
                    enough.set()
        except httpx.TransportError:
            pass
        killer.join()
        served.kill()
        served.start()
    rows, cursor = everything(keeper)
    found = {row["entry"]["id"]: row["position"] for row in rows}
    assert len(acknowledged) >= 5 * 3 * 20
    assert {entry: found.get(entry) for entry in acknowledged} == acknowledged
    assert_chain(rows, cursor)
    assert broodline("check", "--data", served.folder).code == 0


def test_backup_beside_the_server_restore_only_without_it_and_the_phone_is_told(served, keeper, tmp_path):
    entries = [document(n) for n in range(1, 31)]
    keeper.post("/api/v1/push", json={"v": 1, "entries": entries})
    backup = tmp_path / "backup.db"
    assert broodline("backup", backup, "--data", served.folder, "--json").json["entries"] == 30
    assert httpx.get(served.url + "/healthz").json()["backup_age_h"] == 0
    keeper.post("/api/v1/push", json={"v": 1, "entries": [document(31)]})
    _, cursor = everything(keeper)
    refused = broodline("restore", backup, "--data", served.folder)
    assert refused.code == 2
    served.stop()
    restored = broodline("restore", backup, "--data", served.folder, "--json")
    assert restored.code == 0
    assert restored.json["entries"] == 30
    served.start()
    answer = keeper.get("/api/v1/pull", params={"cursor": cursor})
    assert (answer.status_code, answer.json()["error"]["code"]) == (409, "reset")
    healed = keeper.post("/api/v1/push", json={"v": 1, "entries": [*entries, document(31)]}).json()["results"]
    assert [told["status"] for told in healed] == ["duplicate"] * 30 + ["stored"]
    assert len(everything(keeper)[0]) == 31


def test_what_listens_everywhere_says_addresses_that_phones_can_open(tmp_path):
    served = Served(tmp_path / "book", "--host", "0.0.0.0")
    served.start()
    told = (tmp_path / "book" / "address.txt").read_text().strip()
    assert "0.0.0.0" not in told
    assert httpx.get(told + "/healthz").json()["ok"] is True
    served.stop()


def test_it_serves_although_nothing_can_be_written_about_it(tmp_path):
    """/dev/full refuses every write as a full disk does (full(4)); the journal and the words of the start go there."""
    port = free_port()
    with open("/dev/full", "w") as full:
        process = subprocess.Popen(
            [sys.executable, "-m", "broodline", "serve", "--data", str(tmp_path / "book"), "--port", str(port)],
            stdout=full,
            stderr=full,
        )
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", transport=httpx.HTTPTransport(retries=8)) as client:
        assert client.get("/healthz").json()["ok"] is True
        assert client.get("/api/v1/pull").status_code == 401, "refused, and so a line of the journal"
        assert client.get("/healthz").json()["ok"] is True
    process.send_signal(signal.SIGTERM)
    process.wait(20)


@pytest.fixture
def own_signals():
    kept = signal.getsignal(signal.SIGTERM)
    yield
    signal.signal(signal.SIGTERM, kept)


def test_where_a_job_ends_by_a_fault_the_process_ends_and_says_that_it_was_one(
    tmp_path, monkeypatch, own_signals, capsys
):
    """So that what keeps it running starts it again: a server without its backups looks whole from outside."""

    async def fall(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(serve, "back_up_daily", fall)
    assert serve.serve(Settings(tmp_path / "book", port=free_port())) == 1
    assert "The server ends, to be started anew: ZeroDivisionError" in capsys.readouterr().err


def test_where_the_apps_own_work_ends_by_a_fault_the_process_ends_too(tmp_path, monkeypatch, own_signals, capsys):
    async def fall(*_):
        raise ZeroDivisionError

    monkeypatch.setattr(app, "remind_by_itself", fall)
    assert serve.serve(Settings(tmp_path / "book", port=free_port())) == 1
    assert "The server ends, to be started anew: ZeroDivisionError" in capsys.readouterr().err


def test_hostile_bytes_on_the_line_do_not_stop_it(served, keeper):
    for body in (b"\x00" * 1000, b"[" * 100_000, b'{"v":1,"entries":' + b'[{"body":' * 1000, os.urandom(5000)):
        answer = keeper.post("/api/v1/push", content=body, headers={"content-type": "application/json"})
        assert answer.status_code == 400
        assert answer.json()["error"]["code"] == "envelope"
    too_large = keeper.post("/api/v1/push", content=b" " * 3_000_000, headers={"content-type": "application/json"})
    assert too_large.status_code == 413
    assert json.loads(keeper.get("/healthz").text)["entries"] == 0


def test_a_phone_that_goes_away_while_it_speaks_stores_nothing_and_leaves_no_fault_in_the_log(served, keeper):
    cookie = "; ".join(f"{name}={value}" for name, value in keeper.cookies.items())
    body = json.dumps({"v": 1, "entries": [document(1)]}).encode()
    head = (
        f"POST /api/v1/push HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\nOrigin: {served.url}\r\nCookie: {cookie}\r\n"
        f"Content-Type: application/json\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    for said in (body[:1], body[:-1]):
        with socket.create_connection(("127.0.0.1", served.port)) as line:
            line.sendall(head.encode() + said)
    assert keeper.post("/api/v1/push", json={"v": 1, "entries": [document(2)]}).status_code == 200
    assert [row["entry"]["id"] for row in everything(keeper)[0]] == [document(2)["id"]]
    served.process.send_signal(signal.SIGTERM)
    log = served.process.stdout.read()
    journal = [json.loads(line) for line in log.splitlines() if line.startswith("{")]
    assert [line["status"] for line in journal if line["route"] == "/api/v1/push"].count(200) == 1
    assert all(line["status"] < 500 for line in journal), log
    assert all("SQLite" in line for line in log.splitlines() if not line.startswith("{")), log
