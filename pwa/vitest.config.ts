import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

const beside = (path: string) => fileURLToPath(new URL(path, import.meta.url));

// The tests lie outside pwa/, beside the server's. A test that needs a page says so at its top:
// `// @vitest-environment happy-dom`.
export default defineConfig({
  resolve: {
    alias: { "@tables": beside("../server/broodline/trade/tables") },
  },
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  server: { fs: { allow: [".."] } },
  test: {
    dir: beside("../tests/pwa"),
    environment: "node",
    restoreMocks: true,
    maxWorkers: 2,
  },
});
