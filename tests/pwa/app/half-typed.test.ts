// @vitest-environment happy-dom
import { expect, test } from "vitest";
import { isHalfTyped, noticeTyping } from "../../../pwa/src/app/half-typed.ts";

test("what is typed counts until it is gone from the field or the field from the page", () => {
  noticeTyping(document);
  document.body.innerHTML = '<input value="Gorse Bank"><textarea></textarea>';
  const [line, text] = document.querySelectorAll<HTMLInputElement>("input, textarea");
  if (!line || !text) throw new Error("no fields");
  const type = (field: HTMLInputElement, words: string) => {
    field.value = words;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  expect(isHalfTyped()).toBe(false); // what stood there already is saved
  type(text, "frost");
  expect(isHalfTyped()).toBe(true);
  type(text, "");
  expect(isHalfTyped()).toBe(false);
  type(line, "Gorse Bank Farm");
  expect(isHalfTyped()).toBe(true);
  document.body.innerHTML = "";
  expect(isHalfTyped()).toBe(false);
});
