// What the marking page is made of: who is to be marked, who wears what, and what would be taken for what.
import { listed } from "../app/words/everywhere.ts";
import { birdId, birdsOf, type OneBird } from "../book/birds.ts";
import { placeOfChicks } from "../book/chores-marks.ts";
import { living, unmarked } from "../book/marks.ts";
import { besideBird, besideLot, type Worn, wornNow } from "../book/marks-in-use.ts";
import { type Mark, marksOfLots } from "../book/marks-of-lots.ts";
import type { Lot, Standing } from "../book/standing.ts";
import { type Pattern, patternKey } from "../trade/marks.ts";
import { familyName, unknownFamily } from "./names.ts";

type Tag = NonNullable<Mark["tag"]>;

/**
 * Whose marks they are: the chicks of a batch (lot), or one bird. named: the family's name, or what the bird is known
 * by. worn: all marks of living birds. beside: those of other batches and birds that could be taken for one of these.
 */
export interface MarkView {
  readonly standing: Standing;
  readonly lot: Lot | null;
  readonly bird: OneBird | null;
  readonly family: string | null;
  readonly named: string;
  readonly species: string;
  readonly alive: number;
  readonly toMark: number;
  readonly place: string;
  readonly marks: readonly Mark[];
  readonly worn: readonly Worn[];
  readonly beside: readonly Worn[];
}

/** Of a batch or a bird; null where it is not known, or gone. */
export function markView(standing: Standing, id: string): MarkView | null {
  return viewOfLot(standing, id) ?? viewOfBird(standing, id);
}

function viewOfBird(standing: Standing, id: string): MarkView | null {
  const bird = birdsOf(standing, null).get(birdId(standing, id));
  if (bird === undefined || bird.where === "gone") return null;
  const worn = wornNow(standing);
  const family = bird.body.family ? (standing.rootOf.get(bird.body.family) ?? bird.body.family) : null;
  return {
    standing,
    lot: null,
    bird,
    family,
    named: bird.label,
    species: bird.body.species ?? standing.families.get(family ?? "")?.species ?? "chicken",
    alive: 1,
    toMark: worn.some((one) => one.bird === bird.id) ? 0 : 1,
    place: "",
    marks: [],
    worn,
    beside: besideBird(worn, standing, bird),
  };
}

function viewOfLot(standing: Standing, id: string): MarkView | null {
  const lot = standing.lots.get(id);
  if (lot === undefined || living(lot) === 0) return null;
  const marks = marksOfLots(standing.heads).get(id) ?? [];
  const worn = wornNow(standing);
  const setting = lot.setting === null ? undefined : standing.settings.get(lot.setting);
  return {
    standing,
    lot,
    bird: null,
    family: lot.family,
    named: familyName(standing, lot.family),
    species: setting?.species ?? standing.families.get(lot.family ?? "")?.species ?? "chicken",
    alive: living(lot),
    toMark: Math.max(0, unmarked(lot, standing.heads)),
    place: placeOfChicks(standing, lot),
    marks,
    worn,
    beside: besideLot(worn, standing, lot),
  };
}

/** The batches of the same hatch that have chicks, this one among them. */
export function hatchOf(standing: Standing, lot: Lot): readonly Lot[] {
  const names = lot.setting === null ? [lot.id] : (standing.settings.get(lot.setting)?.lots ?? [lot.id]);
  return names.flatMap((name) => standing.lots.get(name) ?? []).filter((one) => living(one) > 0);
}

/** "Rowan and Hazel": the families of those who wear something, each once. */
export function whoseWords(standing: Standing, worn: readonly Worn[]): string {
  const names = worn.map((one) => (one.family ? familyName(standing, one.family) : unknownFamily(standing)));
  return listed([...new Set(names)].sort());
}

/** Those of another batch that wear this pattern. A family's own earlier hatch may wear it too. */
export function wearersOf(worn: readonly Worn[], pattern: Pattern): readonly Worn[] {
  return worn.filter((one) => patternKey(one.webs) === patternKey(pattern));
}

/** Those of another family that wear this ring or tag, read without its number. */
export function sameTag(worn: readonly Worn[], tag: Tag, family: string | null): readonly Worn[] {
  return worn.filter((one) => one.family !== family && one.tag !== null && lookOf(one.tag) === lookOf(tag));
}

/** The number on a tag is another's today. */
export function sameNumber(worn: readonly Worn[], tag: Tag): readonly Worn[] {
  const text = tag.text?.trim().toLowerCase();
  return text
    ? worn.filter((one) => one.tag?.text?.trim().toLowerCase() === text && one.tag.kind === tag.kind)
    : [];
}

/** Colours and legs of rings without numbers that other families wear. */
export function ringsWorn(worn: readonly Worn[]): readonly (readonly [string, string])[] {
  return worn.flatMap(({ tag }) =>
    tag?.kind === "ring" && tag.colour && tag.leg ? [[tag.colour.toLowerCase(), tag.leg] as const] : [],
  );
}

/** Batches of other families in the same place: those that wear just this, and those that wear nothing. */
export function sharers(
  view: MarkView,
  webs: Pattern,
  tag: Tag | null,
): { readonly same: readonly string[]; readonly bare: readonly string[] } {
  const { standing, lot, place, worn } = view;
  if (lot === null) return { same: [], bare: [] };
  const others = [...standing.lots.values()].filter(
    (one) =>
      one.id !== lot.id &&
      one.family !== lot.family &&
      living(one) > 0 &&
      placeOfChicks(standing, one) === place,
  );
  const wears = (one: Lot) => worn.filter((mark) => mark.lot === one.id);
  const isSame = (mark: Worn) =>
    patternKey(mark.webs) === patternKey(webs) &&
    (mark.tag === null ? "" : lookOf(mark.tag)) === (tag === null ? "" : lookOf(tag));
  const name = (one: Lot) => familyName(standing, one.family);
  return {
    same: others.filter((one) => wears(one).some(isSame)).map(name),
    bare: others.filter((one) => wears(one).length === 0).map(name),
  };
}

function lookOf({ kind, colour, leg, text }: Tag): string {
  return JSON.stringify([
    kind,
    colour?.toLowerCase() ?? null,
    leg ?? null,
    text?.trim().toLowerCase() || null,
  ]);
}
