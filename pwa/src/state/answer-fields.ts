// Parts of a report as the phone reads them: what is not there reads as not known, never as a number.

export type Fields = Readonly<Record<string, unknown>>;

export function fields(value: unknown): Fields {
  return typeof value === "object" && value !== null ? (value as Fields) : {};
}

export const rows = (value: unknown): Fields[] => (Array.isArray(value) ? value.map(fields) : []);
export const text = (value: unknown): string => (typeof value === "string" ? value : "");
export const figure = (value: unknown): number | null =>
  typeof value === "number" && Number.isFinite(value) ? value : null;
export const texts = (value: unknown): string[] =>
  Array.isArray(value) ? value.filter((one): one is string => typeof one === "string") : [];

/** Only the numbers of an object. */
export function figures(value: unknown): Record<string, number> {
  return Object.fromEntries(
    Object.entries(fields(value)).flatMap(([name, n]) => (typeof n === "number" ? [[name, n]] : [])),
  );
}

export interface Told {
  readonly message: string;
  readonly remedy: string;
}

export const problems = (value: unknown): Told[] =>
  rows(value).map((row) => ({ message: text(row.message), remedy: text(row.remedy) }));
