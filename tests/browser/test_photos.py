"""A photo of the first pip: taken without signal, small and without the place, sent later, seen on both phones.

The camera's picture is made here with a GPS position and a turned sensor in its EXIF (CIPA DC-008, JPEG segment APP1).
"""

import base64
import hashlib
import json
import struct
import zipfile
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import FilePayload, Locator, Page, expect

from tests.browser.audit import SOUND, assert_sound, audit
from tests.browser.away import THEMES
from tests.browser.hands import (
    DAY_MS,
    EVERY_ROW,
    name_the_place,
    on_server,
    pair,
    set_eggs,
    tap,
    wait_until_it_works_offline,
)
from tests.browser.phones import Phone
from tests.browser.serving import Served

MOST_BYTES = 500_000
NOISE = """async () => {
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [2400, 1800];
  const pen = canvas.getContext('2d');
  const drawn = pen.createImageData(2400, 1800);
  for (let i = 0, last = 1; i < drawn.data.length; i += 1) {
    last = (Math.imul(last, 1103515245) + 12345) >>> 0;
    drawn.data[i] = i % 4 === 3 ? 255 : last >>> 24;
  }
  pen.putImageData(drawn, 0, 0);
  return canvas.toDataURL('image/jpeg', 0.9).split(',')[1];
}"""


def exif() -> bytes:
    """APP1 with two entries: turned a quarter (orientation 6), and a GPS directory with 53 N in it."""
    degrees = struct.pack(">6I", 53, 1, 0, 1, 0, 1)
    main = struct.pack(">HHHIHHHHIII", 2, 0x0112, 3, 1, 6, 0, 0x8825, 4, 1, 38, 0)
    gps = struct.pack(">HHHI4sHHIII", 2, 1, 2, 2, b"N\0\0\0", 2, 5, 3, 68, 0)
    block = b"Exif\0\0MM\0\x2a" + struct.pack(">I", 8) + main + gps + degrees
    return b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block


def segments(jpeg: bytes) -> list[int]:
    """The markers up to the picture's own bytes."""
    found, at = [], 2
    while jpeg[at + 1] != 0xDA:
        found.append(jpeg[at + 1])
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big")
    return found


def camera(page: Page) -> FilePayload:
    plain = base64.b64decode(page.evaluate(NOISE))
    taken = plain[:2] + exif() + plain[2:]
    assert 0xE1 in segments(taken)
    assert len(taken) > 2 * MOST_BYTES
    return {"name": "pip.jpg", "mimeType": "image/jpeg", "buffer": taken}


def pictures(page: Page) -> Locator:
    return page.get_by_role("img", name="Photo, Loft box")


def is_drawn(page: Page) -> None:
    """The one picture has come, upright and small."""
    expect(pictures(page)).to_have_count(1)
    drawn = pictures(page).evaluate("(it) => it.decode().then(() => [it.naturalWidth, it.naturalHeight])")
    assert (drawn[0] / drawn[1], max(drawn) <= 1600) == (0.75, True), drawn


def taken_on(page: Page) -> dict[str, Any]:
    entries = [json.loads(row["text"]) for row in page.evaluate(EVERY_ROW)]
    [photo] = [one for one in entries if one["kind"] == "photo"]
    return dict(photo["body"])


