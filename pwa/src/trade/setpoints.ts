/** The wet bulb of the setter as chosen among the published tables, for telling whether two species want one air. */
import table from "@tables/setpoints.json";

interface Row {
  readonly setter_wet?: readonly { readonly value: number | readonly [low: number, high: number] }[];
}

const ROWS = new Map(Object.entries(table.species as unknown as Readonly<Record<string, Row>>));

/** °F, low and high; undefined for a species the tables do not know. */
export function setterWetF(species: string): readonly [low: number, high: number] | undefined {
  const chosen = ROWS.get(species)?.setter_wet?.[0]?.value;
  if (chosen === undefined) return undefined;
  return typeof chosen === "number" ? [chosen, chosen] : chosen;
}
