// A file that the server makes: fetched whole, so that a screen can say how long it takes and whether it came.
import type { Refusal } from "../storage/port.ts";
import { parseRefusal } from "./answers.ts";

/** refused: the server's words; unreachable: nothing came, or something that is not our server answered. */
export type FileAnswer =
  | { readonly kind: "ok"; readonly file: Blob; readonly name: string }
  | { readonly kind: "refused"; readonly refusal: Refusal }
  | { readonly kind: "unreachable" };

/** A paper of a long book takes its time; a server that says nothing for so long is given up. */
const LIMIT_MS = 180_000;

export async function fetchFile(path: string, fetch_: typeof fetch): Promise<FileAnswer> {
  try {
    const response = await fetch_(path, {
      signal: AbortSignal.timeout(LIMIT_MS),
      cache: "no-store",
      credentials: "same-origin",
      redirect: "error",
    });
    if (!response.ok) return { kind: "refused", refusal: parseRefusal(JSON.parse(await response.text())) };
    const name = /filename="([^"]+)"/.exec(response.headers.get("Content-Disposition") ?? "")?.[1];
    // A hotspot's sign-in page comes with 200 and no name of ours.
    return name ? { kind: "ok", file: await response.blob(), name } : { kind: "unreachable" };
  } catch {
    return { kind: "unreachable" };
  }
}
