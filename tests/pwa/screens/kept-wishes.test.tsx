// @vitest-environment happy-dom
// What was asked of a page is there again when the keeper comes back to it.
import { act } from "preact/test-utils";
import { afterAll, expect, it } from "vitest";
import { useKept } from "../../../pwa/src/screens/kept-wishes.ts";
import { desk, openDesk } from "../../../pwa/src/state/desk.ts";
import { killApp } from "../state/surroundings.ts";
import { holdingAt, settle, show } from "./holding.ts";

afterAll(killApp);

function Asked({ of }: { of: string }) {
  const [pens, setPens] = useKept(of, 1);
  return (
    <button type="button" onClick={() => setPens(pens + 3)}>
      {pens}
    </button>
  );
}

const told = () => document.querySelector("button")?.textContent;

it("is kept by page and by book, while the page is away", async () => {
  await holdingAt(5);
  show(<Asked of="pens" />);
  await act(() => document.querySelector("button")?.click());
  await settle();
  expect(told()).toBe("4");
  show(<p>Another page</p>);
  show(<Asked key="again" of="pens" />);
  expect(told()).toBe("4");
  show(<Asked key="other" of="eggs" />);
  expect(told()).toBe("1");
  const { card, ...rest } = openDesk();
  desk.value = { ...rest, card: { ...card, id: "another holding" } };
  show(<Asked key="other book" of="pens" />);
  expect(told()).toBe("1");
});
