/**
 * The phone's book on standard input and output, for comparing it with the server's: one JSON question a line, one
 * line of canonical text in answer. tests/server/book/test_mirror.py asks.
 */
import { createInterface } from "node:readline";
import { due } from "../../../pwa/src/book/agenda.ts";
import { readBody } from "../../../pwa/src/book/body-check.ts";
import { parseEntry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { isKind } from "../../../pwa/src/book/kinds.ts";
import { momentMs } from "../../../pwa/src/book/moments.ts";
import { standingJson } from "../../../pwa/src/book/standing.ts";
import { canonical, EnvelopeFault } from "../../../pwa/src/book/wire.ts";
import { entriesOf } from "./entries-of.ts";

type Question =
  | { ask: "fold"; entries: unknown[] }
  | { ask: "due"; entries: unknown[]; moments: string[] }
  | { ask: "envelope" | "canonical"; value: unknown }
  | { ask: "body"; kind: string; body: Record<string, unknown> }
  | { ask: "moment"; text: string };

function answer(question: Question): unknown {
  switch (question.ask) {
    case "fold":
      return standingJson(fold(entriesOf(question.entries)));
    case "due": {
      const standing = fold(entriesOf(question.entries));
      return question.moments.map((now) => due(standing, new Date(now)));
    }
    case "envelope": {
      const found = parseEntry(question.value);
      return found instanceof EnvelopeFault ? "refused" : found;
    }
    case "canonical":
      return question.value;
    case "body":
      return isKind(question.kind) ? readBody(question.kind, question.body) : null;
    case "moment":
      return momentMs(question.text);
  }
}

function line(text: string): string {
  try {
    return canonical(answer(JSON.parse(text)));
  } catch (fault) {
    return fault instanceof EnvelopeFault ? '"refused"' : `thrown: ${String(fault)}`;
  }
}

for await (const text of createInterface({ input: process.stdin })) {
  process.stdout.write(`${line(text)}\n`);
}
