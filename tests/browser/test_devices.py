"""Who may come into the book, on the keeper's phone: let in, named, and out again, also when a phone is lost."""

import re

from playwright.sync_api import expect

from tests.browser.audit import assert_sound
from tests.browser.hands import button, follow, on_server, pair, pick, tap


def test_a_helper_is_let_in_named_and_lost_and_comes_back(running, new_phone):
    phones = [new_phone(), new_phone()]
    keeper = phones[0].open(running.url)
    pair(keeper, running.url, running.code(), "Kitchen phone")
    follow(keeper, "Who is paired")
    expect(keeper.get_by_role("heading", name="1 device may come into this book")).to_be_visible()
    pick(keeper, "Reader")
    expect(keeper.get_by_text("only reads")).to_be_visible()
    pick(keeper, "Helper")
    tap(keeper, "Make a code")
    code = keeper.get_by_text(re.compile(r"^[0-9A-Z]{4}-[0-9A-Z]{4}$")).inner_text()

    helper = phones[1].open(running.url)
    pair(helper, running.url, code, "Barn phone")
    expect(helper.get_by_text("Paired as helper with")).to_be_visible()
    expect(helper.get_by_role("link", name="Who is paired")).to_have_count(0)
    helper.goto(f"{running.url}/phone/devices")
    expect(helper.get_by_text("The keeper's phone shows who is paired")).to_be_visible()

    keeper.reload()
    tap(keeper, "Change Barn phone")
    keeper.get_by_label("Its name").fill("Loft phone")
    tap(keeper, "Save the name")
    expect(keeper.get_by_role("heading", name="Loft phone")).to_be_visible()
    tap(keeper, "Change Loft phone")
    tap(keeper, "It is lost")
    expect(keeper.get_by_text("lock or wipe it with the means of its maker")).to_be_visible()
    assert_sound(keeper)
    tap(keeper, "End the pairing of Loft phone")
    expect(keeper.get_by_role("heading", name="1 device may come into this book")).to_be_visible()
    expect(keeper.get_by_text("ended")).to_be_visible()

    helper.goto(f"{running.url}/phone")
    tap(helper, "Ask the server now")
    expect(helper.get_by_role("banner").get_by_text("The server no longer knows this phone.")).to_be_visible()
    helper.goto(f"{running.url}/phone/ready")
    expect(helper.get_by_text("It answers, and no longer knows this phone.")).to_be_visible()
    pair(helper, running.url, running.code("helper"), "Loft phone again")
    on_server(helper)


def test_a_helper_unpairs_the_own_phone(running, new_phone):
    page = new_phone().open(running.url)
    pair(page, running.url, running.code("helper"), "Barn phone")
    tap(page, "Unpair this phone")
    expect(page.get_by_text("The server no longer knows this phone. The book stays on it.")).to_be_visible()
    assert not button(page, "Unpair this phone").count()
