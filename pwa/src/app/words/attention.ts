// Faults in words: what happened, that nothing is lost, what to do.
import { plural } from "./everywhere.ts";

function span(ms: number): string {
  const hours = ms / 3_600_000;
  if (hours < 2) return plural(Math.round(hours * 60), "minute", "minutes");
  return hours < 48
    ? plural(Math.round(hours), "hour", "hours")
    : plural(Math.round(hours / 24), "day", "days");
}

export const attention = {
  storage: {
    slow: {
      what: "The phone is slow to save.",
      remedy: "What you tapped is on the screen and is tried again. Keep the app open.",
    },
    full: {
      what: "The phone has no room left to save.",
      remedy: "Free some space: delete a video or an app. What you tapped is kept here and saved then.",
    },
    newer: {
      what: "A newer Broodline has this book open.",
      remedy: "Close this window and open the app once more. Nothing is lost.",
    },
    blocked: {
      what: "An older Broodline in another tab holds this book.",
      remedy: "Close the other tabs of Broodline, then come back to this one. Nothing is lost.",
    },
    lost: {
      what: "The phone said saved, but it was not there to read.",
      remedy: "It is tried again. Keep the app open, and save a copy when you can.",
    },
    refused: {
      what: "This browser does not let the app save.",
      remedy: "A private window keeps nothing: open the app in a normal one before you count.",
    },
  },
  notSaved: (n: number) => `${plural(n, "tap is", "taps are")} on the screen but not saved yet.`,
  unpaired: {
    what: "The server no longer knows this phone.",
    remedy: "Pair it again under “This phone”. All you wrote stays here.",
  },
  role: {
    what: "This phone may read, not write, on the server.",
    remedy: "Ask the keeper for a code with another role. What you wrote stays here.",
  },
  app_too_old: {
    what: "The server is newer than this app.",
    remedy: "Change over to the newer app. What you wrote stays here and goes up then.",
  },
  server_full: {
    what: "The server's disk is full.",
    remedy: "Your entries stay on this phone and go up once there is room.",
  },
  server_busy: { what: "The server is busy.", remedy: "It is asked again by itself." },
  not_ours: {
    what: "Something else answered instead of your server.",
    remedy: "Often it is the sign-in page of a network. Everything you write is kept on this phone.",
  },
  damaged: {
    what: "The server's answer did not add up.",
    remedy: "Nothing of it was taken in. Run “broodline check” on the server.",
  },
  clock: (behind_ms: number) => ({
    what: `This phone's clock is ${span(Math.abs(behind_ms))} ${behind_ms > 0 ? "behind" : "ahead of"} the server's.`,
    remedy:
      "The book goes by the server's clock: its days and times are right. Set this one where the server is near.",
  }),
  other_book: {
    what: "A book begun before pairing is still on this phone.",
    remedy: "Nothing of it flows into this one. It stays until you save a copy.",
  },
} as const;
