import fc from "fast-check";
import type { Entry } from "../../../pwa/src/book/entries.ts";
import { fold } from "../../../pwa/src/book/fold.ts";
import { standingJson } from "../../../pwa/src/book/standing.ts";
import { canonical } from "../../../pwa/src/book/wire.ts";
import type { BookStorage, PlacedEntry, WaitingEntry } from "../../../pwa/src/storage/port.ts";
import { writer } from "../storage/entries-of.ts";
import { ModelServer, type ServerMutant, type Snapshot } from "./model-server.ts";
import { phone } from "./phone.ts";

/** How a phone may be wrong, to prove that the tests would notice. */
export type PhoneMutant = "trusts the answer to a push" | "cursor before rows" | "rows without cursor, half";

export interface Mutants {
  readonly server?: ServerMutant;
  readonly phone?: PhoneMutant;
}

/** What happens on the way of one round. `dies` counts the awaits after which the phone is killed; 0: it lives. */
interface Trouble {
  readonly lostRequest: number;
  readonly lostAnswer: number;
  readonly twice: number;
  readonly dies: number;
}

export type Step =
  | { readonly kind: "write"; readonly phone: number; readonly amends: number; readonly takes_back: boolean }
  | { readonly kind: "sync"; readonly phone: number; readonly trouble: Trouble }
  | { readonly kind: "copy" }
  | { readonly kind: "restore"; readonly new_epoch: boolean };

const PHONES = 3;

/** Which request of a round is hit; 0: none. */
const hit = fc.oneof(
  { weight: 4, arbitrary: fc.constant(0) },
  { weight: 1, arbitrary: fc.integer({ min: 1, max: 3 }) },
);
const phoneNumber = fc.nat(PHONES - 1);

export const steps: fc.Arbitrary<Step[]> = fc.array(
  fc.oneof(
    {
      weight: 8,
      arbitrary: fc.record({
        kind: fc.constant("write" as const),
        phone: phoneNumber,
        amends: fc.oneof(fc.constant(-1), fc.nat(20)),
        takes_back: fc.boolean(),
      }),
    },
    {
      weight: 10,
      arbitrary: fc.record({
        kind: fc.constant("sync" as const),
        phone: phoneNumber,
        trouble: fc.record({
          lostRequest: hit,
          lostAnswer: hit,
          twice: hit,
          dies: fc.oneof(
            { weight: 3, arbitrary: fc.constant(0) },
            { weight: 1, arbitrary: fc.integer({ min: 1, max: 9 }) },
          ),
        }),
      }),
    },
    { weight: 1, arbitrary: fc.constant({ kind: "copy" as const }) },
    { weight: 1, arbitrary: fc.record({ kind: fc.constant("restore" as const), new_epoch: fc.boolean() }) },
  ),
  { minLength: 5, maxLength: 60 },
);

class Killed extends Error {}

/** Plays a schedule, lets all phones sync in peace, and says what is wrong then; null: nothing was lost. */
export async function play(
  schedule: readonly Step[],
  open: (n: number) => BookStorage,
  mutants: Mutants = {},
): Promise<string | null> {
  const server = new ModelServer(mutants.server ?? null);
  const clocks = [0, 3_600_000, -400 * 86_400_000];
  const phones = Array.from({ length: PHONES }, (_, n) => {
    const storage = mutated(open(n), mutants.phone);
    return {
      ...phone(`phone-${n}`, n * 1000 + 1, storage),
      ...writer(`phone-${n}`, () => 1_772_000_000_000 + (clocks[n] ?? 0), n * 7919 + 1),
    };
  });
  const written = new Map<string, string>();
  let copy: Snapshot = server.snapshot();
  let epochs = 0;
  for (const step of schedule) {
    if (step.kind === "copy") copy = server.snapshot();
    else if (step.kind === "restore") server.restore(copy, step.new_epoch ? `epoch-${++epochs}` : null);
    else {
      const one = phones[step.phone];
      if (!one) continue;
      if (step.kind === "sync") await troubled(one, server, step.trouble);
      else {
        const entry = await nextEntry(one, step);
        await one.storage.append([entry]);
        written.set(entry.id, canonical(entry));
      }
    }
  }
  for (let round = 0; round < 8; round += 1) for (const one of phones) await one.sync(server.fetch);
  return verdict(server, phones, written);
}

