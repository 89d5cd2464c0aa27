/**
 * Bodies read strictly, as the server's models read them: no text becomes a number, true is no number, fields this
 * version does not know and nulls of optional fields are left out. The rules are the models' own JSON schema.
 */
import type { Bodies } from "./bodies.generated.ts";
import schema from "./bodies.schema.json";
import { byAscii, countCharacters } from "./code-points.ts";
import type { Kind } from "./kinds.ts";
import { dayNumber, momentMs } from "./moments.ts";

/**
 * A body that fits its kind, or the alphabetically first field at its top that does not ("" where it is the whole).
 * more: it also holds fields this version does not know, at any depth.
 */
export type BodyReading<K extends Kind> =
  | { readonly body: Bodies[K]; readonly more: boolean }
  | { readonly misfit: string };

export function readBody<K extends Kind>(kind: K, body: Readonly<Record<string, unknown>>): BodyReading<K> {
  const seen: Seen = { more: false };
  const found = READERS[kind](body, seen);
  // The reader of a kind is made from the model its type was generated from.
  return found instanceof Misfit ? { misfit: found.field } : { body: found as Bodies[K], more: seen.more };
}

/** The part of JSON schema that the models use; any other word is refused, so that no rule is passed over. */
interface Schema {
  readonly type?: string;
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly required?: readonly string[];
  readonly needsOneOf?: readonly string[];
  readonly additionalProperties?: Schema;
  readonly items?: Schema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly $ref?: string;
  readonly enum?: readonly string[];
  readonly const?: string;
  readonly minLength?: number;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly exclusiveMinimum?: number;
  readonly maximum?: number;
}

/** What a reading met on its way. */
interface Seen {
  more: boolean;
}

/** Gives the value as it is kept, or the Misfit. */
type Reader = (value: unknown, seen: Seen) => unknown;
type Check<T> = (value: T) => boolean;

class Misfit {
  readonly field: string;
  constructor(field = "") {
    this.field = field;
  }
}
const MISFIT = new Misfit();

const DEFS: Readonly<Record<string, Schema>> = schema.$defs;
const WORDS: Readonly<Record<string, readonly string[]>> = {
  string: ["enum", "const", "minLength", "pattern", "format"],
  integer: ["minimum", "exclusiveMinimum", "maximum"],
  number: ["minimum", "exclusiveMinimum", "maximum"],
  boolean: [],
  array: ["items", "minItems", "maxItems"],
  object: ["properties", "required", "needsOneOf", "additionalProperties"],
};
const FORMATS: Readonly<Record<string, Check<string>>> = {
  day: (text) => dayNumber(text) !== null,
  moment: (text) => momentMs(text) !== null,
  "day-or-moment": (text) => dayNumber(text) !== null || momentMs(text) !== null,
};

function readerOf(rule: Schema): Reader {
  if (rule.$ref !== undefined) return readerOf(named(rule.$ref));
  const words = WORDS[rule.type ?? ""];
  const strange = Object.keys(rule).find((word) => word !== "type" && !words?.includes(word));
  if (words === undefined || strange !== undefined) throw new Error(`No such rule: ${strange ?? rule.type}`);
  switch (rule.type) {
    case "string":
      return keptIf((value) => typeof value === "string", textChecks(rule));
    case "integer":
      return keptIf((value) => Number.isInteger(value), numberChecks(rule));
    case "number":
      return keptIf((value) => Number.isFinite(value), numberChecks(rule));
    case "array":
      return listReader(rule);
    case "object":
      return rule.additionalProperties ? dictionaryReader(rule.additionalProperties) : fieldsReader(rule);
    default:
      return keptIf((value) => typeof value === "boolean", []);
  }
}

function named(ref: string): Schema {
  const found = DEFS[ref.slice("#/$defs/".length)];
  if (found === undefined) throw new Error(`No such model: ${ref}`);
  return found;
}

function keptIf<T>(isSort: (value: unknown) => boolean, checks: readonly Check<T>[]): Reader {
  return (value) => (isSort(value) && checks.every((fits) => fits(value as T)) ? value : MISFIT);
}

function textChecks(rule: Schema): Check<string>[] {
  const { enum: choices, const: only, minLength, pattern, format } = rule;
  const checks: Check<string>[] = [];
  if (choices !== undefined) checks.push((text) => choices.includes(text));
  if (only !== undefined) checks.push((text) => text === only);
  if (minLength !== undefined) checks.push((text) => countCharacters(text) >= minLength);
  if (pattern !== undefined) {
    const form = new RegExp(pattern, "u");
    checks.push((text) => form.test(text));
  }
  if (format !== undefined) {
    const fits = FORMATS[format];
    if (fits === undefined) throw new Error(`No such format: ${format}`);
    checks.push(fits);
  }
  return checks;
}

function numberChecks(rule: Schema): Check<number>[] {
  const { minimum, exclusiveMinimum, maximum } = rule;
  const checks: Check<number>[] = [];
  if (minimum !== undefined) checks.push((n) => n >= minimum);
  if (exclusiveMinimum !== undefined) checks.push((n) => n > exclusiveMinimum);
  if (maximum !== undefined) checks.push((n) => n <= maximum);
  return checks;
}

function listReader({ items = {}, minItems = 0, maxItems = Number.POSITIVE_INFINITY }: Schema): Reader {
  const read = readerOf(items);
  return (value, seen) => {
    if (!Array.isArray(value) || value.length < minItems || value.length > maxItems) return MISFIT;
    const kept = value.map((part) => read(part, seen));
    return kept.some((part) => part instanceof Misfit) ? MISFIT : kept;
  };
}

function dictionaryReader(rule: Schema): Reader {
  const read = readerOf(rule);
  return (value, seen) => {
    if (!isObject(value)) return MISFIT;
    const kept = Object.entries(value).map(([key, part]) => [key, read(part, seen)] as const);
    // fromEntries makes even "__proto__" an ordinary key.
    return kept.some(([, part]) => part instanceof Misfit) ? MISFIT : Object.fromEntries(kept);
  };
}

function fieldsReader({ properties = {}, required = [], needsOneOf }: Schema): Reader {
  const readers = new Map(Object.entries(properties).map(([name, rule]) => [name, readerOf(rule)]));
  return (value, seen) => {
    if (!isObject(value)) return MISFIT;
    const kept: Record<string, unknown> = {};
    const misfits = required.filter((name) => !Object.hasOwn(value, name));
    for (const name of Object.keys(value)) {
      const read = readers.get(name);
      const isOpen = value[name] === null && !required.includes(name);
      if (read === undefined) seen.more = true;
      if (read === undefined || isOpen) continue;
      const part = read(value[name], seen);
      if (part instanceof Misfit) misfits.push(name);
      else kept[name] = part;
    }
    if (misfits.length > 0) return new Misfit(misfits.sort(byAscii)[0]);
    return needsOneOf?.every((name) => kept[name] === undefined) ? MISFIT : kept;
  };
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

const READERS = Object.fromEntries(
  Object.entries(schema.kinds).map(([kind, model]) => [kind, readerOf(model)]),
) as Readonly<Record<Kind, Reader>>;
