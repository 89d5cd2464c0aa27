// Lines of the book about birds and chicks.
import { plural } from "./everywhere.ts";

export const toldBirds = {
  bird: (label: string, sex: string) => `A bird: ${label}, ${sex}`,
  came: (who: string, how: string, from: string) => [`${who} came`, how, from].filter(Boolean).join(", "),
  back: (who: string) => `${who} came back`,
  young: (n: number, family: string) => `${plural(n, "young bird", "young birds")} of ${family}`,
  left: (who: string, how: string, to: string) => [`${who}: ${how}`, to].filter(Boolean).join(", "),
  weighed: (who: string, mass: string) => `${who} weighed: ${mass}`,
  many: (n: number, who: string, mean: string) =>
    `${plural(n, "bird", "birds")} of ${who} weighed, mean ${mean}`,
  oneOf: (family: string) => `One of ${family}`,
  treated: (who: string, product: string) => `${who} treated: ${product}`,
  order: (text: string) => `An order: ${text}`,
  note: (text: string) => `Note: ${text}`,
  kept: "Kept as birds",
} as const;
