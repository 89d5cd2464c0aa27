import { readdir, readFile } from "node:fs/promises";
import { basename, join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";

type Table = Readonly<Record<string, unknown>>;
type Rows = Readonly<Record<string, Table>>;

/**
 * What the phone reads of each of the trade's tables. The rest, above all every published figure with its source,
 * stays in the table for the server, the tests and whoever checks it.
 */
const KEPT: Readonly<Record<string, (table: Table) => unknown>> = {
  "alarms.json": ({ tiers }) => ({ tiers: values(ofTheMoment(tiers as Rows)) }),
  "agenda.json": ({ hours, days, tasks }) => ({ hours: told(hours), days: values(days), tasks }),
  "brood_tasks.json": ({ ages, tasks }) => ({ ages: values(ages), tasks }),
  "breakout.json": ({ classes, clues }) => ({ classes, clues }),
  "brooding.json": ({ where, heat, looks, looks_read_of, lamp, space, cautions }) => ({
    where,
    heat,
    lamp: { ...(lamp as Table), published: undefined },
    looks,
    looks_read_of,
    space,
    cautions,
  }),
  "feeding.json": ({ turkey_weight: _, water_to_feed: __, grit_needed: ___, notes, ...kept }) => ({
    ...kept,
    notes: values(notes),
  }),
  "growth.json": ({ even_within, heaviest, lightest, grown, hatch_apart, problems }) => ({
    even_within,
    ...bare({ heaviest, lightest, grown, hatch_apart }),
    problems,
  }),
  "hatch.json": ({ usual_spread, species_weight, hatches_used }) =>
    told({ usual_spread, species_weight, hatches_used }),
  "losses.json": ({ first_week, few, alarm, together, ages, words }) => ({
    first_week,
    ...values({ few }),
    alarm: { call: (alarm as Table).call },
    together: { causes: (together as Table).causes },
    ages,
    words: spoken(words as Table),
  }),
  "marks.json": ({ law, holding, practice, ring_colours }) => ({
    law: eachRow(law, ({ source }) => ({ source })),
    holding: values(holding),
    practice: (practice as Table[]).map(({ value }) => ({ value })),
    ring_colours: { value: (ring_colours as Table).value },
  }),
  "problems.json": ({ problems, stages }) => ({ problems, stages }),
  "setpoints.json": ({ species }) => ({ species: eachRow(species, chosenFirst) }),
  "sources.json": ({ sources }) => ({ sources: eachRow(sources, ({ title }) => ({ title })) }),
  "species.json": ({ species, dark_shell_first_candle_day }) => ({
    dark_shell_first_candle_day,
    species: eachRow(species, ({ name, ...figures }) => ({
      name,
      ...told(figures),
    })),
  }),
  "storage.json": ({ own_eggs_needed: _, too_cold: __, ...kept }) => kept,
  "stages.json": ({ groups, moves, causes }) => ({ groups, moves, causes }),
  "weight_loss.json": ({ species, rules, ...kept }) => ({
    ...kept,
    rules: values(rules),
    species: eachRow(species, ({ published: _, corridor, by_day, ...row }) => ({
      ...row,
      ...values({ corridor, ...(by_day ? { by_day } : {}) }),
    })),
  }),
};

/** Tables whose figures are shown or reckoned with by their units; elsewhere the reader knows them. */
const UNITS_READ = new Set(["brooding.json", "feeding.json", "movements.json"]);
const SOURCES = "sources.json";
const APP = fileURLToPath(new URL("src", import.meta.url));

/**
 * Puts the slim form of the tables into whatever is built or tested. Of a table that is not listed every figure comes;
 * of the sources those that the others, or the app's own texts, name.
 */
export function slimTables(tables: string): Plugin {
  const slim = async (name: string): Promise<Table> => {
    const { about: _, ...table } = JSON.parse(
      await readFile(join(tables, name), "utf-8"),
      withoutGrounds(UNITS_READ.has(name)),
    ) as Table;
    return (KEPT[name]?.(table) ?? table) as Table;
  };
  let named: Promise<string> | undefined;
  const told = async (): Promise<string> => {
    const names = (await readdir(tables)).filter((name) => name.endsWith(".json") && name !== SOURCES);
    const app = (await readdir(APP, { recursive: true })).filter((name) => /\.tsx?$/.test(name));
    const texts = app.map((name) => readFile(join(APP, name), "utf-8"));
    const whole = await Promise.all(texts);
    const read = names.filter((name) => whole.some((text) => text.includes(`@tables/${name}`)));
    return [
      ...whole,
      ...(await Promise.all(read.map(async (name) => JSON.stringify(await slim(name))))),
    ].join();
  };
  return {
    name: "slim-tables",
    enforce: "pre",
    async load(id) {
      if (!id.startsWith(tables)) return null;
      this.addWatchFile(id);
      const table = await slim(basename(id));
      if (basename(id) !== SOURCES) return JSON.stringify(table);
      named ??= told();
      const texts = await named;
      const kept = Object.entries(table.sources as Rows).filter(([key]) => texts.includes(`"${key}"`));
      return JSON.stringify({ sources: Object.fromEntries(kept) });
    },
  };
}

/** Why a figure was chosen among others is for whoever checks the table; the phone says what it is and where it was read. */
function withoutGrounds(unitsRead: boolean) {
  return (_: string, found: unknown): unknown => {
    if (typeof found !== "object" || found === null || !("status" in found)) return found;
    return { ...found, why: undefined, ...(unitsRead ? {} : { unit: undefined }) };
  };
}

/** Of several figures the chosen one; of wet and dry bulbs and humidities, which are read together, all by source. */
function chosenFirst(row: Table): Table {
  const slim = (key: string, [chosen, ...others]: readonly Table[]) =>
    key.startsWith("vents") ? [chosen] : [chosen, ...others.map(({ value, source }) => ({ value, source }))];
  return Object.fromEntries(Object.entries(row).map(([key, list]) => [key, slim(key, list as Table[])]));
}

/** Spells and falls between readings are the server's to see. */
const ofTheMoment = ({ cut_fall: _, cut_gap: __, cut_least_gap: ___, ...tiers }: Rows): Rows => tiers;

/** What the phone says of losses: alarms are the server's. */
const spoken = ({ day: _, day_alone: __, sum: ___, from: ____, later: _____, ...words }: Table): Table =>
  words;

function eachRow(rows: unknown, slim: (row: Table) => Table): Rows {
  return Object.fromEntries(Object.entries(rows as Rows).map(([key, row]) => [key, slim(row)]));
}

/** What is reckoned with and nowhere shown: figures without where they were read, however deep they stand. */
function bare(table: Table): Table {
  const unsaid = (key: string, found: unknown) => (key === "source" || key === "status" ? undefined : found);
  return JSON.parse(JSON.stringify(table, unsaid)) as Table;
}

/** Figures with where they were read, without their units and the other figures that were published. */
function told(figures: unknown): Rows {
  return eachRow(figures, ({ value, source, status }) => ({ value, source, status }));
}

/** Figures without their units, sources and the other figures that were published. */
function values(figures: unknown): Rows {
  return eachRow(figures, ({ value }) => ({ value }));
}
