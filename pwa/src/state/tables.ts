// A keeper's own table: read on this phone as it is, and handed to the server that knows what its columns mean.
import { sendTable, type TableAct, type TableAnswer, type TableSent } from "../sync/tables.ts";
import { openDesk } from "./desk.ts";
import { type Told, toldBy } from "./told.ts";

export type { BadRow, SheetTold, TableAct, TableAnswer, TableRead, TableSent } from "../sync/tables.ts";

const PART = 0x8000; // bytes put into letters at once

/** The file, ready to be sent. */
export async function packTable(file: File): Promise<TableSent> {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const parts: string[] = [];
  for (let at = 0; at < bytes.length; at += PART) {
    parts.push(String.fromCharCode(...bytes.subarray(at, at + PART)));
  }
  return { name: file.name, base64: btoa(parts.join("")) };
}

/** Tries a table, takes it in, or takes back what it brought; then what the server holds is read. */
export async function actOnTable(sent: TableSent, act: TableAct): Promise<Told<TableAnswer>> {
  const told = toldBy(await sendTable(openDesk().ask, sent, act));
  if (told.kind === "ok" && act !== "try") openDesk().sync?.ask("keeper");
  return told;
}
