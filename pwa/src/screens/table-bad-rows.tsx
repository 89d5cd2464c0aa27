// What is wrong with rows of a keeper's spreadsheet, and what is only to be known of how they were read.
import { tables as words } from "../app/words/tables.ts";
import type { BadRow } from "../state/tables.ts";
import { Section } from "./section.tsx";

const MOST_SHOWN = 50;

export function BadRows({ rows }: { rows: readonly BadRow[] }) {
  const wrong = rows.filter((row) => !row.asRead);
  const known = rows.filter((row) => row.asRead);
  return (
    <>
      {wrong.length > 0 && <Rows title={words.bad(wrong.length)} rows={wrong} />}
      {known.length > 0 && <Rows title={words.readAs(known.length)} rows={known} />}
    </>
  );
}

function Rows({ title, rows }: { title: string; rows: readonly BadRow[] }) {
  return (
    <Section title={title}>
      <ul>
        {rows.slice(0, MOST_SHOWN).map((row) => (
          <li key={row.sheet + row.number + row.field + row.words}>
            <b>{words.row(row.sheet, row.number)}</b>
            {row.field && `, ${words.column(row.field)}`}: {row.words}{" "}
            {row.taken && !row.asRead && words.without}
          </li>
        ))}
      </ul>
      {rows.length > MOST_SHOWN && <p>{words.more(rows.length - MOST_SHOWN)}</p>}
    </Section>
  );
}
