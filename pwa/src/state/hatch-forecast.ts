import { signal } from "@preact/signals";
import { inBook } from "./book-clock.ts";
import { desk, openDesk } from "./desk.ts";

/** When a hatch is likely, as the server last worked it out; kept beside the book, losing it loses nothing. */
export interface HatchForecast {
  readonly setting: string;
  readonly fromMs: number;
  readonly toMs: number;
  /** How many earlier hatches of the machine it rests on. */
  readonly hatches: number;
  /** Hours by which those move the middle of the species' usual time, later above zero; null where none was told. */
  readonly shiftH: number | null;
  /** When the server said so. */
  readonly gotMs: number;
}

export const hatchForecast = signal<HatchForecast | null>(null);

/** Of which setting the last was asked: an answer about another comes too late to be shown. */
let asked = "";

/** Shows the last answer about a setting and asks for a new one; without a server the last stays. */
export async function askForecast(setting: string): Promise<void> {
  const open = openDesk();
  asked = setting;
  const isLate = () => desk.value?.card.id !== open.card.id;
  if (hatchForecast.value?.setting !== setting) hatchForecast.value = null;
  if (!open.sync) return;
  const path = `/api/v1/reports/setting/${setting}`;
  const kept = await open.storage.answer(path).catch(() => null);
  if (isLate() || asked !== setting) return;
  if (kept) hatchForecast.value = forecastIn(kept.value, setting, inBook(kept.got_ms));
  const answer = await open.ask({ method: "GET", path, parse: (value) => value });
  if (isLate() || answer.kind !== "ok") return;
  if (asked === setting) hatchForecast.value = forecastIn(answer.value, setting, inBook(answer.got_ms));
  await open.storage.keepAnswer(path, { value: answer.value, got_ms: answer.got_ms }).catch(() => undefined);
}

/** The forecast in a setting's report; null where it holds none, or is of another form. */
export function forecastIn(report: unknown, setting: string, gotMs: number): HatchForecast | null {
  const forecast = field(report, "forecast");
  const [fromMs, toMs] = [field(forecast, "from"), field(forecast, "to")].map((at) =>
    Date.parse(String(at)),
  ) as [number, number];
  const hatches = field(forecast, "hatches");
  const shift = field(forecast, "shift_h");
  if (!Number.isFinite(fromMs) || !Number.isFinite(toMs) || typeof hatches !== "number") return null;
  return { setting, fromMs, toMs, hatches, shiftH: typeof shift === "number" ? shift : null, gotMs };
}

function field(of: unknown, name: string): unknown {
  return typeof of === "object" && of !== null ? (of as Record<string, unknown>)[name] : undefined;
}
