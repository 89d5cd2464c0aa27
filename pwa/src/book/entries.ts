/** Entries and the rules of their envelope; the body's meaning is judged later, by the fold. */
import { countCharacters, countUtf8Bytes } from "./code-points.ts";
import { momentMs } from "./moments.ts";
import { canonical, EnvelopeFault } from "./wire.ts";

/** One immutable line of the book. Fields of newer apps may stand beside these and pass through untouched. */
export interface Entry {
  readonly id: string;
  readonly v: number;
  readonly kind: string;
  readonly device: string;
  readonly at: string;
  readonly zone: string;
  readonly skew_ms: number | null;
  readonly amends: string | null;
  readonly void: boolean;
  readonly body: Readonly<Record<string, unknown>>;
}

export const LARGEST_ENTRY_BYTES = 8192;

const LONGEST_NAME = 100;
const UUID7 = /^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/;
const AT = /^[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}(\.[0-9]{1,9})?Z$/;

/** The entry as it stands, with everything a newer app wrote into it, or what is wrong with its envelope. */
export function parseEntry(value: unknown): Entry | EnvelopeFault {
  try {
    checkEnvelope(value);
    return value;
  } catch (fault) {
    if (fault instanceof EnvelopeFault) return fault;
    throw fault;
  }
}

/** How many bytes an entry takes in canonical form; at most LARGEST_ENTRY_BYTES can be stored. */
export function entryBytes(entry: Entry): number {
  return countUtf8Bytes(canonical(entry));
}

function checkEnvelope(value: unknown): asserts value is Entry {
  if (!isObject(value)) throw new EnvelopeFault("$", "An entry is a JSON object.");
  const entry = value;
  for (const field of ENVELOPE) {
    if (!Object.hasOwn(entry, field)) throw new EnvelopeFault(field, `The entry has no field '${field}'.`);
  }
  const bytes = countUtf8Bytes(canonical(entry));
  if (bytes > LARGEST_ENTRY_BYTES) {
    throw new EnvelopeFault("$", `The entry takes ${bytes} bytes; ${LARGEST_ENTRY_BYTES} are allowed.`);
  }
  for (const [field, fits, words] of RULES) {
    if (!fits(entry[field])) throw new EnvelopeFault(field, words);
  }
}

type Rule = readonly [field: keyof Entry, fits: (value: unknown) => boolean, words: string];

const RULES: readonly Rule[] = [
  ["id", isUuid7, "The id must be a UUIDv7 in lower case."],
  ["v", (value) => Number.isInteger(value) && Number(value) >= 1, "v must be a whole number, 1 or more."],
  ["kind", isName, `kind must be text of 1 to ${LONGEST_NAME} characters.`],
  ["device", isName, `device must be text of 1 to ${LONGEST_NAME} characters.`],
  ["zone", isName, `zone must be text of 1 to ${LONGEST_NAME} characters.`],
  ["at", isAt, "at must be a UTC time such as 2026-03-08T19:40:12.345Z."],
  [
    "skew_ms",
    (value) => value === null || Number.isInteger(value),
    "skew_ms must be a whole number of milliseconds, or null.",
  ],
  [
    "amends",
    (value) => value === null || isUuid7(value),
    "amends must be the id of an entry (a UUIDv7 in lower case), or null.",
  ],
  ["void", (value) => typeof value === "boolean", "void must be true or false."],
  ["body", isObject, "The body must be a JSON object."],
];
/** The fields an envelope has in this version. */
export const ENVELOPE = RULES.map(([field]) => field);

function isUuid7(value: unknown): boolean {
  return typeof value === "string" && UUID7.test(value);
}

function isName(value: unknown): boolean {
  if (typeof value !== "string") return false;
  const n = countCharacters(value);
  return n >= 1 && n <= LONGEST_NAME;
}

function isAt(value: unknown): boolean {
  return typeof value === "string" && AT.test(value) && momentMs(value) !== null;
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
