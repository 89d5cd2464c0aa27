// Words that differ by region. The codes in the book never change; only these do.
import { capital } from "./capital.ts";

export type Region = "uk" | "us" | "au" | "elsewhere";

export const REGIONS: readonly { readonly value: Region; readonly text: string }[] = [
  { value: "uk", text: "Britain and Ireland" },
  { value: "us", text: "United States" },
  { value: "au", text: "Australia and New Zealand" },
  { value: "elsewhere", text: "Elsewhere" },
];

/** The region a keeper chose; anything unknown reads as "elsewhere". */
export function regionOf(code: string | null | undefined): Region {
  return REGIONS.find((region) => region.value === code)?.value ?? "elsewhere";
}

interface RegionTerms {
  readonly ring: string;
  readonly drinker: string;
  readonly starter: string;
  readonly cock: string;
  readonly quitter: string;
  readonly quitters: string;
}

const TERMS: Record<Region, RegionTerms> = {
  uk: {
    ring: "ring",
    drinker: "drinker",
    starter: "chick crumb",
    cock: "cock",
    quitter: "dead in shell",
    quitters: "dead in shell",
  },
  us: {
    ring: "band",
    drinker: "waterer",
    starter: "starter",
    cock: "rooster",
    quitter: "quitter",
    quitters: "quitters",
  },
  au: {
    ring: "ring",
    drinker: "drinker",
    starter: "starter",
    cock: "rooster",
    quitter: "quitter",
    quitters: "quitters",
  },
  elsewhere: {
    ring: "ring",
    drinker: "drinker",
    starter: "starter",
    cock: "cock",
    quitter: "quitter",
    quitters: "quitters",
  },
};

export const termsOf = (region: Region): RegionTerms => TERMS[region];

/** A sentence of the tables, written with ring and drinker, in the words of a region. */
export function inRegion(text: string, region: Region): string {
  const { ring, drinker } = termsOf(region);
  return text
    .replace(/\b([Dd])rinker/g, (_, first: string) => (first === "D" ? capital(drinker) : drinker))
    .replace(/\b([Rr])ing(?=s?\b)/g, (_, first: string) => (first === "R" ? capital(ring) : ring));
}
