// Reads the schema that body_schema.py prints, and writes into the folder named as argument:
//   bodies.generated.ts   one interface for each model, and Bodies: kind -> body
//   bodies.schema.json    the same without words, for checking bodies on the phone
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { json } from "node:stream/consumers";
import { compile } from "json-schema-to-typescript";

const HEAD = `// Written by \`make types\` from the models in server/broodline/book/; changes made here are lost.\n`;

/**
 * The schema without words and defaults. A field may itself be called so: its schema is no text and no null. That a
 * field may be null is left out too: in all models these are the fields that need not be there.
 */
function checking(schema) {
  if (Array.isArray(schema)) return schema.map(checking);
  if (typeof schema !== "object" || schema === null) return schema;
  if (schema.properties) mayBeNullWhereOptional(schema);
  if (schema.anyOf) return checking(schema.anyOf[0]);
  const kept = Object.entries(schema).filter(
    ([key, part]) =>
      !(key === "description" && typeof part === "string") && !(key === "default" && part === null),
  );
  return Object.fromEntries(kept.map(([key, part]) => [key, checking(part)]));
}

function mayBeNullWhereOptional({ properties, required = [] }) {
  for (const [name, { anyOf }] of Object.entries(properties)) {
    const mayBeNull = anyOf?.length === 2 && anyOf[1].type === "null";
    if (mayBeNull === required.includes(name) || (anyOf && !mayBeNull))
      throw new Error(`${name}: either required, or optional and perhaps null`);
  }
}

/** One line for each model, so that a changed model is one changed line. */
function lines(named) {
  return Object.entries(named)
    .map(([name, part]) => `    ${JSON.stringify(name)}: ${JSON.stringify(part)}`)
    .join(",\n");
}

const folder = process.argv[2];
if (!folder) throw new Error("Name the folder to write into.");
const { $defs, kinds } = await json(process.stdin);

const bodies = {
  title: "Bodies",
  description: "The body of each kind of entry.",
  type: "object",
  properties: kinds,
  required: Object.keys(kinds),
  $defs,
};
const types = await compile(bodies, "Bodies", {
  additionalProperties: false,
  bannerComment: "",
  ignoreMinAndMaxItems: true,
  style: { printWidth: 110 },
});

await writeFile(join(folder, "bodies.generated.ts"), HEAD + types);
await writeFile(
  join(folder, "bodies.schema.json"),
  `{\n  "$defs": {\n${lines(checking($defs))}\n  },\n  "kinds": {\n${lines(kinds)}\n  }\n}\n`,
);
