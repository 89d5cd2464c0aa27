// One sheet of a keeper's spreadsheet: what it was taken for, the days as they were read, which column is which.
import { useState } from "preact/hooks";
import { tables as words } from "../app/words/tables.ts";
import type { SheetTold, TableRead } from "../state/tables.ts";
import { SelectField } from "./parts/select-field.tsx";
import { Wide } from "./parts/wide.tsx";
import { Section } from "./section.tsx";

export const NOT_OURS = "none";

interface TableSheetProps {
  readonly table: TableRead;
  readonly told: SheetTold | undefined;
  /** null: what was read is only shown. */
  readonly onTell: ((told: SheetTold) => void) | null;
}

export function TableSheet({ table, told, onTell }: TableSheetProps) {
  const { sheet, rows, kind, headingRow } = table;
  return (
    <Section title={words.table(sheet, rows, words.kinds[kind] ?? kind)}>
      {headingRow > 1 && <p class="quiet">{words.headings(headingRow)}</p>}
      {onTell === null ? (
        <p class="quiet">{Object.values(table.columns).join(", ")}</p>
      ) : (
        <>
          <div class="pair">
            <SheetKind sheet={sheet} kind={kind} onTell={onTell} />
            <Dates table={table} onTell={onTell} />
          </div>
          <Days table={table} />
          <Columns key={kind} table={table} told={told} onTell={onTell} />
        </>
      )}
    </Section>
  );
}

interface SheetKindProps {
  readonly sheet: string;
  readonly kind: string;
  readonly onTell: (told: SheetTold) => void;
}

export function SheetKind({ sheet, kind, onTell }: SheetKindProps) {
  const kinds = Object.entries(words.kinds).map(([value, text]) => ({ value, text }));
  return (
    <SelectField
      label={words.kind(sheet)}
      value={kind}
      options={[...kinds, { value: NOT_OURS, text: words.notOurs }]}
      onChoose={(one) => onTell({ kind: one, columns: {} })}
    />
  );
}

function Dates({ table, onTell }: { table: TableRead; onTell: (told: SheetTold) => void }) {
  const { datesOpen, dates } = table;
  if (datesOpen.length < 2) return null;
  const orders = datesOpen.map((value) => ({ value, text: words.orders[value] ?? value }));
  return (
    <SelectField
      label={words.dates(table.sheet)}
      value={dates ?? ""}
      options={dates === null ? [{ value: "", text: words.datesNone }, ...orders] : orders}
      hint={dates === null ? words.datesClash : words.datesHint}
      onChoose={(order) => order && onTell({ dates: order })}
    />
  );
}

const inFull = new Intl.DateTimeFormat(undefined, {
  timeZone: "UTC",
  day: "numeric",
  month: "long",
  year: "numeric",
});

function Days({ table }: { table: TableRead }) {
  if (table.days.length === 0) return null;
  const { row, of, day, on, written } = words.dayColumns;
  return (
    <Wide label={words.days}>
      <table>
        <caption>
          <b>{words.days}</b>
        </caption>
        <thead>
          <tr>
            {[row, of, day, on, written].map((title) => (
              <th key={title} scope="col">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {table.days.map((one) => (
            <tr key={one.number + one.field}>
              <th scope="row">{one.number}</th>
              <td>{one.whose}</td>
              <td>{words.column(one.field)}</td>
              <td>
                <b>{inFull.format(Date.parse(`${one.on}T12:00:00Z`))}</b>
              </td>
              <td>{one.written}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
}

function Columns({ table, told, onTell }: TableSheetProps & { onTell: (told: SheetTold) => void }) {
  const [isOpen] = useState(table.missing.length > 0); // so that it does not fold up under the last choice
  const headings = [...new Set([...Object.values(table.columns), ...table.others])].filter(Boolean);
  const options = [{ value: "", text: words.nothing }, ...headings.map((one) => ({ value: one, text: one }))];
  return (
    <details open={isOpen}>
      <summary>{words.columns}</summary>
      <div class="pair">
        {table.fields.map((field) => (
          <SelectField
            key={field}
            label={words.column(field)}
            value={table.columns[field] ?? ""}
            options={options}
            onChoose={(heading) =>
              onTell({ kind: table.kind, columns: { ...told?.columns, ...table.columns, [field]: heading } })
            }
          />
        ))}
      </div>
    </details>
  );
}
