// The words many screens share.

export const plural = (n: number, one: string, many: string) => `${n} ${n === 1 ? one : many}`;
export const eggs = (n: number) => plural(n, "egg", "eggs");

/** "Rowan", "Rowan and Hazel", "Rowan, Hazel and Alder". */
export function listed(names: readonly string[]): string {
  if (names.length < 2) return names[0] ?? "";
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

export const everywhere = {
  broken: {
    what: "This page cannot be shown",
    remedy: "All you wrote is kept. Take another way, or save a copy under “This phone”.",
    again: "Try again",
  },
  app: "Broodline",
  nav: {
    main: "Main",
    more: "This phone and the seasons",
    due: "Due",
    rooms: "Rooms",
    book: "Book",
    season: "Season",
    phone: "This phone",
  },
  back: "Back",
  save: "Save",
  cancel: "Cancel",
  done: "Done",
  remove: "Remove",
  change: "Change",
  why: "Why?",
  none: "none",
  unknownFamily: (family: string) => `${family} not known`,
  unnamedFamily: (family: string) => `A ${family} not named yet`,
  unnamedPlace: "A place not named yet",
  fewer: "One fewer",
  more: "One more",
  range: (least: number, most: number) => `A whole number from ${least} to ${most}.`,
  when: {
    when: "When",
    now: "Now",
    earlier: "Earlier today",
    yesterday: "Yesterday",
    date: "A date",
    day: "Day",
    time: "Time",
    ahead: "That is still to come. Choose a time that has passed.",
  },
  connection: {
    onlyHere: (n: number) => `${n} only on this phone`,
    saving: (n: number) => `Saving ${plural(n, "tap", "taps")}`,
    server: "All on the server",
    nothing: "Nothing written yet",
    since: (ago: string) => `since ${ago}`,
    moment: "just now",
    minutes: (n: number) => `${n} min`,
    hours: (n: number) => `${n} h`,
    days: (n: number) => plural(n, "day", "days"),
  },
  notFound: {
    title: "There is nothing at this address",
    remedy: "The link may be old. All you have written is still in the book.",
    go: "Go to what is due",
  },
  opening: "Opening the book",
  came: (n: number) => `${plural(n, "entry", "entries")} so far`,
  screenMissing: {
    title: "This part of the app is not on this phone yet",
    remedy: "It could not be fetched just now. All you have written is still in the book.",
    go: "Try again",
  },
} as const;
