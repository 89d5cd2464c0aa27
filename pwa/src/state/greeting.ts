// Whether the server that answers is that of the holding whose book lies open. Comes after the first scripts.
import type { HoldingCard } from "../storage/holding-card.ts";
import type { Shelf } from "../storage/shelf.ts";
import type { PairingAnswer } from "../sync/answers.ts";
import { faultOf, type SyncFault } from "../sync/fault.ts";
import { me } from "../sync/pairing.ts";
import type { Ask } from "../sync/server.ts";
import { cardFrom, sameStanding } from "./cards.ts";

/**
 * Null where the server that answers is the card's own holding and the card's book still lies open. What else it says
 * of this browser is told on.
 */
export async function greet(
  around: { readonly shelf: Shelf; readonly ask: Ask; readonly now_ms: () => number },
  card: HoldingCard,
  tell: (answer: PairingAnswer) => void,
): Promise<SyncFault | null> {
  if ((await around.shelf.open())?.id !== card.id) return { code: "elsewhere" };
  const answer = await me(around.ask);
  if (answer.kind !== "ok") return faultOf(answer);
  const known = cardFrom(answer.value, card, around.now_ms());
  if (known.id === card.id && sameStanding(known, card)) return null;
  tell(answer.value);
  return { code: "elsewhere" };
}
