// What to do first, one after the other; what is done is ticked by the book itself.

export const start = {
  title: "Your first hour",
  of: (done: number, all: number, more: number) =>
    `${done} of ${all} done, and ${more} for whoever needs them`,
  all: "All set: the rest comes under Due",
  alone: "All works on this phone alone; pair it once you have a server",
  wanted: "If you need it",
  demo: "This is the demo: an invented place to look round in. Nothing of it reaches a real book. Your own begins on your own server: README, “Put it to work at home”.",
  own: "To look round first, the server's demo (“make demo”) shows an invented place, apart from your book.",
  done: "Done.",
  steps: {
    place: {
      title: "Name your place and an incubator",
      words: "Three short answers; no server is needed.",
      go: "Name it",
    },
    pair: {
      title: "Pair this phone with your server",
      words:
        "“broodline pair” on the server prints a code. No server yet? Go on: all works, on this phone alone.",
      go: "Type the code",
    },
    table: {
      title: "Bring your spreadsheet",
      words:
        "Your birds, and what last year's eggs came to, as .xlsx or .csv, through the server. It is only tried first, and can be taken back as one.",
      go: "Choose a file",
    },
    ready: {
      title: "See that it works without signal",
      words: "What is missing is named there, with what to do.",
      go: "Is this phone ready?",
    },
    eggs: {
      title: "Set eggs, or write down those that lie already",
      words: "Dates are shown before you save; eggs set last week can be told late.",
      go: "Set eggs",
    },
    others: {
      title: "Pair another phone, say for the hatch room",
      words: "A code for each phone; a helper's phone counts, a reader's only looks.",
      go: "Make a code",
    },
    copy: {
      title: "Keep a copy elsewhere",
      words: "The server keeps one a day; README says how to put it on another disk. A phone: “Save a copy”.",
      go: "This phone",
    },
  },
} as const;
