// Builds the app as a later version would be: from the same sources, with one more store in the phone's database.
// Run in pwa/: vite build --config ../tests/browser/next_app.config.mjs --outDir SOMEWHERE
import now from "../../pwa/vite.config.ts";

const CHANGES = {
  "storage/schema.ts": [["BOOK_VERSION = 2;", "BOOK_VERSION = 3;"]],
  "storage/open.ts": [
    [
      "upgrade(db, from, _to, tx) {\n",
      "upgrade(db, from, _to, tx) {\n      if (from < 3) db.createObjectStore(\"weather\" as never);\n",
    ],
  ],
};

const nextVersion = {
  name: "next-version",
  enforce: "pre",
  transform(code, id) {
    const changes = Object.entries(CHANGES).find(([file]) => id.endsWith(`/src/${file}`))?.[1] ?? [];
    for (const [before, after] of changes) {
      if (!code.includes(before)) throw new Error(`${id} no longer says ${before}`);
      code = code.replace(before, after);
    }
    return changes.length > 0 ? { code, map: null } : null;
  },
};

export default { ...now, plugins: [nextVersion, ...now.plugins] };
