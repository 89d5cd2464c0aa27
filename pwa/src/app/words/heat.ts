// How warm it should be, and what the chicks say about it.

export const heat = {
  title: "Heat",
  band: (band: string, where: string) => `${band} ${where}.`,
  youngest: "By the youngest; older ones move away from it.",
  ofSpecies: (species: string, band: string) => `${species}: ${band}`,
  next: (on: string, band: string) => `From ${on}: ${band}, if they lie spread.`,
  chicks: "Heat on, and as much as the chicks say: no figure was read for this age.",
  chicksFrom: (on: string) => `From ${on} by how they lie: heat on, a little less each time they lie spread.`,
  chicksUntil: (from: string, to: string) =>
    `A little less each time they lie spread. Heat commonly ends between ${from} and ${to}; that is from memory, not checked against a source.`,
  off: (on: string) => `From ${on} none is asked for, if they are feathered and the room is mild.`,
  lamp: (rooms: string, title: string) =>
    `One 250 W lamp keeps about ${rooms} warm; two lamps, so that one may fail (${title}).`,
  lampRoom: (n: number, room: string) => `${n} chicks in a room of ${room}`,
  none: {
    hen: "She is the heat.",
    over: "No heat is asked for at this age, if they are feathered and the room is mild.",
    unread: "No source was read for this species: go by the chicks.",
    ageless: "Nobody wrote when they hatched: go by the chicks.",
  },
  ask: "What do they look like?",
  first: "The chicks outrank the thermometer.",
  looks: {
    spread: "Spread evenly",
    huddled: "Huddled",
    away: "Away from the heat",
    one_side: "All to one side",
  },
  pictured: {
    spread: "chicks all over the floor, near the heat and far from it",
    huddled: "chicks in a heap under the heat",
    away: "chicks along the walls, none under the heat",
    one_side: "chicks along one wall, the others bare",
  },
  sawAt: (look: string, when: string) => `${look}, ${when}.`,
  source: (title: string) => `Source: ${title}.`,
  practice: "Common practice, no source; read of quail only.",
  reading: "Warmth at their backs",
  readingHint: "Under the heat, where their backs are.",
  save: "Note the warmth",
  number: "That is not a number.",
  empty: "Type what the thermometer shows.",
  odd: (text: string) => `${text} cannot be right at a chick's back. Look at the unit and the point.`,
  read: (text: string) => `${text} at their backs`,
  readAt: (text: string, when: string) => `${text} at their backs, ${when}.`,
  advice: {
    well: "They lie spread and the warmth is in the band: leave it as it is.",
    leave:
      "They lie spread: leave it as it is, though the thermometer shows another warmth than the band. Check where it hangs.",
    raise: "Raise the heat a little, and look again within the hour.",
    raiseAnyway:
      "Raise the heat a little all the same: the thermometer says it is warm enough, the chicks say it is not. Look for a draught, wet litter, ill chicks.",
    lower: "Lower the heat a little or hang it higher, and look again within the hour.",
    lowerAnyway:
      "Lower the heat all the same: the thermometer says it is not too warm, the chicks say it is. Leave them a cooler side.",
    draught: "Find where the draught comes from before you change the heat.",
    inBand: "In the band. Look at the chicks as well.",
    below: (by: string) => `${by} below the band. Look at the chicks first: if they lie spread, leave it.`,
    above: (by: string) => `${by} above the band. Look at the chicks first: if they lie spread, leave it.`,
  },
  judgement: "What to do about it is our judgement.",
  why: {
    about: "the band",
    formula:
      "The band of the sources that agree; a step down each week. Where sources differ all stand here.",
    value: (value: string, unit: string) => `${value} ${unit}`,
  },
  care: "Take care",
} as const;
