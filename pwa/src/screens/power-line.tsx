// A power cut on the card of a machine: its clock while it lasts, when to candle again after it.
import { power as words } from "../app/words/machine.ts";
import { cutInMind, type PowerCut, powerCutsAt } from "../book/power-cuts.ts";
import type { Standing } from "../book/standing.ts";
import { undo } from "../state/actions.ts";
import { bookNow_ms } from "../state/book-clock.ts";
import { changeOutage } from "../state/machine.ts";
import { standing } from "../state/standing.ts";
import { CANDLE_AFTER_CUT } from "../trade/guidance.ts";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { clock, dayWords } from "./told-time.ts";

const DAY_MS = 86_400_000;

/** "35 min", "2 h 10 min". */
export function lengthText(ms: number): string {
  const minutes = Math.max(0, Math.floor(ms / 60_000));
  return words.hours(Math.floor(minutes / 60), minutes % 60);
}

/** "Candle again between Sat 28 Nov and Mon 30 Nov." */
export function candleAgainText(cut: PowerCut, zone: string): string {
  const [from, to] = CANDLE_AFTER_CUT.map((day) => dayWords(cut.fromMs + day * DAY_MS, zone)) as [
    string,
    string,
  ];
  return words.candle(from, to);
}

/** The cut a machine is in, or had so lately that its eggs are still to be candled again. */
export function cutAt(totals: Standing, place: string, now_ms: number): PowerCut | null {
  return cutInMind(powerCutsAt(totals, place), CANDLE_AFTER_CUT[1] + 1, now_ms);
}

export function endCut({ head }: PowerCut): void {
  void changeOutage(head.id, { ...head.body, until: new Date(bookNow_ms()).toISOString() });
}

export function PowerLine({ cut, place, now_ms }: { cut: PowerCut; place: string; now_ms: number }) {
  const { zone } = standing.value.keeper;
  const page = `/rooms/${place}/power`;
  if (cut.untilMs !== null) {
    return (
      <Notice tone="watch">
        <p>
          {words.was(lengthText(cut.untilMs - cut.fromMs), dayWords(cut.fromMs, zone))}{" "}
          {candleAgainText(cut, zone)}
        </p>
        <p class="small">
          <a class="press bare" href={page}>
            {words.what}
          </a>
        </p>
      </Notice>
    );
  }
  return (
    <Notice tone="loss" live>
      <p>
        <b>{words.since(clock(cut.fromMs, zone), lengthText(now_ms - cut.fromMs))}</b>
      </p>
      <div class="acts">
        <Press kind="main" onPress={() => endCut(cut)}>
          {words.back}
        </Press>
        <a class="press plain" href={page}>
          {words.what}
        </a>
        <Press kind="plain" onPress={() => void undo(cut.head.root)}>
          {words.undo}
        </Press>
      </div>
    </Notice>
  );
}
