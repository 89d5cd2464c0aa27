// How to do it: short, in our own words. Figures come from the tables and name their source on the page.
import type { OwnWords } from "../../book/own-words.ts";

export type HelpTopic = "candle" | "lockdown" | "hatch" | "open" | "tally";
export const HELP_TOPICS: readonly HelpTopic[] = ["candle", "lockdown", "hatch", "open", "tally"];

export const help = {
  title: "How to do it",
  under: "Short, for beside the machine. All of it is on this phone.",
  all: "All of these",
  backToCount: "Back to the count",
  cautions: "Take care",
  figures: "The figures on this page",
  pictures: "What you may see",
  topics: {
    candle: "Candling",
    lockdown: "Lockdown",
    hatch: "While they hatch",
    open: "Opening what did not hatch",
    tally: "Counting with this app",
  },
  headlines: {
    candle: "Candling: one egg, one look, one tap",
    lockdown: "Lockdown: stop turning, more humidity, baskets apart",
    hatch: "Hatch: lid shut while an egg is pipped",
    open: "Opening: candle and listen first",
    tally: "Counting: every tap is kept at once",
  },
} as const;

/** The steps of each topic. `minutes`, `days`: as the tables have them. */
export const steps = {
  candle: (minutes: number, dark_day: number, again: string) => [
    "Make the room dark and let your eyes get used to it. The hatch-room theme keeps them so.",
    "Dry hands, a cool lamp. Wipe up water before a cable lies in it.",
    `Take out one tray or one batch at a time, and have it back within ${minutes} minutes.`,
    "Hold the lamp to the blunt end, where the air cell is. Tilt and turn the egg slowly.",
    "Veins and something that moves: live. Nothing but a yolk's shadow: clear. A red ring: blood ring. A dark mass without veins: it has died.",
    `Not sure? Say so, put it back, and look again in ${again} days. An egg put back by mistake costs less than a live one thrown out.`,
    `White shells show early. Through dark shells little is seen before about day ${dark_day}.`,
    "An egg that smells, weeps or has a foamy shell goes out at once, wrapped.",
  ],
  lockdown: ({ family }: OwnWords) => [
    "Candle one last time. What is clear or has died need not go in.",
    "Stop turning, or take the eggs off the turner. Lay them on their side.",
    `Give each ${family.one} a basket of its own, or a wall of mesh, with its sign on it: unmarked chicks cannot be told apart.`,
    "Raise the humidity, and have enough water in the machine so that the lid stays shut.",
    "Dry your hands before you touch plug, switch or heater.",
    "Tap each batch in as you carry it. “Lockdown done” writes the time and stops the reminders to turn.",
  ],
  hatch: (pip_h: string, { family }: OwnWords) => [
    "Look through the window, at set times, and write each look; one with nothing new counts too.",
    "While any egg is pipped the lid stays shut: dry air glues the chick to its shell.",
    `From the first hole to the chick is usually ${pip_h} hours; waterfowl may take twice as long. Most that rest are well.`,
    "Help only what has stalled for a day. Stop at the first blood. Write it as helped: it is shown when you choose breeders.",
    "Bring chicks to heat, water and feed when they are dry, within a day of the first.",
    `Keep ${family.many} apart until each chick is marked.`,
  ],
  open: (wait_h: number) => [
    `Wait until ${wait_h} hours after the last chick.`,
    "Candle each egg and hold it to your ear. One that moves or peeps goes back.",
    "Gloves on, outdoors or by an open window. Wrap an egg that smells before you open it.",
    "Crack the blunt end and look into the air cell first: was the beak through?",
    "Then find the stage. Give the age in days where you can; early, midway and late follow from it.",
    "Open the clears too: only then an infertile egg can be told from one that died very early.",
    "What you find points somewhere; it is no diagnosis. If many died, ask your vet about a post-mortem.",
    "Wash your hands and everything you used.",
  ],
  tally: ({ family, hatch }: OwnWords) => [
    `Choose the ${family.one}'s tab, with the sign that stands on the shell. If the sign cannot be read, use “Not known”.`,
    "One tap an egg. The small eggs show every one: upright in the machine, on its side once it is out.",
    "A slip: “Undo”. An egg put out by mistake earlier: “Something else”, “Put an egg back”.",
    `Two phones can count the same ${hatch.one}; their counts add up.`,
    "Sure of the rest? One tap finishes the batch. Counted on paper? “Type a count”.",
    "“Count again” puts your count beside the book's and lets you say what became of the difference.",
    "A keypad or pedal works too: keys 1 to 6 answer, 0 says the count, Backspace takes back.",
    "Looked earlier than now? “When” puts the time right for all that follows.",
  ],
} as const;

/** What each figure is, for "Why?". */
export const helpFigures = {
  tray_out: (n: number) => ({ name: "Tray back in the machine within", value: `${n} min` }),
  look_again: (days: string) => ({ name: "Look again after", value: `${days} days` }),
  dark_shell: (day: number) => ({ name: "First look through a dark shell", value: `about day ${day}` }),
  pip_to_out: (hours: string) => ({ name: "From pip to chick", value: `${hours} h` }),
  open_after: (hours: number) => ({ name: "Opening after the last chick", value: `${hours} h` }),
  formula: "What is usual; nothing here is measured on your eggs.",
} as const;

/** Under the pictures of what the lamp shows. */
export const seen = {
  live: "Live: a dark spot with veins all round, like a spider; it may move.",
  clear: "Clear: light all through, the yolk a faint shadow.",
  blood_ring: "Blood ring: a red ring, no veins.",
  quitter: "Died: a dark mass that floats loose, no veins.",
  air_cell: "The air cell grows as the egg dries: day 7, 14 and 18.",
} as const;
