import { createHash } from "node:crypto";
import "fake-indexeddb/auto";
import { afterEach, expect, it } from "vitest";
import { record } from "../../../pwa/src/state/actions.ts";
import { openDesk } from "../../../pwa/src/state/desk.ts";
import { openAtStart } from "../../../pwa/src/state/opening.ts";
import { copyPhotos, readPhotos } from "../../../pwa/src/state/photo-copy.ts";
import { picturesOf } from "../../../pwa/src/storage/pictures-indexed.ts";
import { filesIn } from "../../../pwa/src/storage/zip.ts";
import { browser, killApp } from "./surroundings.ts";

afterEach(killApp);

const picture = (words: string) => {
  const bytes = new TextEncoder().encode(words) as Uint8Array<ArrayBuffer>;
  return { bytes, sha256: createHash("sha256").update(bytes).digest("hex") };
};
const [pip, chick] = [picture("a pip"), picture("a chick")];
const photo = (sha256: string, at: string, type = "image/jpeg") =>
  record("photo", { about: "s", sha256, type, width: 3, height: 4 }, { at: new Date(at) });

it("saves what lies on this phone in order of time, and says what does not", async () => {
  await openAtStart(browser().around);
  const pictures = picturesOf(openDesk().card.id);
  for (const { sha256, bytes } of [pip, chick])
    await pictures.keep({ sha256, type: "image/jpeg", bytes: bytes.buffer });
  await photo(chick.sha256, "2026-03-29T15:00:00Z");
  await photo(pip.sha256, "2026-03-29T14:12:00Z", "image/png");
  await photo(pip.sha256, "2026-03-29T16:00:00Z");
  await photo("c".repeat(64), "2026-03-29T17:00:00Z");
  const copy = await copyPhotos("2026-03-30");
  expect([copy.name, copy.n, copy.elsewhere]).toEqual(["broodline-photos-2026-03-30.zip", 2, 1]);
  const found = filesIn(await copy.file.arrayBuffer());
  expect(found?.map(({ name, bytes }) => [name, new TextDecoder().decode(bytes)])).toEqual([
    [`2026-03-29 1412 ${pip.sha256.slice(0, 8)}.png`, "a pip"],
    [`2026-03-29 1500 ${chick.sha256.slice(0, 8)}.jpg`, "a chick"],
  ]);
});

it("takes in what the book names, from such a file or a picture by itself, and nothing else", async () => {
  await openAtStart(browser().around);
  const store = picturesOf(openDesk().card.id);
  for (const { sha256, bytes } of [pip])
    await store.keep({ sha256, type: "image/jpeg", bytes: bytes.buffer });
  await photo(pip.sha256, "2026-03-29T14:12:00Z");
  const { file } = await copyPhotos("2026-03-30");
  await killApp();

  await openAtStart(browser().around); // another phone: it knows of both, and holds none
  await photo(pip.sha256, "2026-03-29T14:12:00Z");
  await photo(chick.sha256, "2026-03-29T15:00:00Z");
  const stranger = new Blob([picture("the neighbour's cat").bytes]);
  expect(await readPhotos([file, new Blob([chick.bytes]), stranger])).toEqual({ kept: 2, strangers: 1 });
  const other = picturesOf(openDesk().card.id);
  for (const { sha256, bytes } of [pip, chick]) {
    const held = await other.read(sha256);
    expect(held && new Uint8Array(held.bytes)).toEqual(bytes);
  }
});
