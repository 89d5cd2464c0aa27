import { type LastAnswer, lastAnswers } from "./last-answer.ts";
import { parseSeason, type SeasonReport } from "./season-report.ts";
import { parseSetting } from "./setting-report.ts";

export type SeasonAnswer = LastAnswer<SeasonReport>;

const seasons = lastAnswers(parseSeason);
const settings = lastAnswers(parseSetting);

export const season = seasons.answer;
export const settingTold = settings.answer;

export const askSeason = (year: number): Promise<void> => seasons.ask(`/api/v1/reports/season/${year}`);
export const askSetting = (id: string): Promise<void> => settings.ask(`/api/v1/reports/setting/${id}`);
