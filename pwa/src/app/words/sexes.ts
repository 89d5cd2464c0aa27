// What cocks and hens are called, by species and region.
import { plural } from "./everywhere.ts";
import { type Region, termsOf } from "./region.ts";

type Sex = "male" | "female" | "unknown";

interface SexTerms {
  readonly one: string;
  readonly many: string;
}

const OWN: Readonly<Record<string, Readonly<Record<"male" | "female", SexTerms>>>> = {
  duck: { male: { one: "drake", many: "drakes" }, female: { one: "duck", many: "ducks" } },
  muscovy: { male: { one: "drake", many: "drakes" }, female: { one: "duck", many: "ducks" } },
  goose: { male: { one: "gander", many: "ganders" }, female: { one: "goose", many: "geese" } },
  peafowl: { male: { one: "peacock", many: "peacocks" }, female: { one: "peahen", many: "peahens" } },
  swan: { male: { one: "cob", many: "cobs" }, female: { one: "pen", many: "pens" } },
};
const HEN = { one: "hen", many: "hens" };
const UNKNOWN = { one: "not sexed", many: "not sexed" };

function termsFor(sex: Sex, species: string, region: Region): SexTerms {
  if (sex === "unknown") return UNKNOWN;
  const own = OWN[species]?.[sex];
  if (own) return own;
  if (sex === "female") return HEN;
  if (species === "turkey") {
    return region === "us" ? { one: "tom", many: "toms" } : { one: "stag", many: "stags" };
  }
  const { cock } = termsOf(species === "chicken" || species === "" ? region : "uk");
  return { one: cock, many: `${cock}s` };
}

/** "cock", "drake", "not sexed". */
export const sexWord = (sex: Sex, species: string, region: Region): string =>
  termsFor(sex, species, region).one;

/** "cocks", "drakes". */
export const sexesWord = (sex: Sex, species: string, region: Region): string =>
  termsFor(sex, species, region).many;

/** "3 cocks", "2 not sexed". */
export const sexCount = (n: number, sex: Sex, species: string, region: Region): string => {
  const { one, many } = termsFor(sex, species, region);
  return plural(n, one, many);
};
