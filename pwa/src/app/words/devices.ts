// The phones and computers that may come into this book.
import { plural } from "./everywhere.ts";

export const devices = {
  link: "Who is paired",
  title: (n: number) => `${plural(n, "device", "devices")} may come into this book`,
  waiting: "Who is paired",
  onlyKeeper: "The keeper's phone shows who is paired, and ends a pairing.",
  roles: { keeper: "Keeper", helper: "Helper", reader: "Reader" },
  rolesTell: {
    keeper: "records, reads, lets others in",
    helper: "records and reads",
    reader: "only reads",
  },
  own: "this phone",
  seen: (when: string) => `last here ${when}`,
  change: (name: string) => `Change ${name}`,
  changing: "Change",
  close: "Close",
  name: "Its name",
  rename: "Save the name",
  end: "End its pairing",
  lost: "It is lost",
  endTold: (name: string) =>
    `${name} can then neither read nor write the book here. What it recorded stays; its reminders, its calendar and codes it made end. It keeps what it has not sent, and brings it when it is paired again.`,
  lostTold: (name: string, when: string) =>
    `${name} was last here ${when}. What was written on it after that is only on it. Its pairing ends at once, and so do pairing codes not used yet. A copy of the book stays on the phone: lock or wipe it with the means of its maker. Should it turn up, pair it again: what it still holds is sent then.`,
  sure: (name: string) => `End the pairing of ${name}`,
  ended: "No longer paired",
  endedOn: (when: string) => `ended ${when}`,
  invite: "Let another in",
  role: "As",
  code: "Make a code",
  type: (until: string) =>
    `Type it on the other device under Pair this phone. It works once, until ${until}.`,
} as const;
