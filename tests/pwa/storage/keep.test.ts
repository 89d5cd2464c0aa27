import { describe, expect, it } from "vitest";
import { askToKeep, isKept, roomLeft } from "../../../pwa/src/storage/keep.ts";

const storageOf = (parts: Partial<StorageManager>) => parts as StorageManager;
const says = (answer: boolean) => async () => answer;

describe("asking the browser to keep the app's storage", () => {
  it("has three answers: kept, not kept, it does not say", async () => {
    expect(await askToKeep(storageOf({ persisted: says(false), persist: says(true) }))).toBe(true);
    expect(await askToKeep(storageOf({ persisted: says(false), persist: says(false) }))).toBe(false);
    expect(await askToKeep(undefined)).toBeNull();
    expect(
      await askToKeep(storageOf({ persisted: says(false), persist: () => Promise.reject(new Error()) })),
    ).toBeNull();
  });

  it("asks no second time what is granted already", async () => {
    const persist = () => Promise.reject(new Error("asked again"));
    expect(await askToKeep(storageOf({ persisted: says(true), persist }))).toBe(true);
    expect(await isKept(storageOf({ persisted: says(true) }))).toBe(true);
    expect(await isKept(storageOf({}))).toBeNull();
  });

  it("tells the room that is left, where the browser tells it", async () => {
    expect(await roomLeft(storageOf({ estimate: async () => ({ usage: 10, quota: 100 }) }))).toEqual({
      used_bytes: 10,
      quota_bytes: 100,
    });
    expect(await roomLeft(storageOf({ estimate: async () => ({}) }))).toBeNull();
    expect(await roomLeft(undefined)).toBeNull();
  });
});
