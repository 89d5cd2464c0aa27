"""Https at home over the real chain: a phone that trusts the authority keeps the app, one that does not is told why.

The authority is imported into the browser's own store of trust (NSS) with certutil, of Debian's libnss3-tools; the
name leads to this machine without a network.
"""

import os
import shutil
import subprocess
import urllib.request

import pytest
from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import follow, pair, wait_until_it_works_offline
from tests.browser.serving import ServedHouse

NAME = "broodline.home.arpa"
TO_HERE = f"--host-resolver-rules=MAP {NAME} 127.0.0.1"


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    served = ServedHouse(tmp_path_factory.mktemp("house") / "book", NAME)
    served.url = f"https://{NAME}:{served.port}"
    served.start()
    yield served
    served.kill()


def trust(certificate, home):
    """What a keeper does on the phone, by the steps of the page: the certificate becomes an authority for websites."""
    assert shutil.which("certutil"), "certutil is not here: `make browser` brings it (Debian: libnss3-tools)"
    store = home / ".pki" / "nssdb"
    store.mkdir(parents=True)
    for words in (["-N", "--empty-password"], ["-A", "-t", "C,,", "-n", "broodline", "-i", str(certificate)]):
        subprocess.run(["certutil", "-d", f"sql:{store}", *words], check=True, capture_output=True)
    return {**os.environ, "HOME": str(home)}


def test_a_phone_that_trusts_the_authority_keeps_the_app_and_opens_it_without_a_server(house, new_phone, tmp_path):
    taken = tmp_path / "broodline-authority.crt"
    with urllib.request.urlopen(f"{house.install}/broodline-authority.crt", timeout=10) as answer:
        taken.write_bytes(answer.read())
    phone = new_phone()
    page = phone.open(house.url, args=[TO_HERE], env=trust(taken, tmp_path / "home"))
    assert page.evaluate("isSecureContext") is True
    pair(page, house.url, house.code(), "Shed phone")
    [cookie] = phone.context.cookies(house.url)
    assert (cookie["name"], cookie["secure"], cookie["httpOnly"]) == ("__Host-broodline", True, True)
    wait_until_it_works_offline(page)
    page.goto(f"{house.url}/phone")
    follow(page, "Is this phone ready?")
    for told in ("The address is safe.", "It opens without signal.", "It answers, and knows this phone."):
        expect(page.get_by_text(told)).to_be_visible()
    expect(page.get_by_text("It agrees with the server's.")).to_be_visible()
    expect(page.get_by_text(f"This phone keeps its book under {house.url}.")).to_be_visible()
    assert_sound(page)

    house.stop()
    page.goto(f"{house.url}/phone/ready")
    expect(page.get_by_text("It does not answer.")).to_be_visible()
    expect(page.get_by_text("It opens without signal.")).to_be_visible()
    house.start()


def test_without_that_trust_no_worker_comes_and_the_page_says_why_and_what_to_do(house, new_phone):
    """The warning was clicked away, which browsers do not count as trust (w3c/ServiceWorker issue 1159)."""
    page = new_phone().open(f"{house.url}/phone/ready", args=[TO_HERE], ignore_https_errors=True)
    expect(page.get_by_text("This phone does not trust the server's certificate.")).to_be_visible(timeout=20_000)
    expect(page.get_by_text("to put right on this phone")).to_be_visible()
    expect(page.get_by_text("Open the server's own page on plain http")).to_be_visible()
    assert page.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0


def test_the_page_of_steps_can_be_read_and_tapped_also_in_the_dark(house, new_phone):
    page = new_phone().open(house.install)
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.emulate_media(color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(25, 22, 19)"
    small = page.evaluate(
        "[...document.querySelectorAll('a')].filter(one => one.getBoundingClientRect().height < 56).length"
    )
    assert small == 0
    for width in (390, 320):
        page.set_viewport_size({"width": width, "height": 700})
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
