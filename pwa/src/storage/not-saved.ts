/**
 * Why a write did not reach this phone's storage.
 * slow: no answer within the watchdog's time; full: no room left; newer: the book was opened by a newer
 * app (this page must reload); blocked: an older app in another tab does not let go of the book; lost: the browser reported success but the row did not read back;
 * refused: anything else, for instance a private window that allows no writes.
 */
export type NotSavedCode = "slow" | "full" | "newer" | "blocked" | "lost" | "refused";

export class NotSaved extends Error {
  readonly code: NotSavedCode;

  constructor(code: NotSavedCode, cause?: unknown) {
    super(`not saved on this phone: ${code}`, { cause });
    this.name = "NotSaved";
    this.code = code;
  }
}

const CODES_BY_NAME: Readonly<Record<string, NotSavedCode>> = {
  QuotaExceededError: "full",
  VersionError: "newer",
};

/** The browser's fault in our terms. Aborts at commit arrive here too, so quota errors are found by name. */
export function notSaved(fault: unknown): NotSaved {
  if (fault instanceof NotSaved) return fault;
  const name = nameOf(fault);
  return new NotSaved(CODES_BY_NAME[name] ?? "refused", fault);
}

/** The name of a browser's fault; some aborted transactions reject with null. */
export function nameOf(fault: unknown): string {
  return typeof fault === "object" && fault !== null && "name" in fault ? String(fault.name) : "";
}

/** The work's own answer, or NotSaved "slow" when it takes longer: a write may hang rather than fail. */
export async function within<T>(limit_ms: number, work: Promise<T>): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const watchdog = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new NotSaved("slow")), limit_ms);
  });
  try {
    return await Promise.race([work, watchdog]);
  } finally {
    clearTimeout(timer);
  }
}
