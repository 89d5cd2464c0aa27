import { fileURLToPath } from "node:url";
import type { Plugin } from "vite";
import { defineConfig } from "vitest/config";
import { slimTables } from "./vite-slim-tables.ts";

const beside = (path: string) => fileURLToPath(new URL(path, import.meta.url));
const TABLES = beside("../server/broodline/trade/tables");
const TESTS = beside("../tests/pwa");

/** The tests lie outside pwa/, beside the server's, and still find the packages installed in pwa/. */
function packagesOfThePwa(): Plugin {
  return {
    name: "packages-of-the-pwa",
    enforce: "pre",
    resolveId(source, importer, options) {
      const named = /^[@a-z]/.test(source) && !source.startsWith("@tables");
      if (!named || !importer?.startsWith(TESTS)) return null;
      return this.resolve(source, beside("./package.json"), { ...options, skipSelf: true });
    },
  };
}

// A test that needs a page says so at its top: `// @vitest-environment happy-dom`.
export default defineConfig({
  resolve: { alias: { "@tables": TABLES } },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  plugins: [slimTables(TABLES), packagesOfThePwa()],
  server: { fs: { allow: [".."] } },
  test: {
    dir: TESTS,
    setupFiles: [`${TESTS}/searching.ts`, `${TESTS}/patience.ts`],
    environment: "node",
    restoreMocks: true,
    maxWorkers: 2,
  },
});
