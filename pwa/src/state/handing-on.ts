import type { BookCopy } from "./copy.ts";

type Sharer = Partial<Pick<Navigator, "share" | "canShare">>;

/** Browsers hand on only files of kinds they know; text is one of them everywhere. */
const FORMS = [
  { ending: "", type: "application/jsonl" },
  { ending: ".txt", type: "text/plain" },
] as const;

function fileOf(copy: Pick<BookCopy, "name" | "text">, sharer: Sharer): File | null {
  for (const { ending, type } of FORMS) {
    const file = new File([copy.text], copy.name + ending, { type });
    if (sharer.share && sharer.canShare?.({ files: [file] })) return file;
  }
  return null;
}

/** Whether this phone can give a file to another app: mail, a messenger, its own files. */
export function canHandOn(sharer: Sharer = navigator): boolean {
  return fileOf({ name: "book.jsonl", text: "" }, sharer) !== null;
}

/** sent: the keeper chose where it goes; left: the keeper turned back; refused: the phone will not. */
export async function handOn(
  copy: Pick<BookCopy, "name" | "text">,
  sharer: Sharer = navigator,
): Promise<"sent" | "left" | "refused"> {
  const file = fileOf(copy, sharer);
  if (!file) return "refused";
  try {
    await sharer.share?.({ files: [file], title: copy.name });
    return "sent";
  } catch (fault) {
    return fault instanceof DOMException && fault.name === "AbortError" ? "left" : "refused";
  }
}
