import { parseGrowth } from "./growth-report.ts";
import { parseKin } from "./kin-report.ts";
import { lastAnswers } from "./last-answer.ts";

/** What the server said last of the birds, their candidate parents, and their weights. */

const families = lastAnswers(parseKin);
const growths = lastAnswers(parseGrowth);

export const familyTold = families.answer;
export const growthTold = growths.answer;

export const askFamily = (): Promise<void> => families.ask("/api/v1/reports/family");
export const askGrowth = (): Promise<void> => growths.ask("/api/v1/reports/growth");
