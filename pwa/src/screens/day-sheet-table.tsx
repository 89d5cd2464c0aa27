// The daily sheet: each day since an order began, or of the last week; the last column is for the keeper's pen.
import { useMemo } from "preact/hooks";
import { orders as words } from "../app/words/treating.ts";
import { daySheets } from "../book/day-sheet.ts";
import { heldMs } from "../book/moments.ts";
import { standing } from "../state/standing.ts";
import { Press } from "./parts/press.tsx";
import { Wide } from "./parts/wide.tsx";
import { daysFrom, weekdayTold } from "./told-day.ts";
import { dayKey } from "./told-time.ts";

const LEAST_DAYS = 7;
const MOST_DAYS = 62;
const COLUMNS = ["kept", "hatched", "came", "left", "died", "missing"] as const;

export function DaySheetTable({ since, today }: { since: string | null; today: string }) {
  const totals = standing.value;
  const days = useMemo(() => daysUntil(today, since), [today, since]);
  const sheets = useMemo(
    () => daySheets(totals, days, (atMs) => dayKey(heldMs(atMs), totals.keeper.zone)),
    [totals, days],
  );
  return (
    <>
      <Wide label={words.sheet}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.columns.day}</th>
              {COLUMNS.map((column) => (
                <th key={column} scope="col" class="r">
                  {words.columns[column]}
                </th>
              ))}
              <th scope="col">{words.columns.ill}</th>
            </tr>
          </thead>
          <tbody>
            {sheets.map((sheet) => (
              <tr key={sheet.on}>
                <th scope="row" class="nowrap">
                  {weekdayTold(sheet.on)}
                </th>
                {COLUMNS.map((column) => (
                  <td key={column} class="r">
                    {sheet[column]}
                  </td>
                ))}
                <td />
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
      <div class="acts no-print">
        <Press kind="plain" onPress={() => window.print()}>
          {words.print}
        </Press>
      </div>
    </>
  );
}

/** The latest first. */
function daysUntil(today: string, since: string | null): string[] {
  const n = Math.min(MOST_DAYS, Math.max(LEAST_DAYS, since ? daysFrom(since, today) + 1 : 0));
  const noon = Date.parse(`${today}T12:00:00Z`);
  return Array.from({ length: n }, (_, i) => new Date(noon - i * 86_400_000).toISOString().slice(0, 10));
}
