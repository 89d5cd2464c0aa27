import { parseBrood } from "./brood-report.ts";
import { lastAnswers } from "./last-answer.ts";

const broods = lastAnswers(parseBrood);

/** What the server last said about a batch of chicks. */
export const broodTold = broods.answer;

export const askBrood = (lot: string): Promise<void> => broods.ask(`/api/v1/reports/brood/${lot}`);
