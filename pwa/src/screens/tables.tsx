// A keeper's own spreadsheet: tried, its columns put right, taken in, and taken back as one.
import { useState } from "preact/hooks";
import { asking } from "../app/words/asking.ts";
import { tables as words } from "../app/words/tables.ts";
import {
  actOnTable,
  packTable,
  type TableAct,
  type TableAnswer,
  type TableRead,
  type TableSent,
} from "../state/tables.ts";
import { Page } from "./page.tsx";
import { Notice } from "./parts/notice.tsx";
import { Press } from "./parts/press.tsx";
import { SelectField } from "./parts/select-field.tsx";
import { Section } from "./section.tsx";
import { useWaited } from "./waited.ts";

const MOST_SHOWN = 50;

interface Shown {
  readonly act: TableAct;
  readonly answer: TableAnswer;
}

export function TablesScreen() {
  const [sent, setSent] = useState<TableSent | null>(null);
  const [shown, setShown] = useState<Shown | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const seconds = useWaited(busy);
  const act = async (next: TableSent, doing: TableAct) => {
    setSent(next);
    setBusy(true);
    const told = await actOnTable(next, doing);
    setBusy(false);
    setFault(told.kind === "ok" ? null : told.kind === "away" ? asking.away : told.words);
    if (told.kind === "ok") setShown({ act: doing, answer: told.value });
  };
  return (
    <Page headline={shown ? headlineOf(shown) : words.title} under={words.under}>
      {fault && (
        <Notice tone="watch" live>
          {fault}
        </Notice>
      )}
      <p role="status">{busy && (seconds < 2 ? asking.waiting : asking.waited(seconds))}</p>
      <div class="acts">
        <label class="press plain">
          {words.choose}
          <input
            type="file"
            class="picker"
            accept=".xlsx,.csv,.tsv"
            onChange={({ currentTarget: field }) => {
              const file = field.files?.[0];
              setShown(null);
              if (file) void packTable(file).then((next) => act(next, "try"));
              field.value = ""; // the same file may be chosen again
            }}
          />
        </label>
        {sent && shown?.act === "try" && shown.answer.added > 0 && (
          <Press kind="main" off={busy} onPress={() => void act(sent, "take")}>
            {words.take}
          </Press>
        )}
        {sent && shown && (shown.act === "take" || shown.answer.known > 0) && shown.act !== "undo" && (
          <Press kind="plain" off={busy} onPress={() => void act(sent, "undo")}>
            {words.undo}
          </Press>
        )}
      </div>
      <p class="quiet small">{words.notMadeUp}</p>
      {sent && shown && <Told shown={shown} onChange={(change) => void act({ ...sent, ...change }, "try")} />}
    </Page>
  );
}

function headlineOf({ act, answer }: Shown): string {
  return act === "try"
    ? words.tried(answer.added)
    : act === "take"
      ? words.taken(answer.added)
      : words.undone(answer.added);
}

type Change = Pick<TableSent, "kind" | "columns">;

function Told({ shown, onChange }: { shown: Shown; onChange: (change: Change) => void }) {
  const { tables, bad, known } = shown.answer;
  const alone = tables.length === 1;
  return (
    <>
      {known > 0 && <p>{words.known(known)}</p>}
      {shown.act !== "undo" && bad.length > 0 && (
        <Section title={words.bad(bad.length)}>
          <ul>
            {bad.slice(0, MOST_SHOWN).map((row) => (
              <li key={row.sheet + row.number + row.field + row.words}>
                <b>{words.row(row.sheet, row.number)}</b>, {words.column(row.field)}: {row.words}{" "}
                {row.taken && words.without}
              </li>
            ))}
          </ul>
          {bad.length > MOST_SHOWN && <p>{words.more(bad.length - MOST_SHOWN)}</p>}
        </Section>
      )}
      {tables.map((table) => (
        <Section
          key={table.sheet}
          title={words.table(table.sheet, table.rows, words.kinds[table.kind] ?? table.kind)}
        >
          {alone && shown.act === "try" ? (
            <Columns table={table} onChange={onChange} />
          ) : (
            <p class="quiet">{Object.values(table.columns).join(", ")}</p>
          )}
        </Section>
      ))}
    </>
  );
}

function Columns({ table, onChange }: { table: TableRead; onChange: (change: Change) => void }) {
  const headings = [...new Set([...Object.values(table.columns), ...table.others])];
  const options = [{ value: "", text: words.nothing }, ...headings.map((one) => ({ value: one, text: one }))];
  const kinds = Object.entries(words.kinds).map(([value, text]) => ({ value, text }));
  const { kind } = table;
  return (
    <>
      <SelectField
        label={words.kind}
        value={kind}
        options={kinds}
        onChoose={(one) => onChange({ kind: one, columns: {} })}
      />
      {table.fields.map((field) => (
        <SelectField
          key={field}
          label={words.column(field)}
          value={table.columns[field] ?? ""}
          options={options}
          onChoose={(heading) => onChange({ kind, columns: { ...table.columns, [field]: heading } })}
        />
      ))}
    </>
  );
}
