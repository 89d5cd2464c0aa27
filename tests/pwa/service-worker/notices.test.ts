import { describe, expect, it } from "vitest";
import { unreadNotice } from "../../../pwa/src/app/words/reminders.ts";
import { noticeOf, pathOf } from "../../../pwa/src/service-worker/notices.ts";

const ORIGIN = "https://book.example";
const TOLD = {
  web_push: 8030,
  notification: {
    title: "Lockdown: Sunday 29 March",
    body: "Lock down Loft box.",
    navigate: `${ORIGIN}/setting/0195`,
    tag: "t1",
  },
};

describe("a message", () => {
  it("is shown as it says, and a click leads where it says", () => {
    expect(noticeOf(JSON.stringify(TOLD), ORIGIN)).toEqual({
      title: "Lockdown: Sunday 29 March",
      options: { body: "Lock down Loft box.", tag: "t1", renotify: true, data: "/setting/0195" },
    });
  });

  it("without a tag asks for no sound again: browsers refuse to show that at all", () => {
    const { options } = noticeOf('{"notification":{"title":"Lockdown"}}', ORIGIN);
    expect(options).toEqual({ body: "", tag: "", renotify: false, data: "/due" });
  });

  const odd = [
    null,
    "",
    "lockdown",
    "[]",
    "null",
    "3",
    "{}",
    '{"notification":7}',
    '{"notification":{"title":""}}',
  ];
  it.each(odd)("that cannot be read is shown all the same: %s", (text) => {
    const { title, options } = noticeOf(text, ORIGIN);
    expect(title).toBe(unreadNotice.title);
    expect(options.data).toBe("/due");
  });
});

it.each([
  ["https://book.example/due?x=1", "/due?x=1"],
  ["/setting/1", "/setting/1"],
  ["https://elsewhere.example/due", "/due"],
  ["//elsewhere.example/x", "/due"],
  ["javascript:alert(1)", "/due"],
  ["https://[", "/due"],
  [7, "/due"],
  [undefined, "/due"],
])("a click on %s leads to %s", (address, path) => {
  expect(pathOf(address, ORIGIN)).toBe(path);
});
