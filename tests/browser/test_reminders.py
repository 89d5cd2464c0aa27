"""Reminders on a phone: asked for on its page, shown when they come, and a click opens the screen.

Without the internet no browser subscribes (it never answers), so the subscription alone is a stand-in; the message is
handed to the worker by the debugging protocol, as the push service would.
"""

import json

from playwright.sync_api import expect

from broodline.store.shelf import open_shelf
from tests.book_writer import BookWriter
from tests.browser.audit import SOUND, audit_large
from tests.browser.hands import pair, tap, wait_until_it_works_offline
from tests.browser.serving import wait_until
from tests.server.jobs.push_service import PushService

STAND_IN = """subscription => {
  const keep = (held) => localStorage.setItem("stand-in", held);
  const made = { toJSON: () => subscription, options: {}, unsubscribe: async () => { keep(""); return true; } };
  PushManager.prototype.subscribe = async () => (keep("held"), made);
  PushManager.prototype.getSubscription = async () => (localStorage.getItem("stand-in") ? made : null);
}"""

CLICK = """async (opened) => {
  const [notification] = await self.registration.getNotifications();
  self.clients.openWindow = async (path) => opened.push(path);
  self.dispatchEvent(new NotificationEvent("notificationclick", { notification }));
  while ((await self.registration.getNotifications()).length > 0 || opened.length === 0)
    await new Promise((later) => setTimeout(later, 20));
  return opened;
}"""

SHOWN = "navigator.serviceWorker.ready.then(it => it.getNotifications()).then(all => all.map(it => it.title).sort())"
LOCKDOWN = "Lockdown: Sunday 29 March"
BOTH = [LOCKDOWN, "Something is due"]


def test_a_phone_asks_to_be_reminded_and_a_click_on_a_reminder_opens_its_screen(running, new_phone, tmp_path):
    book = BookWriter()
    book.keeper()
    book.set_eggs(book.incubator(), [(book.lot(), book.family("Rowan"), 12)])
    lines = tmp_path / "book.jsonl"
    lines.write_text("".join(json.dumps(one) + "\n" for one in book.documents))
    running.run("import", str(lines))
    phone = new_phone()
    page = phone.open(running.url)
    phone.context.grant_permissions(["notifications"], origin=running.url)
    phone.context.add_init_script(f"({STAND_IN})({json.dumps(PushService().subscription())})")
    pair(page, running.url, running.code(), "Shed phone")
    wait_until_it_works_offline(page)
    page.reload()
    tap(page, "Remind this phone")
    expect(page.get_by_text("Reminders are on. Nothing was sent yet")).to_be_visible()
    page.get_by_role("switch", name="Candling").tap()
    page.get_by_label("On the day, at").fill("06:15")
    expect(page.get_by_role("switch", name="Candling")).to_have_attribute("aria-checked", "false")
    page.get_by_role("switch", name="Quiet hours").tap()
    expect(page.get_by_label("Quiet from")).to_have_value("21:00")
    assert audit_large(page) == {"axe": [], **SOUND}

    def reminded():
        with open_shelf(running.folder, now_ms=lambda: 0, random_bytes=bytes) as shelf:
            return shelf.reminders.to_remind()

    def wished():
        [held] = reminded()
        return json.loads(held.wishes)

    wait_until(lambda: wished()["at"] == "06:15")
    assert "candle" not in wished()["what"]
    assert "lockdown" in wished()["what"]

    protocol, found = phone.context.new_cdp_session(page), []
    protocol.on("ServiceWorker.workerRegistrationUpdated", lambda event: found.extend(event["registrations"]))
    protocol.send("ServiceWorker.enable")
    wait_until(lambda: page.wait_for_timeout(20) or found)
    told = {"title": LOCKDOWN, "body": "Lock down Loft box.", "navigate": f"{running.url}/rooms", "tag": "t"}
    messages = [json.dumps({"web_push": 8030, "notification": told}), "no JSON"]

    def deliver(message):
        """Said again until it is shown: a worker that is just starting may miss it. One tag is shown once."""
        protocol.send(
            "ServiceWorker.deliverPushMessage",
            {"origin": running.url, "registrationId": found[-1]["registrationId"], "data": message},
        )
        page.wait_for_timeout(500)
        return page.evaluate(SHOWN)

    for message, titles in zip(messages, ([LOCKDOWN], BOTH), strict=True):
        wait_until(lambda message=message, titles=titles: deliver(message) == titles)

    page.goto(f"{running.url}/due")  # where nothing stands typed: the page goes there by itself
    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.evaluate("window.same = true")
    [worker] = phone.context.service_workers
    worker.evaluate(
        """async () => {
          const [notification] = await self.registration.getNotifications({ tag: "t" });
          self.dispatchEvent(new NotificationEvent("notificationclick", { notification }));
        }"""
    )
    expect(page).to_have_url(f"{running.url}/rooms")
    assert page.evaluate("window.same"), "it was not loaded anew"
    assert page.evaluate(SHOWN) == ["Something is due"]

    page.goto("about:blank")  # no window of the app is open: a script may not open one, so that alone is a stand-in
    assert worker.evaluate(CLICK, []) == ["/due"]

    with open_shelf(running.folder, now_ms=lambda: 1, random_bytes=bytes) as shelf:
        [held] = shelf.reminders.to_remind()
        shelf.reminders.told(held, "The push service refused this server (403).", well=False, ended=False)
    page.goto(f"{running.url}/due")
    expect(page.get_by_role("link", name="Reminders do not reach this phone")).to_be_visible()
    assert audit_large(page) == {"axe": [], **SOUND}
    page.get_by_role("link", name="Reminders do not reach this phone").tap()
    expect(page.get_by_text("The push service refused this server (403).")).to_be_visible()

    running.run("devices", "revoke", held.device)
    pair(page, running.url, running.code(), "Shed phone")
    expect(page.get_by_role("switch", name="Candling")).to_have_attribute("aria-checked", "false")
    assert wished()["at"] == "06:15", "what it asked for before it was paired again"

    elsewhere = "https://fcm.googleapis.com/fcm/send/another"
    worker.evaluate(
        """(subscription) => {
          PushManager.prototype.subscribe = async () => ({ toJSON: () => subscription });
          self.dispatchEvent(new ExtendableEvent("pushsubscriptionchange"));
        }""",
        PushService().subscription(elsewhere),
    )
    wait_until(lambda: reminded()[0].endpoint == elsewhere)
    assert wished()["at"] == "06:15"

    tap(page, "No more reminders")
    expect(page.get_by_text("Remind this phone")).to_be_visible()
    assert reminded() == []
