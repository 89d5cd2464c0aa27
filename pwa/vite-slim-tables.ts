import { readFile } from "node:fs/promises";
import { basename } from "node:path";
import type { Plugin } from "vite";

type Table = Readonly<Record<string, unknown>>;
type Rows = Readonly<Record<string, Table>>;

/**
 * What the phone reads of each of the trade's tables. The rest, above all every published figure with its source,
 * stays in the table for the server, the tests and whoever checks it.
 */
const KEPT: Readonly<Record<string, (table: Table) => unknown>> = {
  "agenda.json": ({ hours, days, tasks }) => ({ hours: told(hours), days: values(days), tasks }),
  "brood_tasks.json": ({ ages, tasks }) => ({ ages: values(ages), tasks }),
  "breakout.json": ({ classes, clues }) => ({ classes, clues }),
  "brooding.json": ({ where, heat, looks, lamp, space, cautions }) => ({
    where,
    heat,
    lamp,
    looks,
    space,
    cautions,
  }),
  "feeding.json": ({ turkey_weight: _, water_to_feed: __, grit_needed: ___, ...kept }) => kept,
  "growth.json": ({ even_within, heaviest, lightest, grown, hatch_apart, problems }) => ({
    even_within,
    heaviest,
    lightest,
    grown,
    hatch_apart,
    problems,
  }),
  "hatch.json": ({ usual_spread, species_weight, hatches_used }) =>
    told({ usual_spread, species_weight, hatches_used }),
  "losses.json": ({ first_week, few, alarm, together, ages, words }) => ({
    first_week,
    few,
    alarm: { call: (alarm as Table).call },
    together,
    ages,
    words,
  }),
  "problems.json": ({ problems, stages }) => ({ problems, stages }),
  "sources.json": ({ sources }) => ({ sources: eachRow(sources, ({ title }) => ({ title })) }),
  "species.json": ({ species, dark_shell_first_candle_day }) => ({
    dark_shell_first_candle_day,
    species: eachRow(species, ({ name, ...figures }) => ({
      name,
      ...told(figures),
    })),
  }),
  "stages.json": ({ groups, moves, causes }) => ({ groups, moves, causes }),
};

/** Puts the slim form of the tables into whatever is built or tested. Of a table that is not listed every figure comes. */
export function slimTables(tables: string): Plugin {
  return {
    name: "slim-tables",
    enforce: "pre",
    async load(id) {
      if (!id.startsWith(tables)) return null;
      this.addWatchFile(id);
      const { about: _, ...table } = JSON.parse(await readFile(id, "utf-8"), withoutReasons) as Table;
      return JSON.stringify(KEPT[basename(id)]?.(table) ?? table);
    },
  };
}

/** Why a figure was chosen among others is for whoever checks the table; the phone says what it is and where it was read. */
function withoutReasons(_: string, found: unknown): unknown {
  if (typeof found !== "object" || found === null || !("status" in found)) return found;
  return { ...found, why: undefined };
}

function eachRow(rows: unknown, slim: (row: Table) => Table): Rows {
  return Object.fromEntries(Object.entries(rows as Rows).map(([key, row]) => [key, slim(row)]));
}

/** Figures with where they were read, without their units and the other figures that were published. */
function told(figures: unknown): Rows {
  return eachRow(figures, ({ value, source, status }) => ({ value, source, status }));
}

/** Figures without their units, sources and the other figures that were published. */
function values(figures: unknown): Rows {
  return eachRow(figures, ({ value }) => ({ value }));
}
