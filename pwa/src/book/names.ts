/** Families, places, settings and birds that entries name but nobody entered. */
import type { Book } from "./checks.ts";
import type { Kind } from "./kinds.ts";
import { type Problem, problem } from "./problems.ts";
import type { Head, Standing } from "./standing.ts";

type Unknown = "unknown_family" | "unknown_place" | "unknown_setting" | "unknown_bird";
type Named = readonly [code: Unknown, name: string | null | undefined];
type AnyHead = { [K in Kind]: Head<K> }[Kind];

type Places = Pick<Standing, "places">;

export function checkNames(book: Book & Places): Problem[] {
  const known = knownIn(book);
  const found: Problem[] = [];
  for (const heads of Object.values(book.heads)) {
    for (const head of heads) {
      for (const [code, name] of namesIn(head)) {
        const isNamed = name !== null && name !== undefined;
        if (isNamed && !known[code].has(book.refer(name))) found.push(problem(code, head.id));
      }
    }
  }
  return found;
}

/** True where everything an entry refers to is in the book. */
export function namesAreKnown(head: Head, standing: Standing): boolean {
  const known = knownIn(standing);
  return namesIn(head as AnyHead).every(
    ([code, name]) =>
      name === null || name === undefined || known[code].has(standing.rootOf.get(name) ?? name),
  );
}

function knownIn({ families, places, settings, heads }: Omit<Book, "refer"> & Places) {
  return {
    unknown_family: families,
    unknown_place: places,
    unknown_setting: settings,
    unknown_bird: new Set((heads.bird ?? []).map((head) => head.root)),
  };
}

/** What an entry refers to, each with the code of the Problem when it is not in the book. */
function namesIn({ kind, body }: AnyHead): readonly Named[] {
  switch (kind) {
    case "set":
      return [
        ["unknown_place", body.place],
        ...body.lots.map((lot): Named => ["unknown_family", lot.family]),
      ];
    case "looked":
    case "eggs_weighed":
      return [["unknown_setting", body.setting]];
    case "locked":
      return [
        ["unknown_setting", body.setting],
        ["unknown_place", body.place],
      ];
    case "gathered":
    case "eggs_out":
      return [["unknown_family", body.family]];
    case "penned":
      return [
        ["unknown_family", body.family],
        ...[...body.sires, ...body.dams].map((share): Named => ["unknown_bird", share.bird]),
      ];
    case "moved":
    case "air":
    case "turned":
    case "vented":
    case "watered":
    case "gauge_checked":
    case "brooder_check":
      return [["unknown_place", body.place]];
    case "left":
    case "marked":
    case "scored":
      return [["unknown_bird", body.bird]];
    case "same":
      return [
        ["unknown_bird", body.bird],
        ["unknown_bird", body.as],
      ];
    case "came":
      return [
        ["unknown_bird", body.bird],
        ["unknown_family", body.family],
      ];
    default:
      return [];
  }
}
