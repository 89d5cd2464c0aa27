// How fast-check searches: the same each time, or with SEARCH set by chance and ten times as far. A failure prints its
// seed.
import { configureGlobal } from "fast-check";

configureGlobal(process.env.SEARCH ? { numRuns: 1000 } : { seed: 2026 });
