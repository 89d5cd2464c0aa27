// Written by `make types` from the models in server/broodline/book/; changes made here are lost.
/**
 * The body of each kind of entry.
 */
export interface Bodies {
  keeper: Keeper;
  place: Place;
  gauge_checked: GaugeChecked;
  family: Family;
  bird: Bird;
  came: Came;
  left: Left;
  same: Same;
  penned: Penned;
  gathered: Gathered;
  eggs_out: EggsOut;
  set: Set;
  looked: Looked;
  moved: Moved;
  counted: Counted;
  air: Air;
  eggs_weighed: EggsWeighed;
  turned: Turned;
  vented: Vented;
  watered: Watered;
  outage: Outage;
  locked: Locked;
  marked: Marked;
  brooder_check: BrooderCheck;
  weighed: Weighed;
  treated: Treated;
  order: Order;
  care: Care;
  scored: Scored;
  note: Note;
  photo: Photo;
}
/**
 * The holding and how its keeper wants to see things.
 */
export interface Keeper {
  holding: string;
  zone: string;
  altitude_m?: number | null;
  temperature: "C" | "F";
  mass: "g" | "oz";
  season_starts?: number | null;
  region?: string | null;
  words?: {
    [k: string]: string;
  } | null;
  mark_key?: {
    [k: string]: string;
  } | null;
  never_pair?: string[][] | null;
}
/**
 * An incubator, a hatcher, a brooder, a pen, a store, a hen, or a place apart.
 */
export interface Place {
  name: string;
  role: "incubator" | "hatcher" | "brooder" | "pen" | "store" | "hen" | "apart";
  air?: ("forced" | "still") | null;
  turns?: ("auto" | "hand") | null;
  capacity?: number | null;
  bird?: string | null;
  sensor?: string | null;
}
/**
 * A gauge held against a trusted one.
 */
export interface GaugeChecked {
  place: string;
  gauge: "dry" | "wet" | "humidity";
  reads: number;
  true_value: number;
  against?: string | null;
}
/**
 * A breeding group that is kept apart as a line.
 */
export interface Family {
  name: string;
  species: string;
  breed: string;
  variety?: string | null;
  shell?: ("white" | "tinted" | "brown" | "dark" | "blue" | "other") | null;
  sign?: string | null;
}
/**
 * A bird that is known by itself.
 */
export interface Bird {
  name?: string | null;
  sex: "male" | "female" | "unknown";
  family?: string | null;
  breed?: string | null;
  variety?: string | null;
  species?: string | null;
  hatched_on?: string | null;
  lots?: LotShare[] | null;
  tags?: Tag[] | null;
  webs?: ("LO" | "LI" | "RI" | "RO")[] | null;
  sires?: BirdShare[] | null;
  dams?: BirdShare[] | null;
  founder?: boolean | null;
  origin?: Origin | null;
  carries?: string[] | null;
}
/**
 * A lot a bird may have come from, with its chance.
 */
export interface LotShare {
  lot: string;
  share?: number | null;
}
/**
 * A ring, wing tag, web tag or chip.
 */
export interface Tag {
  kind: "ring" | "wing" | "web" | "chip";
  colour?: string | null;
  leg?: ("left" | "right") | null;
  text?: string | null;
}
/**
 * A bird and its share among several, 0 to 1; without a share all count alike.
 */
export interface BirdShare {
  bird: string;
  share?: number | null;
}
/**
 * Where a bird from elsewhere came from.
 */
export interface Origin {
  holding: string;
  keeper?: string | null;
}
/**
 * A bird, or chicks as a lot, that came to the holding.
 */
export interface Came {
  bird?: string | null;
  lot?: string | null;
  n?: number | null;
  stage?: ("brooding" | "growing") | null;
  family?: string | null;
  hatched_on?: string | null;
  on: string;
  how: "bought" | "given" | "lent" | "returned" | "found";
  from?: string | null;
  apart_until?: string | null;
}
/**
 * A bird that left the book.
 */
export interface Left {
  bird: string;
  on: string;
  how: "died" | "culled" | "sold" | "given" | "lent" | "lost";
  cause?: string | null;
  to?: string | null;
}
/**
 * Two ids, one bird.
 */
export interface Same {
  bird: string;
  as: string;
}
/**
 * Who stood in a family's pen, from when to when.
 */
export interface Penned {
  family: string;
  place?: string | null;
  since: string;
  until?: string | null;
  sires: BirdShare[];
  dams: BirdShare[];
}
/**
 * Eggs of one family gathered on a day, and how many of them were kept for setting.
 */
export interface Gathered {
  family: string;
  on: string;
  n: number;
  kept: number;
  dam?: string | null;
  store?: string | null;
}
/**
 * Eggs that leave the store unset.
 */
export interface EggsOut {
  family: string;
  on: string;
  n: number;
  how: "sold" | "given" | "eaten" | "discarded";
  to?: string | null;
}
/**
 * Eggs put into one incubator at one time. plan: the note in which they were planned.
 */
export interface Set {
  place: string;
  species: string;
  set_at: string;
  lots: SetLot[];
  lockdown_day?: number | null;
  note?: string | null;
  plan?: string | null;
}
/**
 * So many eggs of one family in one setting.
 */
