"""Addresses as they are typed: in the form in which browsers and connections tell them, or refused in words."""

import pytest

from broodline.cli import addresses
from broodline.cli.addresses import read_origin, read_proxies, served_at
from broodline.errors import WrongUse


@pytest.mark.parametrize(
    ("typed", "origin"),
    [
        # the right-hand sides: what `new URL(typed).origin` says (WHATWG URL standard; asked of Node 24)
        ("https://book.example", "https://book.example"),
        ("https://Book.Example/", "https://book.example"),
        ("http://192.168.1.5:8420", "http://192.168.1.5:8420"),
        ("https://book.example:443", "https://book.example"),
        ("http://book.example:80/", "http://book.example"),
        ("https://book.example:80", "https://book.example:80"),
        ("https://h\u00fchner.example", "https://xn--hhner-kva.example"),
        ("https://H\u00dcHNER.example:8443", "https://xn--hhner-kva.example:8443"),
        ("https://[2001:DB8:0::1]:8443", "https://[2001:db8::1]:8443"),
    ],
)
def test_a_public_origin_is_read_as_browsers_write_it(typed, origin):
    assert read_origin(typed) == origin


@pytest.mark.parametrize(
    "typed",
    [
        "book.example",
        "ftp://book.example",
        "https://book.example/path",
        "https://u@book.example",
        "http://[",
        "https://",
        "https://book.example:99999",
        "https://book.example:x",
        "https://\u00fc..example",
    ],
)
def test_what_is_no_origin_is_wrong_use(typed):
    with pytest.raises(WrongUse):
        read_origin(typed)


def test_a_proxy_is_known_by_the_one_form_of_its_address():
    assert read_proxies(["::0001", "2001:DB8::1", "127.0.0.1"]) == {"::1", "2001:db8::1", "127.0.0.1"}
    with pytest.raises(WrongUse):
        read_proxies(["proxy"])


@pytest.mark.parametrize(
    ("host", "told"),
    [
        ("127.0.0.1", ["http://127.0.0.1:8420"]),
        ("book.home.arpa", ["http://book.home.arpa:8420"]),
        ("0.0.0.0", ["http://192.168.1.5:8420", "http://127.0.0.1:8420"]),
        ("::", ["http://[fd00::5]:8420"]),
    ],
)
def test_a_server_that_listens_everywhere_is_told_by_addresses_a_phone_can_open(monkeypatch, host, told):
    monkeypatch.setattr(addresses, "own_addresses", lambda: ["192.168.1.5", "fd00::5", "127.0.0.1"])
    assert served_at(host, 8420) == told
