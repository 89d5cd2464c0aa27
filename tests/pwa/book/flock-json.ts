import { birdsOf } from "../../../pwa/src/book/birds.ts";
import { allProblems } from "../../../pwa/src/book/flock-checks.ts";
import type { Standing } from "../../../pwa/src/book/standing.ts";

/** What the server's vectors and odd books compare: all problems; id, label and whereabouts of each bird. */
export function flockJson(standing: Standing): unknown {
  return {
    problems: allProblems(standing),
    birds: [...birdsOf(standing, null).values()].map(({ id, label, where }) => [id, label, where]),
  };
}
