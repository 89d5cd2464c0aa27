import { speciesTerms } from "../app/words/species.ts";
import { speciesNamed } from "../trade/species.ts";

/** What eggs of a species are called, also where the tables do not know it. */
export const speciesName = (code: string): string => speciesNamed(code)?.name ?? speciesTerms(code).name;
