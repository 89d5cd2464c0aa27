// How to do it: short, in our own words. Figures come from the tables and name their source on the page.
import type { OwnWords } from "../../book/own-words.ts";

export const HELP_TOPICS = [
  "candle",
  "lockdown",
  "hatch",
  "open",
  "mark",
  "brood",
  "late",
  "weak",
  "kin",
  "tally",
  "intervals",
  "server",
] as const;
export type HelpTopic = (typeof HELP_TOPICS)[number];

export const help = {
  link: "Handbook",
  title: "Handbook",
  under: "Short, for beside the machine. All of it is on this phone.",
  search: "Look for",
  searchHint: "One word or two: lid, red ring, feed",
  found: (n: number) => (n === 1 ? "On one page" : `On ${n} pages`),
  some: (n: number) => (n === 1 ? "No page has it all; one has some" : `No page has it all; ${n} have some`),
  read: (words: string) => `Read as: ${words}`,
  nothing:
    "Nothing of that here. Try one plain word, or look through the list below. “Why?” beside a figure tells where it comes from. For a sick or dying bird ask your vet today.",
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
    mark: "Marking",
    brood: "The brooder",
    late: "When a hatch goes wrong",
    weak: "A chick that does badly",
    kin: "Kin, and cock or hen",
    tally: "Counting with this app",
    intervals: "Reading bars and chances",
    server: "Phones and the server",
  },
  headlines: {
    candle: "Candling: one egg, one look, one tap",
    lockdown: "Lockdown: stop turning, more humidity, baskets apart",
    hatch: "Hatch: lid shut while an egg is pipped",
    open: "Opening: candle and listen first",
    mark: "Marking: before they mix, and looked at again",
    brood: "Brooder: the chicks outrank the thermometer",
    late: "A poor hatch: wait, open, then change one thing",
    weak: "A weak chick: warm, dry, apart, within sight",
    kin: "Kin: what inbreeding means, and what a red comb does",
    tally: "Counting: every tap is kept at once",
    intervals: "Bars: what these eggs can tell, and what they cannot",
    server: "Each phone holds the book; the server brings them together",
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

/** The steps of the pages that need no figure of the tables. */
export const moreSteps = {
  mark: ({ family }: OwnWords) => [
    `Mark chicks once they are dry and strong, before two ${family.many} meet: afterwards nobody knows whose they are.`,
    `One ${family.one} at a time, the others shut away. Count before and after.`,
    "Left and right are the bird's own, seen from behind. Held soles up they change sides: turn the drawing, not your head.",
    "Webs: a sharp punch, wiped between chicks, one clean hole well inside the web.",
    "Look again after two weeks. A hole that has closed reads as another pattern.",
    "Rings: look every week while legs grow, and change one before it is tight.",
    "“Mark” says what is free, and which marks one closed hole would confuse.",
  ],
  brood: [
    "Warm it the day before, litter and all. Measure at the height of the chicks' backs.",
    "Dip each beak into water, then show the feed: near the heat, not under it.",
    "Look at them first. Spread out and quiet: right. In a heap: too cold. Far from the heat: too hot. All on one side: a draught.",
    "Leave a cool end, so that each can choose.",
    "Heat lamp: on a chain, never by its cord, guarded, nothing that burns in reach. A plate is safer.",
    "Water in which none can drown: pebbles in the dish for quail and other small ones.",
    "Dry litter with grip. Smooth paper makes legs slide apart.",
    "The heat goes down as its page says, until they are feathered. Off heat on a mild day, not a cold night.",
    "Write each loss with its cause. The page says when it is more than chance, and whom to call.",
  ],
  intervals: ({ family, hatch }: OwnWords) => [
    "“18 of 20, 70 to 97 %”: 18 were seen. The true rate of such eggs lies between 70 and 97 %, 95 times in 100.",
    "Few eggs, long bar. Four times the eggs make it about half as long.",
    `Bars that overlap may differ all the same, and among many ${family.many} two lie apart by chance. Go by the sentence on top: it tests all together.`,
    `p is how often chance would set them so far apart if all ${family.many} were alike. Under 0.05 the page says “more than chance”; one in twenty such is chance.`,
    `“Drawn in” pulls small ${family.many} towards the flock. It is the better guess for next year.`,
    `“Not known yet”: not candled, or the ${hatch.one} still runs. What nobody saw counts as nothing, not as nought.`,
    "A rate says what was seen, not whose fault it was: cock, hens, age of eggs and machine come together.",
  ],
  server: [
    "What you tap is on this phone at once. The top line says how much of it is only here.",
    "No signal: go on. It goes up by itself when the server is near and the app is open.",
    "“All on the server” means that it came back from there. Until then do not clear this phone's browser.",
    "Two phones wrote differently about one thing: both entries stay, the book says which counts, and you may choose.",
    "A mistake: Book, the entry, correct it or take it back. Nothing is lost by it.",
    "No server for weeks: “Save a copy” under “This phone” now and then.",
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

export const manyDead = "Many dead at once are no question of bars: call your vet.";
export const practice = "Common practice, no source.";

/** Under the pictures of what the lamp shows. */
export const seen = {
  live: "Live: a dark spot with veins all round, like a spider; it may move.",
  clear: "Clear: light all through, the yolk a faint shadow.",
  blood_ring: "Blood ring: a red ring, no veins.",
  quitter: "Died: a dark mass that floats loose, no veins.",
  air_cell: "The air cell grows as the egg dries: day 7, 14 and 18.",
} as const;
