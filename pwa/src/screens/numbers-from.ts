// Numbers in a row from one that was typed: "A098" gives A098, A099, A100.

/** n texts. Where the first ends in no digit all are the same; a number keeps its leading zeros. */
export function numbersFrom(first: string, n: number): string[] {
  const text = first.trim();
  const [, head = "", digits = ""] = text.match(/^(.*?)(\d{1,9})$/) ?? [];
  return Array.from({ length: n }, (_, i) =>
    digits === "" ? text : `${head}${String(Number(digits) + i).padStart(digits.length, "0")}`,
  );
}
