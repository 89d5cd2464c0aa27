// @vitest-environment happy-dom
import { render } from "preact";
import { act } from "preact/test-utils";
import { expect, test } from "vitest";
import { Safe } from "../../../pwa/src/screens/safe.tsx";

function Broken(): never {
  throw new TypeError("2569-13-01 is no day");
}

const shown = async (at: string, whole: boolean) => {
  await act(() => render(<Safe at={at}>{whole ? <p>Twelve eggs</p> : <Broken />}</Safe>, document.body));
  return document.body.textContent ?? "";
};

test("a page that breaks says what happened, that nothing is lost, and where to go; the next one is whole", async () => {
  expect(await shown("/due", true)).toContain("Twelve eggs");
  const told = await shown("/bird/one", false);
  expect(told).toContain("This page cannot be shown");
  expect(told).toContain("All you wrote is kept.");
  expect(told).toContain("2569-13-01 is no day");
  expect([...document.querySelectorAll("a")].map((one) => one.getAttribute("href"))).toEqual([
    "/book",
    "/phone",
  ]);
  expect(await shown("/due", true)).toContain("Twelve eggs");
});

test("trying again shows the page once it can be drawn", async () => {
  let broken = true;
  const Page = () => (broken ? <Broken /> : <p>Twelve eggs</p>);
  await act(() =>
    render(
      <Safe at="/due">
        <Page />
      </Safe>,
      document.body,
    ),
  );
  broken = false;
  await act(() => document.querySelector("button")?.click());
  expect(document.body.textContent).toContain("Twelve eggs");
});
