// The storeys of the phone's app, from the top of the stairs to the bottom. Imports only go down,
// and only where `may` says so. A file in a folder that is not listed here is a fault.
const may = {
  app: ["screens", "state", "sync", "storage", "book", "trade", "service-worker/messages"],
  screens: ["state", "book", "trade", "app/words"],
  state: ["sync", "storage", "book", "trade", "app/words"],
  sync: ["storage", "book"],
  storage: ["book"],
  book: ["trade"],
  trade: [],
  "service-worker": ["storage", "book", "trade", "app/words"],
};

const LISTED = `^src/(${Object.keys(may).join("|")})/`;

const storeys = Object.entries(may).map(([storey, below]) => ({
  name: `${storey}-imports-only-below`,
  comment: `${storey}/ may import: ${below.join(", ") || "nothing but the tables"}`,
  severity: "error",
  from: { path: `^src/${storey}/` },
  to: {
    path: "^src/",
    pathNot: [storey, ...below].map((part) => `^src/${part}[/.]`),
  },
}));

/** @type {import('dependency-cruiser').IConfiguration} */
module.exports = {
  forbidden: [
    ...storeys,
    {
      name: "words-stand-apart",
      comment: "app/words is the one part of app/ that lower storeys may read, so it reads none of them",
      severity: "error",
      from: { path: "^src/app/words[/.]" },
      to: { path: "^src/", pathNot: "^src/(app/words[/.]|book/|trade/)" },
    },
    {
      name: "no-unlisted-storey",
      comment: "every file lives in one of the storeys above",
      severity: "error",
      from: { path: "^src/", pathNot: LISTED },
      to: {},
    },
    {
      name: "no-unlisted-storey-below",
      severity: "error",
      from: {},
      to: { path: "^src/", pathNot: LISTED },
    },
    {
      name: "no-orphans",
      comment: "a file that nothing imports and that imports nothing serves nobody",
      severity: "error",
      from: { orphan: true, pathNot: "[.]d[.]ts$|^src/(app/main|service-worker/worker)[.]" },
      to: {},
    },
    {
      name: "no-circles",
      severity: "error",
      from: {},
      to: { circular: true },
    },
    {
      name: "tables-for-trade-and-stages-only",
      comment: "the trade's figures are read by trade/ and, for the stages, by book/",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/(trade|book)/" },
      to: { path: "/trade/tables/" },
    },
    {
      name: "idb-in-storage-only",
      comment: "storage/ is the only place that opens the phone's database",
      severity: "error",
      from: { path: "^src/", pathNot: "^src/storage/" },
      to: { path: "node_modules/idb/" },
    },
    {
      name: "pure-storeys-need-no-package",
      severity: "error",
      from: { path: "^src/(trade|book)/" },
      to: { path: "node_modules" },
    },
    {
      name: "no-package-left-out-of-package-json",
      severity: "error",
      from: {},
      to: { dependencyTypes: ["npm-no-pkg", "npm-unknown", "unknown"] },
    },
    { name: "nothing-unresolved", severity: "error", from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    parser: "swc", // sees `import type` and import() too, and needs no TypeScript of its own
    doNotFollow: { path: "node_modules" },
    tsConfig: { fileName: "tsconfig.app.json" },
    enhancedResolveOptions: { extensions: [".ts", ".tsx", ".json"] },
  },
};
