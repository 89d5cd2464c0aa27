import type { HoldingCard } from "../storage/holding-card.ts";
import { type PairingAnswer, parseOwnName, parsePairingAnswer } from "./answers.ts";
import type { Answer, Ask } from "./server.ts";

/**
 * Pairs this phone by a one-time code. `held` is the holding whose book lies open: its id is offered, so that an
 * empty server takes it over and the book begun here goes on; a demo's is never offered.
 */
export function pair(
  ask: Ask,
  code: string,
  name: string,
  held: HoldingCard | null,
): Promise<Answer<PairingAnswer>> {
  const offered = held && !held.demo ? { holding: held.id } : {};
  return ask({
    method: "POST",
    path: "/api/v1/pair",
    body: JSON.stringify({ code, name, ...offered }),
    parse: parsePairingAnswer,
  });
}

/** Takes this phone's pairing back; the server then knows it no longer. */
export function unpair(ask: Ask, device: string): Promise<Answer<true>> {
  return ask({ method: "DELETE", path: `/api/v1/devices/${device}`, parse: () => true });
}

/** Who this browser is to the server. A demo signs its own machine's browser in here. */
export async function me(ask: Ask): Promise<Answer<PairingAnswer>> {
  const answer = await ask({ method: "GET", path: "/api/v1/me?strangers=1", parse: parseOwnName });
  if (answer.kind !== "ok") return answer;
  const { value } = answer;
  return value ? { ...answer, value } : STRANGER;
}

/** What any other call of a phone that is not paired is answered with. */
const STRANGER = {
  kind: "refused",
  status: 401,
  refusal: {
    code: "unpaired",
    message: "This device is not paired with this book.",
    remedy: "Pair it again.",
  },
  retry_after_ms: null,
} as const;
