// Papers and files that the server makes, one at a time asked for from a screen.
import { fetchFile } from "../sync/files.ts";
import type { Told } from "./told.ts";

/** What came, in the words a screen shows where it did not. */
export async function takeFile(
  path: string,
  fetch_: typeof fetch = fetch,
): Promise<Told<{ readonly file: Blob; readonly name: string }>> {
  const answer = await fetchFile(path, fetch_);
  if (answer.kind === "ok") return { kind: "ok", value: answer };
  if (answer.kind === "unreachable") return { kind: "away" };
  return { kind: "refused", words: `${answer.refusal.message} ${answer.refusal.remedy}` };
}