type Phone = ReturnType<typeof phone>;

async function nextEntry(one: Phone, step: Extract<Step, { kind: "write" }>): Promise<Entry> {
  const held = await one.storage.all();
  const target = step.amends < 0 ? undefined : held[step.amends % Math.max(1, held.length)];
  return one.entry({
    body: { text: `note ${held.length}` },
    ...(target ? { amends: target.id, void: step.takes_back } : {}),
  });
}

/** One round on a bad line, in an app that may be killed after any await of its storage. */
async function troubled(one: Phone, server: ModelServer, trouble: Trouble): Promise<void> {
  let request = 0;
  const badLine: typeof fetch = async (input, init) => {
    request += 1;
    if (request === trouble.lostRequest) throw new TypeError("lost on the way there");
    if (request === trouble.twice) await server.fetch(input, init);
    const answer = await server.fetch(input, init);
    if (request === trouble.lostAnswer) throw new TypeError("lost on the way back");
    return answer;
  };
  const mortal = trouble.dies === 0 ? one.storage : dyingAfter(one.storage, trouble.dies);
  await phone("", 1, mortal)
    .sync(badLine)
    .catch((fault) => {
      if (!(fault instanceof Killed)) throw fault;
    });
}

/** After so many storage calls the app is gone: that call still happened or not, and none follows. */
function dyingAfter(storage: BookStorage, awaits: number): BookStorage {
  let left = awaits;
  return new Proxy(storage, {
    get(target, name) {
      const value = Reflect.get(target, name, target) as unknown;
      if (typeof value !== "function") return value;
      return async (...given: unknown[]) => {
        left -= 1;
        if (left < 0) throw new Killed();
        const result: unknown = await value.apply(target, given);
        if (left === 0) throw new Killed();
        return result;
      };
    },
  });
}

function mutated(storage: BookStorage, mutant: PhoneMutant | undefined): BookStorage {
  if (!mutant) return storage;
  const acknowledged = new Set<string>();
  const wrong: Partial<BookStorage> = {
    "trusts the answer to a push": {
      // What was offered once counts as delivered, although no pull has shown it.
      async waiting(): Promise<WaitingEntry[]> {
        const waiting = (await storage.waiting()).filter((one) => !acknowledged.has(one.id));
        for (const one of waiting) acknowledged.add(one.id);
        return waiting;
      },
    },
    "cursor before rows": {
      async applyPage(rows: readonly PlacedEntry[], cursor: string): Promise<void> {
        await storage.applyPage([], cursor);
        if (rows.length % 2 === 1) throw new Killed();
        await storage.applyPage(rows, cursor);
      },
    },
    "rows without cursor, half": {
      async applyPage(rows: readonly PlacedEntry[], cursor: string): Promise<void> {
        await storage.applyPage(rows.slice(1), cursor);
      },
    },
  }[mutant];
  return new Proxy(storage, {
    get(target, name) {
      const value = (Reflect.get(wrong, name) ?? Reflect.get(target, name, target)) as unknown;
      return typeof value === "function" ? value.bind(target) : value;
    },
  });
}

async function verdict(
  server: ModelServer,
  phones: readonly Phone[],
  written: ReadonlyMap<string, string>,
): Promise<string | null> {
  const held = server.texts();
  for (const [id, text] of written) {
    if (!held.has(id)) return `the server has lost ${id}`;
    if (held.get(id) !== text) return `the server holds another body of ${id}`;
  }
  const wanted = JSON.stringify(standingJson(fold(server.rows.map((row) => JSON.parse(row.text) as Entry))));
  for (const [n, one] of phones.entries()) {
    const rows = await one.storage.all();
    if (rows.length !== held.size) return `phone ${n} holds ${rows.length} of ${held.size}`;
    if (rows.some((row) => held.get(row.id) !== canonical(row.entry))) return `phone ${n} holds another body`;
    const places = new Map(server.rows.map((row) => [row.id, row.position]));
    if (rows.some((row) => places.get(row.id) !== row.position)) return `phone ${n} shows a wrong place`;
    if ((await one.storage.apart()).length > 0) return `phone ${n} saw a clash where there was none`;
    if (JSON.stringify(standingJson(fold(rows.map((row) => row.entry)))) !== wanted)
      return `phone ${n} adds up otherwise`;
  }
  return null;
}
