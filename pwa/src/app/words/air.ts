// Reading the air of a machine, and checking its gauges.
import { plural } from "./everywhere.ts";

export const air = {
  over: (place: string) => `The air in ${place}`,
  none: "Read the air",
  noneRemedy: "Both bulbs, or a hygrometer, or the temperature alone.",
  by: "Read with",
  ways: { wet: "Two bulbs", humidity: "Hygrometer", dry: "Temperature alone" },
  dry: (unit: string) => `Dry bulb, °${unit}`,
  temperature: (unit: string) => `Temperature, °${unit}`,
  wet: (unit: string) => `Wet bulb, °${unit}`,
  humidity: "Humidity, %",
  gives: (pct: string) => `That is ${pct} humidity.`,
  save: "Write it down",
  saved: (what: string) => `Written down: ${what}.`,
  fault: {
    empty: "Type what it reads.",
    number: "That is no number. A comma or a dot, then tenths.",
    unit: (unit: string, other: string) =>
      `No machine is that warm or cold in °${unit}. Is it °${other}? Your unit is set under This phone.`,
    wetAbove: "The wet bulb reads above the dry bulb: are the two mixed up, or is the wick dry?",
    tooDry: "No air is that dry: look at the wick and the wet bulb.",
    humidity: "Humidity lies between 0 and 100 %.",
  },
  silence: {
    title: "The thermometer's alarm",
    why: "A thermometer writes this air. Phones that asked for it are told when it stays out of its band.",
    act: (hours: number) => `No alarm for ${hours} hours`,
    until: (when: string) => `No alarm from here until ${when}.`,
  },
  target: (who: string, low: string, high: string) => `${who}: ${low} to ${high}`,
  title: {
    fine: (reading: string) => `${reading}: in the band`,
    out: (reading: string, what: string) => `${reading}: ${what}`,
  },
  chart: {
    temperature: (n: number, out: number) =>
      out === 0
        ? `Temperature: ${n === 1 ? "one reading" : `all ${n} readings`} in the band`
        : `Temperature: ${out} of ${plural(n, "reading", "readings")} outside the band`,
    humidity: (n: number, out: number) =>
      out === 0
        ? `Humidity: ${n === 1 ? "one reading" : `all ${n} readings`} within what tables give`
        : `Humidity: ${out} of ${plural(n, "reading", "readings")} outside what tables give`,
    noBand: (n: number) => plural(n, "reading", "readings"),
    last: "The last seven days",
    days: "day",
    table: "As a table",
    columns: { when: "When", temperature: "Temperature", humidity: "Humidity" },
    corrected: "put right by a gauge check",
    takeBack: "Take back",
    takeBackOf: (when: string) => `Take back the reading of ${when}`,
  },
  todo: "What to do",
  hot: "It is too warm in there.",
  cold: "It is too cool in there.",
  dryAir: "The air is dry: more water surface, or vents less open (common practice, no source).",
  moistAir: "The air is moist: less water surface, or vents more open (common practice, no source).",
  scales: "Weigh a tray before you change the humidity: the scales outrank the hygrometer.",
  judgement: "Where in the band ends is our judgement; published sentences differ.",
  why: {
    vents: (who: string, quarter: number, more: number, source: string) =>
      `${who}: vents a quarter open from day ${quarter}, further from day ${more}. ${source}`,
    humidity:
      "Humidity from both bulbs and the height above the sea: ASHRAE Fundamentals 2017, chapter 1, equations 33 and 35, in the standard atmosphere.",
    inputs: (dry: string, wet: string, pressure: string, result: string) =>
      `Dry ${dry}, wet ${wet}, air pressure ${pressure} kPa: ${result}.`,
    hygrometer: "The humidity is as the hygrometer showed it.",
    target: (who: string, target: string, source: string) => `${who}: target ${target}. ${source}.`,
    still: (more: string) => `Still air: ${more} more, read at the top of the eggs.`,
    band: (above: string, below: string) =>
      `The band reaches ${above} above and ${below} below the target (our judgement).`,
    range: (who: string, low: string, high: string) => `${who}: tables give ${low} to ${high} % humidity.`,
    corrected: (what: string, by: string) => `The ${what} is put right by ${by}, as it was last checked.`,
  },
} as const;

export const gauge = {
  over: (place: string) => `Gauges of ${place}`,
  title: {
    none: "Check a gauge",
    done: (n: number) => (n === 1 ? "One gauge checked this season" : `${n} gauges checked this season`),
  },
  hint: "Hold a trusted thermometer beside it, wait ten minutes, and read both. A hygrometer: in a closed jar with damp salt it should read 75 %.",
  hintSource: "Ten minutes and the damp salt: common practice, no source.",
  which: "Which gauge",
  names: { dry: "Thermometer", wet: "Wet bulb", humidity: "Hygrometer" },
  reads: (unit: string) => `It reads, ${unit}`,
  right: (unit: string) => `It should read, ${unit}`,
  against: "Checked with",
  againstHint: "A clinical thermometer, damp salt: as you like",
  finds: {
    true: "It reads right.",
    high: (off: string) => `It reads ${off} too high. Readings from now on are put right by that.`,
    low: (off: string) => `It reads ${off} too low. Readings from now on are put right by that.`,
  },
  far: "That is far off. Read both once more; if it is so, get another gauge.",
  save: "Gauge checked",
  list: "Checked so far",
  line: (name: string, when: string, off: string) => `${name}, ${when}: ${off}`,
  off: (off: string) => `put right by ${off}`,
  never: (name: string) => `${name}: not checked this season`,
  percent: "points",
} as const;

export const placeMissing = "This machine is not on this phone yet";
