/** What was read of birds that come and go, each with where: shown beside the rule that local law comes first. */
import table from "@tables/movements.json";
import type { Sourced } from "./storage.ts";

/** How long newcomers are kept apart: two sources, two figures. */
export const APART = table.apart as unknown as readonly (Sourced<number | readonly [number, number]> & {
  readonly unit: string;
})[];

/** For how many months lists of birds are kept, by country. */
export const KEPT = table.kept as unknown as readonly (Sourced<number> & { readonly unit: string })[];

const sentence = (cell: unknown) => cell as Sourced<string>;

export const SHEET = sentence(table.sheet);
export const SIGNS = sentence(table.signs);
export const STILL = sentence(table.still);
export const TURKEYS = sentence(table.turkeys);
export const IONOPHORES = sentence(table.ionophores);
export const CULLING = sentence(table.culling);
