import type { Refusal } from "../storage/port.ts";
import { NotOurs } from "./answer-parts.ts";
import { parseRefusal } from "./answers.ts";

/** A server that says nothing for so long counts as not reached. */
export const ANSWER_LIMIT_MS = 10_000;

/**
 * What came of one request.
 * refused: our server said no, in words; unreachable: nothing came, or not in time;
 * not_ours: something answered that is not our server, for instance a hotspot's sign-in page with status 200.
 */
export type Answer<T> =
  | { readonly kind: "ok"; readonly value: T; readonly sent_ms: number; readonly got_ms: number }
  | {
      readonly kind: "refused";
      readonly status: number;
      readonly refusal: Refusal;
      readonly retry_after_ms: number | null;
    }
  | { readonly kind: "unreachable"; readonly slow: boolean }
  | { readonly kind: "not_ours" };

export interface Request<T> {
  readonly method: "GET" | "POST" | "PUT" | "DELETE";
  readonly path: string;
  /** JSON text of a POST, or a picture under its own type. */
  readonly body?: string | Blob;
  /** How long to wait, where what is sent is longer than usual. */
  readonly limit_ms?: number;
  /** The holding it is meant for; a server that knows this browser as another one's refuses it. */
  readonly holding?: string;
  readonly parse: (value: unknown) => T;
}

export type Ask = <T>(request: Request<T>) => Promise<Answer<T>>;

/** The app's only way to the network. `navigator.onLine` is not asked: it stays true with a dead server. */
export function serverAt(fetch_: typeof fetch, now_ms: () => number, limit_ms = ANSWER_LIMIT_MS): Ask {
  return async <T>(request: Request<T>): Promise<Answer<T>> => {
    const sent_ms = now_ms();
    const signal = AbortSignal.timeout(request.limit_ms ?? limit_ms);
    try {
      const response = await fetch_(request.path, {
        method: request.method,
        signal,
        cache: "no-store",
        credentials: "same-origin",
        redirect: "error",
        ...(request.body === undefined ? {} : { body: request.body }),
        headers: {
          ...(typeof request.body === "string" ? { "Content-Type": "application/json" } : {}),
          ...(request.holding === undefined ? {} : { "Broodline-Holding": request.holding }),
        },
      });
      return await read(request, response, sent_ms, now_ms);
    } catch (fault) {
      if (fault instanceof NotOurs || fault instanceof SyntaxError) return { kind: "not_ours" };
      return { kind: "unreachable", slow: signal.aborted };
    }
  };
}

async function read<T>(
  request: Request<T>,
  response: Response,
  sent_ms: number,
  now_ms: () => number,
): Promise<Answer<T>> {
  if (!/^application\/json\b/.test(response.headers.get("Content-Type") ?? "")) throw new NotOurs();
  const value: unknown = JSON.parse(await response.text());
  if (response.status === 200) {
    return { kind: "ok", value: request.parse(value), sent_ms, got_ms: now_ms() };
  }
  const seconds = Number.parseInt(response.headers.get("Retry-After") ?? "", 10);
  return {
    kind: "refused",
    status: response.status,
    refusal: parseRefusal(value),
    retry_after_ms: Number.isFinite(seconds) ? seconds * 1000 : null,
  };
}
