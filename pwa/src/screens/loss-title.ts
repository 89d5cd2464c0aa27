// What the scales say about a setting, in a few words. Pure.
import { weigh as words } from "../app/words/weigh.ts";
import type { LossOutlook, Weighings } from "../book/weighings.ts";

const pct = (value: number) => `${value.toFixed(1)} %`;

/** What the line says, in a few words. */
export function lossTitle({ points }: Weighings, { projection, target }: LossOutlook): string {
  const last = points.at(-1);
  if (!last) return words.title.none;
  if (!projection || points.length < 2) return words.title.once;
  if (!target) return words.title.noTarget(pct(last.lossPct));
  const { lowPct, middlePct, highPct } = projection;
  if (lowPct > target.highPct) return words.title.fast;
  if (highPct < target.lowPct) return words.title.slow;
  if (highPct - lowPct > target.highPct - target.lowPct) return words.title.wide;
  if (middlePct > target.highPct) return words.title.perhapsFast;
  return middlePct < target.lowPct ? words.title.perhapsSlow : words.title.fine;
}

/** The figures behind it: lost so far, where it leads, what is wanted. */
export function lossUnder({ points }: Weighings, { projection, target, again }: LossOutlook): string {
  const last = points.at(-1);
  const isLine = last && projection && target && points.length > 1;
  if (!isLine) return !again ? words.over : last ? words.onceRemedy : words.noneRemedy;
  return words.under(
    pct(last.lossPct),
    last.day.toFixed(0),
    pct(projection.middlePct),
    target.lowPct.toFixed(1),
    pct(target.highPct),
  );
}
