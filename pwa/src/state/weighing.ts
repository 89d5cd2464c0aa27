import type { Bird } from "../book/bodies.generated.ts";
import type { Entry } from "../book/entries.ts";
import { record } from "./actions.ts";

/** One bird on the scales. lot: its batch, "" where that is not known. bird: where it is known by itself. */
export interface OnScales {
  readonly lot: string;
  readonly bird: string | null;
  readonly sex: Bird["sex"];
  readonly massG: number;
  readonly on: string;
}

/** A weight is an entry of its own: it is safe before the next bird is caught, and taken back alone. */
export function weighBird({ lot, bird, sex, massG, on }: OnScales): Promise<Entry> {
  return record("weighed", {
    ...(lot ? { lot } : {}),
    birds: [{ ...(bird ? { bird } : {}), mass_g: massG }],
    sex,
    on,
  });
}