export interface SetLot {
  lot: string;
  family: string;
  n: number;
  laid_from?: string | null;
  laid_to?: string | null;
  dams?: BirdShare[] | null;
  one_hen?: boolean | null;
  from?: EggsFrom | null;
  sign?: string | null;
}
/**
 * Where bought-in eggs came from.
 */
export interface EggsFrom {
  who: string;
  posted?: boolean | null;
  arrived?: string | null;
}
/**
 * What was seen of a lot; nothing moved.
 */
export interface Looked {
  setting: string;
  lot: string;
  what: "candled" | "hatch";
  day?: number | null;
  live?: number | null;
  unsure?: number | null;
  pipped?: number | null;
  none?: boolean | null;
}
/**
 * Moves done together.
 */
export interface Moved {
  moves: LotMove[];
  why?: ("candled" | "lockdown" | "hatch" | "opened" | "pulled" | "brooded" | "lost" | "left") | null;
  day?: number | null;
  cause?: string | null;
  place?: string | null;
  helped?: boolean | null;
  weak?: boolean | null;
  who?: string | null;
  settles?: string | null;
}
/**
 * n eggs or chicks of a lot, or among several lots, from one stage to another.
 */
export interface LotMove {
  lot?: string | null;
  among?: string[] | null;
  from: string;
  to: string;
  n: number;
}
/**
 * A physical count, and the figure the phone showed at that moment.
 */
export interface Counted {
  lot: string;
  stage: string;
  n: number;
  ledger: number;
}
/**
 * A reading of the air at a place, degrees Celsius and percent.
 */
export interface Air {
  place: string;
  dry_c: number;
  wet_c?: number | null;
  humidity_pct?: number | null;
  by?: ("hand" | "sensor") | null;
}
/**
 * A tray of eggs on the scales, grams.
 */
export interface EggsWeighed {
  setting: string;
  lot?: string | null;
  n: number;
  gross_g: number;
  tare_g: number;
}
/**
 * Eggs turned, with the side that is now up.
 */
export interface Turned {
  place: string;
  side?: ("x" | "o") | null;
}
/**
 * Vents opened or changed.
 */
export interface Vented {
  place: string;
  side?: ("x" | "o") | null;
}
/**
 * Water filled.
 */
export interface Watered {
  place: string;
  side?: ("x" | "o") | null;
}
/**
 * Power away at some places, or everywhere.
 */
export interface Outage {
  places?: string[] | null;
  from: string;
  until?: string | null;
}
/**
 * Lockdown done: turning stopped, eggs in the hatcher.
 */
export interface Locked {
  setting: string;
  place?: string | null;
}
/**
 * Chicks of a lot, or a bird, marked; webs are the bird's own, seen from behind.
 */
export interface Marked {
  lot?: string | null;
  bird?: string | null;
  webs?: ("LO" | "LI" | "RI" | "RO")[] | null;
  tag?: Tag | null;
  n?: number | null;
  on?: string | null;
  replaces?: string | null;
  recheck?: boolean | null;
}
/**
 * A round at the brooder.
 */
export interface BrooderCheck {
  place: string;
  heat_c?: number | null;
  look?: ("spread" | "huddled" | "away" | "one_side") | null;
  water?: boolean | null;
  feed?: boolean | null;
  litter?: boolean | null;
}
/**
 * Birds weighed on one day; at most 100 in an entry.
 */
export interface Weighed {
  lot?: string | null;
  birds?: BirdWeight[] | null;
  sex?: ("male" | "female" | "unknown") | null;
  on: string;
}
/**
 * One bird on the scales, grams.
 */
export interface BirdWeight {
  bird?: string | null;
  mass_g: number;
}
/**
 * A treatment; the withdrawal days are typed from the label or the vet, never computed.
 */
export interface Treated {
  bird?: string | null;
  lot?: string | null;
  place?: string | null;
  product: string;
  batch?: string | null;
  reason?: string | null;
  by?: string | null;
  from: string;
  until?: string | null;
  no_eggs_until?: string | null;
  no_meat_until?: string | null;
}
/**
 * An authority's housing or movement order.
 */
export interface Order {
  text: string;
  kind: "housing" | "movement";
  since: string;
  until?: string | null;
}
/**
 * A task from the agenda, done.
 */
export interface Care {
  place?: string | null;
  task: string;
  on: string;
}
/**
 * A bird judged by traits.
 */
export interface Scored {
  bird: string;
  on: string;
  scores: {
    [k: string]: number;
  };
}
/**
 * Free words, about something or about the day; with a plan, a setting to come.
 */
export interface Note {
  about?: string | null;
  text: string;
  plan?: Plan | null;
}
/**
 * Eggs of a species to be set on a day, in a place if that is decided.
 */
export interface Plan {
  species: string;
  set_on: string;
  place?: string | null;
}
/**
 * A picture, named by its SHA-256; the picture itself travels apart.
 */
export interface Photo {
  about?: string | null;
  sha256: string;
  type: string;
  width: number;
  height: number;
}
