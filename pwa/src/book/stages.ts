/** The stages of an egg or chick and the moves allowed between them, from the table both languages share. */
import table from "@tables/stages.json";

const { groups } = table;

export const START = "set";
export const EGG_STAGES: readonly string[] = groups.egg;
export const OUT_STAGES: readonly string[] = groups.egg_out;
export const OPENED_STAGES: readonly string[] = groups.opened;
export const CHICK_STAGES: readonly string[] = [...groups.chick, ...groups.chick_out];
export const MISSING = "unaccounted";
/** The cause of a move out of the counts where nobody wrote what became of the chicks. */
export const NOT_WRITTEN = "not written";
export const STAGES: readonly string[] = Object.values(groups).flat();
export const CAUSES: readonly string[] = table.causes;

const ALLOWED = new Map<string, readonly string[]>(Object.entries(table.moves));

/** Whether the trade knows a move from one stage to the other. */
export function mayMove(source: string, target: string): boolean {
  return targetsOf(source).includes(target);
}

/** Whether a move brings chicks out of their shells. */
export function comesOut({ source, target }: { readonly source: string; readonly target: string }): boolean {
  return target === "hatched" && !CHICK_STAGES.includes(source);
}

/** The stages that an egg or chick may move to. */
export function targetsOf(source: string): readonly string[] {
  return ALLOWED.get(source) ?? [];
}
