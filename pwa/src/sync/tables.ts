// A keeper's own table, tried, taken in or undone by the server.
import { list, NotOurs, object, text, whole } from "./answer-parts.ts";
import type { Answer, Ask } from "./server.ts";

/** columns: field -> heading. others: headings that nothing is read from. */
export interface TableRead {
  readonly sheet: string;
  readonly kind: string;
  readonly rows: number;
  readonly columns: Readonly<Record<string, string>>;
  readonly others: readonly string[];
  readonly fields: readonly string[];
}

export interface BadRow {
  readonly sheet: string;
  readonly number: number;
  readonly field: string;
  readonly words: string;
  readonly taken: boolean;
}

export interface TableAnswer {
  readonly tables: readonly TableRead[];
  readonly added: number;
  readonly known: number;
  readonly bad: readonly BadRow[];
}

export type TableAct = "try" | "take" | "undo";

/** The file as base64, and what the keeper said of it. */
export interface TableSent {
  readonly name: string;
  readonly base64: string;
  readonly kind?: string;
  readonly columns?: Readonly<Record<string, string>>;
}

const PLACE = "/api/v1/imports/sheet";
const QUERY: Readonly<Record<TableAct, string>> = { try: "?dry_run=1", take: "", undo: "?undo=1" };
const LIMIT_MS = 120_000;

export const sendTable = (ask: Ask, sent: TableSent, act: TableAct): Promise<Answer<TableAnswer>> =>
  ask({
    method: "POST",
    path: PLACE + QUERY[act],
    body: JSON.stringify(sent),
    limit_ms: LIMIT_MS,
    parse: parseAnswer,
  });

function parseAnswer(value: unknown): TableAnswer {
  const { tables, added, known, bad } = object(value);
  return {
    tables: list(tables).map((one) => {
      const table = object(one);
      const columns = Object.entries(object(table.columns)).map(([field, heading]) => [field, text(heading)]);
      return {
        sheet: text(table.sheet),
        kind: text(table.kind),
        rows: whole(table.rows),
        columns: Object.fromEntries(columns),
        others: list(table.passed_over).map(text),
        fields: list(table.fields).map(text),
      };
    }),
    added: whole(added),
    known: whole(known),
    bad: list(bad).map((one) => {
      const row = object(one);
      if (typeof row.taken !== "boolean") throw new NotOurs();
      const words = `${text(row.message)} ${text(row.remedy)}`;
      const { taken } = row;
      return { sheet: text(row.sheet), number: whole(row.number), field: text(row.field), words, taken };
    }),
  };
}
