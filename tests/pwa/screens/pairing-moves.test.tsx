// @vitest-environment happy-dom
// The moves of males are told with the season they are for.
import { afterAll, expect, it } from "vitest";
import { PairingMoves } from "../../../pwa/src/screens/pairing-moves.tsx";
import { parsePairing } from "../../../pwa/src/state/pairing-report.ts";
import { killApp } from "../state/surroundings.ts";
import { show } from "./holding.ts";

afterAll(killApp);

it("names the season, and none where an older server said none", () => {
  const rotation = { moves: ["Rowan's cock Rufus goes to Hazel."], words: "The pens follow these moves." };
  for (const [season, heading] of [
    [2027, "Moving cocks between families, season 2027"],
    [undefined, "Moving cocks between families"],
  ] as const) {
    const report = parsePairing({ table: [], pens: [], rotation, season });
    show(<PairingMoves rotation={report.rotation} season={report.season} />);
    expect(document.querySelector("h2")?.textContent).toBe(heading);
    expect(document.querySelector("li")?.textContent).toBe("Rowan's cock Rufus goes to Hazel.");
  }
});
