// Which machines eggs can be set in, and the one that is offered first.
import type { Place } from "../book/bodies.generated.ts";
import { isImported, isUnnamedMachine } from "../book/imported.ts";
import type { Standing } from "../book/standing.ts";

const ROLES: readonly Place["role"][] = ["incubator", "hatcher", "hen"];

export const machinesOf = ({ places }: Standing) => [...places].filter(([, one]) => ROLES.includes(one.role));

/** That of the last eggs set in the app; else one named in the app before one that only a spreadsheet names. */
export function usualMachine(standing: Standing): string | undefined {
  const machines = machinesOf(standing)
    .map(([id]) => id)
    .filter((id) => !isUnnamedMachine(id));
  const [last] = [...standing.settings.values()]
    .filter(({ id, place }) => !isImported(id) && machines.includes(place))
    .sort((a, b) => b.setAtMs - a.setAtMs);
  return last?.place ?? machines.find((id) => !isImported(id)) ?? machines[0];
}
