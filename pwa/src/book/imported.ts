/**
 * What the id of an entry tells of where it came from: rows of a keeper's table get ids of noon of the row's day, to the
 * millisecond. Mirrors server/broodline/book/imported.py.
 */
const NOON_MS = 43_200_000;
const UNNAMED_MACHINE_MS = 946_814_400_000; // noon of 2 January 2000

const msOf = (id: string) => Number.parseInt(id.slice(0, 8) + id.slice(9, 13), 16);

/** Whether rows of a table founded it. */
export const isImported = (id: string) => msOf(id) % (2 * NOON_MS) === NOON_MS;

/** Whether it stands for whatever machine hatched the eggs of rows that name none: nobody sets eggs in it. */
export const isUnnamedMachine = (id: string) => msOf(id) === UNNAMED_MACHINE_MS;
