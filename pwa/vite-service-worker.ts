import { createHash } from "node:crypto";
import { readdir, readFile } from "node:fs/promises";
import { join, relative, resolve, sep } from "node:path";
import { build, type Plugin } from "vite";

/** One file that the worker fetches when it is installed. `revision` is null where the name holds a hash. */
interface PrecachedFile {
  url: string;
  revision: string | null;
}

/** Pictures for the phone's home screen: the system fetches them once, at the installation, and the app never. */
const FOR_THE_SYSTEM = /^(apple-touch-180|(icon|maskable)-(192|512))\.png$/;

/** Pages that have nothing to show without the server: kept by no phone, fetched when they are opened. */
const OF_THE_SERVER = /^server-pages-[^.]+\.js$/;

async function filesUnder(dir: string): Promise<string[]> {
  const found = await readdir(dir, { recursive: true, withFileTypes: true });
  return found
    .filter((entry) => entry.isFile())
    .filter(({ name }) => name !== "sw.js" && !FOR_THE_SYSTEM.test(name) && !OF_THE_SERVER.test(name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

async function precachedFile(dir: string, path: string): Promise<PrecachedFile> {
  const url = `/${relative(dir, path).split(sep).join("/")}`;
  const hash = createHash("sha256")
    .update(await readFile(path))
    .digest("hex");
  return { url, revision: url.startsWith("/assets/") ? null : hash.slice(0, 16) };
}

/**
 * Builds the service worker after the app, to /sw.js. Two words are put into it:
 * PRECACHED_FILES, every built file that the app asks for, and BUILD_ID, a hash over that list.
 * Their types stand in src/service-worker/build.d.ts.
 */
export function serviceWorker(entry: string): Plugin {
  let outDir = "dist";
  let root = "";
  let failed = false;
  return {
    name: "service-worker",
    apply: "build",
    configResolved(config) {
      outDir = config.build.outDir;
      root = config.root;
    },
    buildEnd(fault) {
      failed = fault !== undefined;
    },
    closeBundle: {
      order: "post",
      sequential: true,
      async handler() {
        if (failed) return; // the app's own fault is told by Vite; there is nothing to precache
        const dir = resolve(root, outDir);
        const files = await Promise.all((await filesUnder(dir)).map((path) => precachedFile(dir, path)));
        const list = JSON.stringify(files);
        await build({
          configFile: false,
          root,
          publicDir: false,
          logLevel: "warn",
          define: {
            PRECACHED_FILES: list,
            BUILD_ID: JSON.stringify(createHash("sha256").update(list).digest("hex").slice(0, 12)),
          },
          resolve: { alias: { "@tables": join(root, "../server/broodline/trade/tables") } },
          build: {
            outDir,
            emptyOutDir: false,
            target: "es2022",
            lib: { entry, formats: ["iife"], name: "worker", fileName: () => "sw.js" },
          },
        });
      },
    },
  };
}
