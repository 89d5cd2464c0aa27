/** Figures as they were published: a number, a range, or several; never turned into one number. */

export type Ends = readonly [low: number, high: number];

export interface Figure {
  readonly value: number | readonly number[];
}

/** A figure, and how far it can be trusted. */
export interface Published extends Figure {
  readonly unit: string;
  readonly source: string;
  readonly status: string;
}

/** The ends of a figure that is a number or a range; [0, 0] where there is none. */
export function endsOf(figure: Figure | undefined): Ends {
  const value = figure?.value ?? 0;
  return typeof value === "number" ? [value, value] : [value[0] ?? 0, value.at(-1) ?? 0];
}

/** A figure as it stands in its source: "90 to 95", "92, 88, 74, 55". */
export function figureWords({ value }: Figure): string {
  if (typeof value === "number") return String(value);
  return value.length === 2 ? value.join(" to ") : value.join(", ");
}
