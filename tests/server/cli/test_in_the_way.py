"""What keeps a server from starting is said in words that name it and what to do, never by a traceback."""

import socket

import pytest

from tests.browser.serving import free_port
from tests.server.cli.commands import broodline


def test_a_port_in_use_is_said_in_words(tmp_path):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        done = broodline("serve", "--data", tmp_path / "other", "--port", port)
        house = ("--house", "--host", "127.0.0.1", "--port", free_port(), "--install-port", port)
        in_house = broodline("serve", "--data", tmp_path / "other", *house)
    assert done.code == 2
    assert f"port {port}: another program uses that port. Stop what uses that port" in done.err
    assert "choose another with --port." in done.err
    assert (in_house.code, "choose another with --install-port." in in_house.err) == (2, True)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--port", 70000), "70000 is no port. Choose one up to 65535 with --port."),
        (("--host", "192.0.2.1"), "this machine has no such address. Name an address of this machine with --host."),
        (("--host", "::zz"), "there is no such address. Name an address of this machine with --host."),
    ],
)
def test_an_address_that_cannot_be_had_is_said_in_words(tmp_path, words, told):
    done = broodline("serve", "--data", tmp_path, "--port", free_port(), *words)
    assert (done.code, told in done.err) == (2, True), done.err


@pytest.mark.parametrize(
    "spoilt", ["book.db", "push-key.pem", "server.lock", "address.txt", "push.json", "house", "house/server.pem"]
)
def test_what_lies_in_the_way_of_the_server_is_named_in_words(tmp_path, spoilt):
    """A folder where a file should be, and the other way round: the book that cannot be read among them."""
    (tmp_path / spoilt).parent.mkdir(exist_ok=True)
    (tmp_path / spoilt).write_text("") if spoilt == "house" else (tmp_path / spoilt).mkdir()
    house = ("--house", "--install-port", free_port()) if spoilt.startswith("house") else ()
    done = broodline("serve", "--data", tmp_path, "--host", "127.0.0.1", "--port", free_port(), *house)
    assert done.code == 2
    named = "The book's folder cannot be opened" if spoilt == "book.db" else str(tmp_path / spoilt)
    assert named in done.err
    assert "this user may" in done.err


def test_a_book_that_is_none_and_a_folder_that_is_a_file_are_said_in_words(tmp_path):
    (tmp_path / "book.db").write_text("a letter to the vet " * 100)
    done = broodline("serve", "--data", tmp_path, "--port", free_port())
    assert (done.code, "does not read as it should" in done.err) == (1, True)
    done = broodline("serve", "--data", tmp_path / "book.db", "--port", free_port())
    assert (done.code, "File exists. Look what lies there" in done.err) == (2, True)
