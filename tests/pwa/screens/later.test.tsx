// @vitest-environment happy-dom
import { render, type VNode } from "preact";
import { act } from "preact/test-utils";
import { beforeEach, expect, test } from "vitest";
import { everywhere } from "../../../pwa/src/app/words/everywhere.ts";
import { later } from "../../../pwa/src/screens/later.tsx";

const Eggs = ({ n }: { n: number }) => <p>{n} eggs</p>;
let box: HTMLElement;

beforeEach(() => {
  box = document.createElement("div");
});

/** Renders, with effects run; `settled` also waits for what they fetch. */
const shown = (screen: VNode) => act(() => render(screen, box));
const settled = () => act(() => new Promise((done) => setTimeout(done)));

test("a screen shows as soon as its script is here, and its props reach it", async () => {
  const Screen = later(async () => Eggs);
  render(<Screen n={7} />, box);
  expect(box.textContent).toBe("");
  await shown(<Screen n={7} />);
  await settled();
  expect(box.textContent).toBe("7 eggs");
});

test("a screen fetched before shows at once, and is fetched once", async () => {
  let asked = 0;
  const Screen = later(async () => {
    asked += 1;
    return Eggs;
  });
  await Screen.fetch();
  await shown(<Screen n={3} />);
  expect(box.textContent).toBe("3 eggs");
  await settled();
  expect(asked).toBe(1);
});

test("a script that does not come is said in words, with a link that loads the page anew", async () => {
  const Screen = later<{ n: number }>(() => Promise.reject(new TypeError("no answer")));
  await shown(<Screen n={1} />);
  await settled();
  expect(box.textContent).toContain(everywhere.screenMissing.title);
  expect(box.querySelector("a")?.getAttribute("target")).toBe("_self");
});

test("a screen whose script failed once is fetched again when it is shown", async () => {
  let asked = 0;
  const Screen = later(() => {
    asked += 1;
    return asked === 1 ? Promise.reject(new TypeError("no answer")) : Promise.resolve(Eggs);
  });
  await expect(Screen.fetch()).rejects.toThrow("no answer");
  await shown(<Screen n={2} />);
  await settled();
  expect(box.textContent).toBe("2 eggs");
});
