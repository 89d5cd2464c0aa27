import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { secondMinifier } from "./vite-second-minifier.ts";
import { serviceWorker } from "./vite-service-worker.ts";
import { slimTables } from "./vite-slim-tables.ts";

const beside = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const TABLES = beside("../server/broodline/trade/tables");

/** All but those that show nothing without the server, and four more that are sent for at the same time. */
const PAGES = /\/src\/screens\/(?:(?!server-)[a-z]+-pages|families|help|book|set)\.tsx$/;

/** What a round with the server is made of: all of it is sent for at the first one. */
const EXCHANGE = /\/src\/(?:storage\/placing|sync\/(?:server|picture-loop)|state\/greeting)\.ts$/;

/** Small things that pack better together: what a newer app needs, what a long book does, the two first screens, the tally. */
const UPDATE = /\/src\/app\/(?:newer-app|update-bridge)\.tsx?$/;
const KEEPING = /\/src\/(?:state\/keeping|storage\/sums)\.ts$/;
const DUE = /\/src\/screens\/(?:due|rooms)\.tsx$/;
const TALLY = /\/src\/screens\/tally-(?:fault|panel)\.tsx$/;

export default defineConfig({
  resolve: {
    alias: { "@tables": TABLES },
  },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [slimTables(TABLES), secondMinifier(), serviceWorker("src/service-worker/worker.ts")],
  build: {
    target: "es2022",
    // No data: addresses in the page, as its security policy asks.
    assetsInlineLimit: 0,
    // The first screen is one file, and the worker keeps the rest at hand: nothing would come sooner.
    modulePreload: false,
    rolldownOptions: {
      // All that the first screen needs in one file: it packs smaller, and there is one thing to wait for. So does what
      // any two screens share: each on its own, those many small files came to 23 kB more. What a start waits for
      // and what sends and reads is no part of that: with all the screens' parts before it a start took half as long
      // again. The pages are sent for together once the first screen stands, so they are one file too: 6 kB less.
      output: {
        codeSplitting: {
          groups: [
            { name: "first", tags: ["$initial"], priority: 2 },
            { name: "beneath", test: /\/src\/(?:sync|storage)\//, minShareCount: 2, priority: 1.5 },
            { name: "exchange", test: EXCHANGE, priority: 1.6 },
            { name: "update", test: UPDATE, priority: 1.7 },
            { name: "keeping", test: KEEPING, priority: 1.7 },
            { name: "due", test: DUE, priority: 0.8 },
            { name: "tally", test: TALLY, priority: 0.8 },
            { name: "pages", test: PAGES, includeDependenciesRecursively: true, priority: 0.5 },
            { name: "shared", minShareCount: 2, priority: 1 },
          ],
        },
      },
    },
  },
  server: {
    port: 8461,
    fs: { allow: [".."] },
    proxy: { "/api": "http://127.0.0.1:8420", "/calendar": "http://127.0.0.1:8420" },
  },
});
