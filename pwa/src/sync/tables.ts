// A keeper's own tables, tried, taken in or undone by the server.
import { list, NotOurs, object, orNull, text, whole } from "./answer-parts.ts";
import type { Answer, Ask } from "./server.ts";

/** A day as it was read. written: as the cell has it, null where the workbook holds a day. on: YYYY-MM-DD. */
export interface DayRead {
  readonly number: number;
  readonly whose: string;
  readonly field: string;
  readonly written: string | null;
  readonly on: string;
}

/**
 * columns: field -> heading. others: headings that nothing is read from. missing: needed fields without a column.
 * dates: the order of days in digits ("dmy", "mdy", "ymd"), null where they contradict each other. datesOpen: the
 * orders that the sheet leaves open; more than one is a question.
 */
export interface TableRead {
  readonly sheet: string;
  readonly kind: string;
  readonly rows: number;
  readonly headingRow: number;
  readonly columns: Readonly<Record<string, string>>;
  readonly others: readonly string[];
  readonly fields: readonly string[];
  readonly needed: readonly string[];
  readonly missing: readonly string[];
  readonly dates: string | null;
  readonly datesOpen: readonly string[];
  readonly days: readonly DayRead[];
}

/** taken: the row was read in without this field. asRead: it was read, and this only says how. */
export interface BadRow {
  readonly sheet: string;
  readonly number: number;
  readonly field: string;
  readonly words: string;
  readonly taken: boolean;
  readonly asRead: boolean;
}

/** others: sheets that were not read. asked: "species", "breed" where rows do not say them. */
export interface TableAnswer {
  readonly tables: readonly TableRead[];
  readonly others: readonly string[];
  readonly asked: readonly string[];
  readonly added: number;
  readonly known: number;
  readonly bad: readonly BadRow[];
}

export type TableAct = "try" | "take" | "undo";

/** kind: "none" for a sheet that is not for this book. A heading "" is a column that is not to be read. */
export interface SheetTold {
  readonly kind?: string;
  readonly columns?: Readonly<Record<string, string>>;
  readonly dates?: string;
}

/** The file as base64, and what the keeper said of it, sheet by sheet. */
export interface TableSent {
  readonly name: string;
  readonly base64: string;
  readonly sheets?: Readonly<Record<string, SheetTold>>;
  readonly species?: string;
  readonly breed?: string;
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
  const { tables, other_sheets, asked, added, known, bad } = object(value);
  return {
    tables: list(tables).map(parseTable),
    others: list(other_sheets).map(text),
    asked: list(asked).map(text),
    added: whole(added),
    known: whole(known),
    bad: list(bad).map((one) => {
      const row = object(one);
      return {
        sheet: text(row.sheet),
        number: whole(row.number),
        field: maybeEmpty(row.field),
        words: `${text(row.message)} ${text(row.remedy)}`,
        taken: yesOrNo(row.taken),
        asRead: yesOrNo(row.as_read),
      };
    }),
  };
}

function parseTable(value: unknown): TableRead {
  const table = object(value);
  const columns = Object.entries(object(table.columns)).map(([field, heading]) => [
    field,
    maybeEmpty(heading),
  ]);
  return {
    sheet: text(table.sheet),
    kind: text(table.kind),
    rows: whole(table.rows),
    headingRow: whole(table.heading_row),
    columns: Object.fromEntries(columns),
    others: list(table.passed_over).map(text),
    fields: list(table.fields).map(text),
    needed: list(table.needed).map(text),
    missing: list(table.missing).map(text),
    dates: orNull(table.dates, text),
    datesOpen: list(table.dates_open).map(text),
    days: list(table.days).map((one) => {
      const day = object(one);
      return {
        number: whole(day.number),
        whose: maybeEmpty(day.whose),
        field: text(day.field),
        written: orNull(day.written, text),
        on: text(day.on),
      };
    }),
  };
}

function maybeEmpty(value: unknown): string {
  if (typeof value !== "string") throw new NotOurs();
  return value;
}

function yesOrNo(value: unknown): boolean {
  if (typeof value !== "boolean") throw new NotOurs();
  return value;
}
