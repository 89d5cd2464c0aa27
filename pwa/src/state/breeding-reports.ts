// What the server works out for next season, from its last answers: the flock, pens, young birds, eggs to set.
import { parseChoosing } from "./choosing-report.ts";
import { parseFlock } from "./kin-report.ts";
import { lastAnswers } from "./last-answer.ts";
import { parsePairing } from "./pairing-report.ts";
import { parseEggsPlan } from "./wished-report.ts";

const REPORTS = "/api/v1/reports";

const flocks = lastAnswers(parseFlock);
const pairings = lastAnswers(parsePairing);
const choices = lastAnswers(parseChoosing);
const eggPlans = lastAnswers(parseEggsPlan);

export const flockTold = flocks.answer;
export const pairingTold = pairings.answer;
export const choosingTold = choices.answer;
export const eggsPlanTold = eggPlans.answer;

export const askFlock = (): Promise<void> => flocks.ask(`${REPORTS}/flock`);
export const askPairing = (wishes: Wishes): Promise<void> =>
  pairings.ask(`${REPORTS}/matings${asked(wishes)}`);
export const askChoosing = (wishes: Wishes): Promise<void> =>
  choices.ask(`${REPORTS}/choose${asked(wishes)}`);
export const askEggsPlan = (wishes: Wishes): Promise<void> => eggPlans.ask(`${REPORTS}/plan${asked(wishes)}`);

/** What is asked of a report, by the names of its route; what is null or empty is the server's to choose. */
type Wishes = object;

export function asked(wishes: Wishes): string {
  const named = Object.entries(wishes).flatMap(([name, value]): [string, string][] =>
    typeof value === "number" || (typeof value === "string" && value !== "") ? [[name, String(value)]] : [],
  );
  return named.length > 0 ? `?${new URLSearchParams(named)}` : "";
}
