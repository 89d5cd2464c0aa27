// A keeper's own spreadsheets, brought into the book.

import { plural } from "./everywhere.ts";

const COLUMNS: Readonly<Record<string, string>> = {
  set_on: "day set",
  hatched_on: "day hatched",
  left_on: "day it left",
  left_how: "how it left",
  ring_colour: "colour of the ring",
  from: "from whom",
  sign: "sign on eggs",
  eggs: "eggs set",
  place: "machine",
  clear: "clear eggs",
  died_first_week: "died in the first week",
};

export const tables = {
  onlyKeeper: "The keeper's phone brings spreadsheets into the book.",
  link: "Bring a spreadsheet",
  title: "Bring a spreadsheet into the book",
  under:
    "Families, birds, or what past seasons' eggs came to, as .xlsx or .csv. First it is only tried: you see what was read from which sheet and column, and what is wrong in which row.",
  choose: "Choose a file",
  tried: (n: number) =>
    n === 0 ? "Nothing new would be added" : `${plural(n, "entry", "entries")} would be added`,
  taken: (n: number) => `${plural(n, "entry", "entries")} added`,
  undone: (n: number) =>
    n === 0
      ? "Nothing of these days, machines, families and birds is in the book"
      : `${plural(n, "entry", "entries")} taken back`,
  known: (n: number) => `${n} in the book already`,
  take: "Take the good rows in",
  undo: "Take all of it back",
  kinds: { families: "Families", birds: "Birds", hatches: "Past hatches" } as Readonly<
    Record<string, string>
  >,
  table: (sheet: string, rows: number, kind: string) =>
    `${sheet}: ${plural(rows, "row", "rows")}, read as ${kind.toLowerCase()}`,
  kind: (sheet: string) => `What “${sheet}” holds`,
  notOurs: "Nothing for Broodline",
  left: (n: number) => `${plural(n, "sheet", "sheets")} not read`,
  leftWords: "Nothing of these comes into the book. Say what one holds, and it is read too.",
  headings: (row: number) => `Its headings stand in row ${row}.`,
  columns: "Which column is which",
  days: "Days as they were read",
  dayColumns: { row: "Row", of: "Of", day: "Which day", on: "Read as", written: "Written" },
  dates: (sheet: string) => `How “${sheet}” writes its days`,
  datesHint: "The sheet leaves it open. See below that its days are the right ones.",
  datesClash:
    "Some of its days can only be read in one way, some only in another. Choose, and correct the others.",
  datesNone: "In several ways",
  orders: {
    dmy: "Day first: 3/4 is 3 April",
    mdy: "Month first: 3/4 is 4 March",
    ymd: "Year first: 25/4/3 is 3 April 2025",
  } as Readonly<Record<string, string>>,
  asked: "What rows do not say",
  species: "Species of rows that say none",
  breed: "Breed of rows that say none",
  unsaid: "not said",
  readAgain: "Read it again with this",
  column: (field: string) => COLUMNS[field] ?? field.replaceAll("_", " "),
  nothing: "no column",
  bad: (n: number) => `${plural(n, "row", "rows")} to put right`,
  readAs: (n: number) => `${plural(n, "thing", "things")} to know of how rows were read`,
  row: (sheet: string, number: number) => (number === 0 ? sheet : `${sheet}, row ${number}`),
  without: "The row is read in without it.",
  more: (n: number) => `And ${n} more.`,
  notMadeUp:
    "What the table does not say is not made up: eggs in no column did not hatch; chicks of which nothing more is said count as neither alive, sold nor lost, and their hatch says that it was not written.",
} as const;
