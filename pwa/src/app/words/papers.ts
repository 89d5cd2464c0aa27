// Papers and files that the server makes.

export const papers = {
  link: "Papers and files",
  onPaper: "On paper",
  madeThere: {
    away: "the server makes this, and cannot be reached now. Everything you write is kept.",
    unpaired: "a server makes this. Pair this phone with one to have it.",
  },
  hatch: "Report of this hatch",
  bird: "Certificate and parents",
  pens: "Pens to move birds by",
  title: "Papers and files of this book",
  under:
    "The server makes them from what is synced: PDF in black and white, for A4 or letter by your country, and files for other programs.",
  season: (year: number) => `Season ${year}`,
  report: "Report",
  marks: "Marks",
  sheet: "Spreadsheet",
  away: "While I am away",
  inspector: "For an inspector",
  from: "From",
  until: "Until",
  awayMake: "What is due, for whoever stays",
  inspectorMake: "What came, went, was treated and died",
  wrongDays: "The last day lies before the first.",
  setting: (place: string, day: string) => `${place}, set ${day}`,
  cards: "Cards",
  count: "Card to count on",
  more: (n: number) => `${n} earlier ones: ask for their papers on the command line.`,
  all: "The whole book",
  lines: "Every entry",
  book: "Spreadsheet",
  package: "Tables for programs",
  formulas: "Text that a spreadsheet would take for a formula gets an apostrophe before it.",
  making: (seconds: number) =>
    seconds < 2 ? "the server makes it…" : `the server makes it, ${seconds} s so far…`,
  named: (what: string, of: string) => `${what}: ${of}`,
} as const;
