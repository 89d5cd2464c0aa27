import type { HoldingCard } from "../storage/holding-card.ts";
import type { IdMaker } from "../storage/uuid7.ts";
import type { PairingAnswer } from "../sync/answers.ts";

/** A phone that pairs again gets a new device id and knows its earlier ones as its own. */
export function cardFrom(answer: PairingAnswer, known: HoldingCard | null, now_ms: number): HoldingCard {
  const earlier = known ? [...known.earlier_devices, known.device] : [];
  return {
    id: answer.holding.id,
    name: answer.holding.name,
    demo: answer.demo,
    device: answer.device,
    earlier_devices: [...new Set(earlier)].filter((device) => device !== answer.device),
    role: answer.role,
    paired_ms: known?.paired_ms ?? now_ms,
  };
}

/** A book begun before any pairing; an empty server takes its id over. */
export function newCard(ids: IdMaker): HoldingCard {
  return {
    id: ids.next(),
    name: "",
    demo: false,
    device: ids.next(),
    earlier_devices: [],
    role: "keeper",
    paired_ms: null,
  };
}

/** Whether the phone stands to its holding as before. */
export function sameStanding(a: HoldingCard, b: HoldingCard): boolean {
  return a.device === b.device && a.role === b.role && a.name === b.name && a.paired_ms === b.paired_ms;
}
