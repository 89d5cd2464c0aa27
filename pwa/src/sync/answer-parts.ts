// The parts of a server's answer, read strictly: each gives what it should be, or throws.

/** Something answered that is not our server. */
export class NotOurs extends Error {}

export function object(value: unknown): Record<string, unknown> {
  if (typeof value !== "object" || value === null || Array.isArray(value)) throw new NotOurs();
  return value as Record<string, unknown>;
}

export function list(value: unknown): unknown[] {
  if (!Array.isArray(value)) throw new NotOurs();
  return value;
}

export function text(value: unknown): string {
  if (typeof value !== "string" || value === "") throw new NotOurs();
  return value;
}

export function whole(value: unknown): number {
  if (typeof value !== "number" || !Number.isSafeInteger(value)) throw new NotOurs();
  return value;
}

export function oneOf<T extends string>(value: unknown, allowed: readonly T[]): T {
  const found = allowed.find((word) => word === value);
  if (found === undefined) throw new NotOurs();
  return found;
}

/** A time as milliseconds since 1970. */
export function moment(value: unknown): number {
  const at_ms = Date.parse(text(value));
  if (!Number.isFinite(at_ms)) throw new NotOurs();
  return at_ms;
}

export function orNull<T>(value: unknown, read: (value: unknown) => T): T | null {
  return value === null ? null : read(value);
}
