// @vitest-environment happy-dom
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { choose } from "../../../pwa/src/state/choices.ts";
import { give, say } from "../../../pwa/src/state/signs.ts";

const spoken: string[] = [];
const buzzes: unknown[] = [];
const tones: number[] = [];

beforeEach(() => {
  for (const list of [spoken, buzzes, tones]) list.length = 0;
  vi.stubGlobal(
    "SpeechSynthesisUtterance",
    class {
      lang = "";
      readonly text: string;
      constructor(text: string) {
        this.text = text;
      }
    },
  );
  vi.stubGlobal("speechSynthesis", { cancel() {}, speak: ({ text }: { text: string }) => spoken.push(text) });
  vi.stubGlobal("navigator", { vibrate: (pattern: unknown) => buzzes.push(pattern) });
  const node = { connect: () => node, start() {}, stop() {} };
  vi.stubGlobal(
    "AudioContext",
    class {
      readonly currentTime = 0;
      readonly destination = {};
      resume = () => Promise.resolve();
      createGain = () => ({ ...node, gain: { setValueAtTime() {}, linearRampToValueAtTime() {} } });
      createOscillator = () => ({
        ...node,
        frequency: {
          set value(pitch: number) {
            tones.push(pitch);
          },
        },
      });
    },
  );
});

afterEach(() => {
  for (const of of ["spoken", "sound", "vibration"] as const) choose(of, "no");
  vi.unstubAllGlobals();
});

describe("signs", () => {
  it("are given only where they are wanted", () => {
    give("kept");
    say("Rowan, 8 live");
    expect([spoken, buzzes, tones]).toEqual([[], [], []]);
    say("Rowan, 8 in hand", true);
    expect(spoken).toEqual(["Rowan, 8 in hand"]);
  });

  it("rise for what stays and fall for what goes out", () => {
    choose("sound", "yes");
    choose("vibration", "yes");
    choose("spoken", "yes");
    give("out");
    say("Rowan, 2 clear");
    expect(tones).toEqual([440, 330]);
    expect(buzzes).toEqual([[30, 60, 30]]);
    expect(spoken).toEqual(["Rowan, 2 clear"]);
    give("done");
    expect(tones.slice(2)).toEqual([660, 880, 1100]);
  });

  it("stay silent on a phone that has none of it", () => {
    choose("sound", "yes");
    choose("vibration", "yes");
    vi.stubGlobal("navigator", {});
    give("back");
    expect(buzzes).toEqual([]);
    expect(tones).toEqual([660, 440, 330]);
  });
});
