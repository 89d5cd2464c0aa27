/**
 * What the phone gives back at a tally besides the picture: a short tone, a short buzz, the count in words. Each only
 * if the keeper asked for it, and never the only sign. A phone that lacks one of them stays silent.
 */
import { sound, spoken, vibration } from "./choices.ts";

export type Sign = "kept" | "out" | "back" | "done";

/** Tones in Hz, 90 ms each: rising for what stays or is through, falling for what goes out or is taken back. */
const TONES: Readonly<Record<Sign, readonly number[]>> = {
  kept: [880],
  out: [440, 330],
  back: [660, 440, 330],
  done: [660, 880, 1100],
};
/** Milliseconds of buzz and pause in turn. */
const BUZZES: Readonly<Record<Sign, number[]>> = {
  kept: [30],
  out: [30, 60, 30],
  back: [90],
  done: [30, 60, 30, 60, 90],
};
const TONE_S = 0.09;
const LOUDNESS = 0.15;

let player: AudioContext | null = null;

/** Tone and buzz of a sign, as far as they are wanted. */
export function give(sign: Sign): void {
  if (vibration.value === "yes") globalThis.navigator?.vibrate?.(BUZZES[sign]);
  if (sound.value === "yes") play(TONES[sign]);
}

/** Says a text where the keeper wants each count spoken; with `asked` also where not. A newer one cuts the last off. */
export function say(text: string, asked = false): void {
  if ((spoken.value !== "yes" && !asked) || typeof speechSynthesis === "undefined") return;
  speechSynthesis.cancel();
  const told = new SpeechSynthesisUtterance(text);
  told.lang = document.documentElement.lang;
  speechSynthesis.speak(told);
}

function play(tones: readonly number[]): void {
  if (typeof AudioContext === "undefined") return;
  player ??= new AudioContext();
  void player.resume(); // browsers hold sound back until the first touch
  for (const [at, pitch] of tones.entries()) {
    const tone = player.createOscillator();
    const volume = player.createGain();
    const begin = player.currentTime + at * TONE_S;
    tone.frequency.value = pitch;
    volume.gain.setValueAtTime(LOUDNESS, begin);
    volume.gain.linearRampToValueAtTime(0, begin + TONE_S); // no click at the end
    tone.connect(volume).connect(player.destination);
    tone.start(begin);
    tone.stop(begin + TONE_S);
  }
}
