// What goes wrong, and who is whose: pages to be found when something is. Common practice, but where the page says more.
import type { OwnWords } from "../../book/own-words.ts";

/** wait_h: hours after the last chick. */
export const trouble = {
  late: (wait_h: number, { hatch }: OwnWords) => [
    "Late hatch: a cool machine hatches late, a warm one early. Hold its thermometer beside another; old and large eggs take longer too.",
    "Sticky chicks smeared with white: commonly too moist, or too cool. Dry chicks glued to the shell: commonly too dry, or the lid was opened. Weigh eggs next time: the loss tells which.",
    `Dead in shell: wait ${wait_h} hours after the last chick, then open each. The stage points to where to look.`,
    "Power cut: lid shut, a blanket over the top, vents free, no flame beside it. Write it under the machine: the page says what is known of so many hours. Candle some days later.",
    `Humidity that will not hold: more water surface, not deeper water; look at vents, lid and wick, and check the gauge. Then “Air” of that ${hatch.one}.`,
    "Most of them clear: cock, hens' age, too many or too few hens to a cock, eggs kept long. Open some: a clear may be a very early death.",
  ],
  weak: [
    "Weak chick: dry and warm, by itself but within sight of the others. Dip its beak in water every hour; feed when it stands.",
    "Splay legs (spraddled): grip under the feet, cloth or rubber, never paper. A soft band between the legs for two or three days helps only when it is put on in the first ones.",
    "Navel open or wet: clean dry litter, away from beaks. Red, swollen or smelling: your vet, and clean the hatcher before the next eggs.",
    "Wry neck, twisted or thrown back: hold it to drink and feed, keep it from being trodden on. Vitamins as the label says.",
    "Pasted vent: soften with warm water, wipe, dry. Several at once: look at the heat first.",
    "Feather pecking, toes or vent: take the bleeding one out at once. Then more room, less light and heat, feed that does not run out, things to scratch in.",
    "Gasping, blood in droppings, lame or dull ones, several at once: your vet the same day. Move no bird until then.",
    "One that only suffers: ask your vet, or somebody who was taught, how to end it.",
  ],
  kin: ({ family, hatch }: OwnWords) => [
    "Inbreeding (F) is the chance that both copies of a gene come from one ancestor. Wright 1922, from memory: brother and sister, or parent and young, 25 %; half brother and sister 12.5 %; first cousins 6.25 %.",
    "What nobody wrote counts as unrelated, so a short pedigree looks better than it is. Birds of unknown parents show a range.",
    `It falls in one ${hatch.one}: mate to birds of another ${family.one}. It rises slowly where many cocks leave young, and males move on each year: “Pens for next season”.`,
    "Signs of too much: fewer fertile eggs, more dead in shell, small broods. The same signs have other causes.",
    "Cock or hen: a comb that turns red and large early, thick legs, pointed saddle feathers later: commonly a cockerel. Not sure? Leave it “not known”.",
    "Never the helped or weak ones first: choose by whole families, then by bird.",
  ],
} as const;

/** Words keepers use for what a page calls by another name. Found, never shown. */
export const alsoCalled = {
  candle: "incubator torch fertile",
  lockdown: "incubator transfer",
  hatch: "zip assist",
  open: "breakout",
  mark: "identify",
  brood: "bulb fire temperature bedding shavings",
  tally: "correct",
  intervals: "percent statistics confidence",
  server: "sync offline backup wifi",
  late: "incubator shrink wrapped membrane overdue electricity infertile",
  weak: "straddle omphalitis stargazing pasty sick ill disease cull cannibalism",
  kin: "inbred incest rooster pullet sexing wattle",
} as const;