@pytest.mark.parametrize("theme", THEMES)
def test_a_photo_of_the_first_pip(served: Served, new_phone: Callable[..., Phone], tmp_path: Path, theme: str) -> None:
    phone = new_phone()
    page = phone.open(served.url)
    pair(page, served.url, served.code())
    wait_until_it_works_offline(page)
    page.evaluate("(theme) => { localStorage['broodline-theme'] = theme }", theme)
    served.stop()
    set_ms = int(datetime.now(UTC).timestamp() * 1000)
    page.clock.install(time=set_ms / 1000)
    page.goto(f"{served.url}/due")
    name_the_place(page, ["Rowan"])
    address = set_eggs(page, [("Rowan", 6)])
    page.clock.set_system_time((set_ms + 20.5 * DAY_MS) / 1000)
    page.goto(f"{address}/tally/hatch")
    tap(page, "Pipped")

    page.goto(f"{address}/hatching")
    expect(page.get_by_text("First pip: day 20.5.")).to_be_visible()
    expect(page.get_by_text("so first pips from about day 20.0")).to_be_visible()
    expect(page.get_by_text("where you were is left out")).to_be_visible()
    page.get_by_label("Take a photo").set_input_files(camera(page))
    expect(page.get_by_text("The photo is kept on this phone.")).to_be_visible()
    is_drawn(page)
    expect(page.get_by_text("First pip, ")).to_be_visible()
    expect(page.get_by_text("Only on this phone so far")).to_be_visible()
    assert_sound(page)
    page.goto(address)
    is_drawn(page)
    assert audit(page) == {"axe": [], **SOUND}
    page.get_by_label("Take a photo").set_input_files(
        FilePayload(name="a.jpg", mimeType="image/jpeg", buffer=b"no picture")
    )
    expect(page.get_by_text("This file is no picture that the phone can read.")).to_be_visible()

    served.start()
    page.goto(f"{served.url}/book")
    expect(page.get_by_text("A photo")).to_be_visible()
    on_server(page)
    page.goto(address)
    expect(page.get_by_text("On the server", exact=True)).to_be_visible(timeout=30_000)
    told = taken_on(page)
    answer = page.context.request.get(f"{served.url}/api/v1/photos/{told['sha256']}")
    sent = answer.body()
    assert (answer.status, hashlib.sha256(sent).hexdigest()) == (200, told["sha256"])
    assert len(sent) <= MOST_BYTES
    applications = {one for one in segments(sent) if 0xE0 <= one <= 0xEF}
    assert applications <= {0xE0, 0xE2}, "JFIF and colours (ICC.1 annex B.4); EXIF and XMP would stand in 0xE1"
    assert b"Exif" not in sent
    assert b"xap/1.0" not in sent
    assert told["height"] > told["width"]
    assert served.run("report", "setting", address.rpartition("/")[2])["total"]["stages"] == {"set": 6}

    other = new_phone().open(served.url)
    pair(other, served.url, served.code(), "Yard phone")
    other.goto(address)
    expect(other.get_by_text("From another phone")).to_be_visible()
    is_drawn(other)
    saved_and_taken_in(page, other, sent, tmp_path)

    other.goto(address)
    is_drawn(other)
    page.goto(address)
    page.get_by_role("button", name="Take back: Photo").tap()
    expect(pictures(page)).to_have_count(0)
    other.reload()
    expect(pictures(other)).to_have_count(0, timeout=30_000)


def saved_and_taken_in(page: Page, other: Page, picture: bytes, folder: Path) -> None:
    """The photos as one file, read by another program; and into a phone that has none, though that program wrote it."""
    phone = f"{page.url.split('/setting')[0]}/phone"
    page.goto(phone)
    with page.expect_download() as saving:
        tap(page, "Save the photos")
    expect(page.get_by_text("1 photo saved as ")).to_be_visible()
    with zipfile.ZipFile(saving.value.path()) as archive:
        assert archive.testzip() is None
        [name] = archive.namelist()
        assert archive.read(name) == picture
    other.goto(phone)
    tap(other, "Save the photos")
    expect(other.get_by_text("1 photo of this book lies on the server or another phone")).to_be_visible()
    written = folder / "photos.zip"
    with zipfile.ZipFile(written, "w", zipfile.ZIP_STORED) as archive:
        archive.writestr("album/pip.jpg", picture)
        archive.writestr("album/cat.jpg", b"the neighbour's cat")
    other.get_by_label("Take photos in").set_input_files(written)
    expect(other.get_by_text("1 photo of this book taken in. 1 picture is of no entry")).to_be_visible()
    with other.expect_download() as saving:
        tap(other, "Save the photos")
    with zipfile.ZipFile(saving.value.path()) as archive:
        assert [archive.read(one) for one in archive.namelist()] == [picture]
