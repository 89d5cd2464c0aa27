/** Every kind of entry this version reads. The bodies are generated from the server's models. */
import type { Bodies } from "./bodies.generated.ts";
import schema from "./bodies.schema.json";

export const VERSION = 1;

export type Kind = keyof Bodies;

export function isKind(name: string): name is Kind {
  return Object.hasOwn(schema.kinds, name);
}
