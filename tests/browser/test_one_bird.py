"""One grown bird with no server near: found, given another ring for a lost one, judged by points, and an older picture.

Heath wears a blue ring with 7 from the start; it is lost and 9 takes its place.
"""

import base64
import json
import os
import re
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import expect

from tests.book_writer import BookWriter
from tests.browser.audit import assert_sound
from tests.browser.away import THEMES
from tests.browser.hands import follow, go, on_server, pair, tap, wait_until_it_works_offline
from tests.browser.phones import Phone
from tests.browser.serving import Served

TAKEN = datetime(2025, 5, 5, 10, 30, tzinfo=UTC)
NOISE = """() => {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [640, 480];
  canvas.getContext('2d').fillRect(40, 40, 300, 200);
  return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
}"""


def flock(served: Served, folder: Path) -> tuple[str, str]:
    """A family of two birds in the server's book; gives both."""
    book = BookWriter()
    book.keeper()
    family = book.family("Rowan")
    ring = {"kind": "ring", "colour": "blue", "leg": "left"}
    heath = book.write("bird", {"name": "Heath", "sex": "female", "family": family, "tags": [{**ring, "text": "7"}]})
    moss = book.write("bird", {"name": "Moss", "sex": "male", "family": family, "tags": [{**ring, "text": "8"}]})
    lines = folder / "flock.jsonl"
    lines.write_text("".join(json.dumps(one) + "\n" for one in book.documents), encoding="utf-8")
    served.run("import", str(lines))
    return heath, moss


@pytest.mark.parametrize("theme", THEMES)
def test_a_bird_gets_another_ring_points_and_a_picture(
    served: Served, new_phone: Callable[..., Phone], tmp_path: Path, theme: str
) -> None:
    heath, _ = flock(served, tmp_path)
    page = new_phone().open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    on_server(page)
    served.stop()
    page.evaluate("(theme) => { localStorage['broodline-theme'] = theme }", theme)

    go(page, "/birds")
    page.get_by_role("link", name="Heath").tap()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Heath")
    expect(page.get_by_text("Blue ring, left leg, 7, since it was written down")).to_be_visible()
    assert_sound(page)
    follow(page, "Mark")
    tap(page, "Not allowed or not wanted here")
    expect(page.get_by_role("heading", level=1)).to_have_text("Heath: another mark")
    page.get_by_label("Colour").select_option("blue")
    page.get_by_label("Number or letters, if any").fill("8")
    expect(page.get_by_text("wears this number today")).to_be_visible()
    page.get_by_label("Number or letters, if any").fill("9")
    expect(page.get_by_text("wears this number today")).to_have_count(0)
    page.get_by_label("The mark before").select_option(label="Lost or come off: blue ring, left leg, 7")
    page.get_by_text("1 single bird of this breed and season").tap()
    expect(page.get_by_role("link", name="Mark Moss")).to_be_visible()
    assert_sound(page)
    tap(page, "Mark Heath")
    expect(page.get_by_role("heading", level=2).first).to_have_text("Heath: blue ring, left leg, 9")
    tap(page, "Yes, Heath is marked")
    expect(page.get_by_text(re.compile("^Blue ring, left leg, 9, "))).to_be_visible()
    expect(page.get_by_text("since it was written down")).to_have_count(0)

    go(page, f"/bird/{heath}")
    tap(page, "Judge by points")
    page.get_by_label("What is judged 1").fill("type")
    page.get_by_label("Points 1").fill("60,5")
    tap(page, "Another fault")
    page.get_by_label("What is wrong 1").fill("side sprig")
    page.get_by_label("Points off 1").fill("four")
    tap(page, "Write the points down")
    expect(page.get_by_text("Type the points as a number")).to_be_visible()
    page.get_by_label("Points off 1").fill("4")
    expect(page.get_by_text("56.5 points in all")).to_be_visible()
    assert_sound(page)
    tap(page, "Write the points down")
    expect(page.get_by_text("Judged: 56.5 points (type 60.5, side sprig -4)")).to_be_visible()
    older = tmp_path / "heath.jpg"
    older.write_bytes(base64.b64decode(page.evaluate(NOISE)))
    os.utime(older, (TAKEN.timestamp(), TAKEN.timestamp()))
    page.get_by_label("Choose an older one").set_input_files(older)
    expect(page.get_by_role("img", name="Photo, of Heath, Mon 5 May")).to_be_visible()
    assert_sound(page)

    served.start()
    on_server(page)
    expect(page.get_by_text("On the server", exact=True)).to_be_visible(timeout=30_000)
    kinds = {entry["kind"]: entry for entry in served.entries()}
    tag = {"kind": "ring", "colour": "blue", "leg": "left", "text": "9"}
    assert kinds["marked"]["body"] == {"bird": heath, "tag": tag, "replaces": heath}
    assert kinds["scored"]["body"]["scores"] == {"type": 60.5, "side sprig": -4}
    assert kinds["photo"]["body"]["about"] == heath
    assert datetime.fromisoformat(kinds["photo"]["at"]) == TAKEN
