// Is this phone ready? What each check found, and what to do about it.
import { plural } from "./everywhere.ts";

interface Told {
  readonly told: string;
  readonly todo?: string;
}

const INSTALL_TRUST =
  "Open the server's own page on plain http (the server prints its address when it starts, and “broodline pair” shows it as a picture) and follow its steps for this phone. Behind a proxy: its certificate must be one this phone trusts.";

export const ready = {
  asking: "Looking at this phone…",
  title: (amiss: number, open: number) =>
    amiss > 0
      ? `${plural(amiss, "thing", "things")} to put right on this phone`
      : open > 0
        ? "This phone works; a little is open"
        : "This phone is ready",
  again: "Look again",
  states: { well: "Ready", amiss: "To do", open: "Open" },
  names: {
    secure: "A safe address",
    worker: "The app kept for use without signal",
    storage: "The book protected",
    installed: "Installed",
    push: "Reminders",
    server: "The server",
    clock: "The clock",
  },
  checks: {
    secure: {
      well: { told: "The address is safe." },
      plain: {
        told: "This address is plain http.",
        todo: "Browsers keep apps only from https. Open the server's https address; save a copy here first if anything is only on this phone.",
      },
    },
    worker: {
      well: { told: "It opens without signal." },
      waiting: { told: "It is being kept now.", todo: "Stay near the server for a moment, then look again." },
      plain: { told: "It cannot be kept from plain http.", todo: "See the line above." },
      none: {
        told: "This browser keeps no apps.",
        todo: "A private window is one reason. Open the address in the phone's usual browser.",
      },
      untrusted: { told: "This phone does not trust the server's certificate.", todo: INSTALL_TRUST },
      failed: {
        told: "It could not be kept.",
        todo: "Stay near the server and look again. If it stays so, free some room on the phone.",
      },
    },
    storage: {
      well: { told: "The phone has promised to keep it." },
      unprotected: {
        told: "The phone may clear it when space runs short.",
        todo: "Install the app, ask the phone to keep it under This phone, and let the server have it.",
      },
      unsaid: { told: "This browser does not say.", todo: "Pair the phone, or save a copy now and then." },
      cannot: {
        told: "Nothing can be saved here now.",
        todo: "Do not start a tally. Free some room, and leave private windows.",
      },
    },
    installed: {
      well: { told: "It runs as an app of its own." },
      tab: {
        told: "It runs in a browser's tab.",
        todo: "Add it to the home screen from the browser's menu and open it there. On an iPhone the installed app keeps a book of its own: pair it there too.",
      },
    },
    push: {
      well: { told: "They work." },
      none: {
        told: "This browser cannot be reminded.",
        todo: "On an iPhone they need the installed app. Due shows the same, and so does a calendar.",
      },
      blocked: {
        told: "Notifications are not allowed.",
        todo: "Allow them for this app in the phone's or the browser's settings.",
      },
      off: { told: "They are not turned on.", todo: "Turn them on under This phone, if you want them." },
      broken: { told: "They do not work.", todo: "Turn them on again under This phone, and try them out." },
      revoked: {
        told: "None come to a phone that the server does not know.",
        todo: "Pair it anew, then look here again.",
      },
    },
    server: {
      well: { told: "It answers, and knows this phone." },
      unpaired: { told: "It answers; this phone is not paired.", todo: "Pair it under This phone." },
      revoked: {
        told: "It answers, and no longer knows this phone.",
        todo: "Pair it anew under This phone. All that was recorded stays on it, and goes over then.",
      },
      away: {
        told: "It does not answer.",
        todo: "Is this phone in the same network, and does the server run? Recording goes on without it.",
      },
      not_ours: {
        told: "Something else answers in its place.",
        todo: "Often the sign-in page of a network. Sign in there, or change the network.",
      },
    },
    clock: {
      well: { told: "It agrees with the server's." },
      off: {
        told: "It is off.",
        todo: "Let the phone set its time by itself. Counts are right all the same; hours are put right where they are shown.",
      },
      unsaid: { told: "It is compared once the server answers." },
    },
  } as Readonly<Record<string, Readonly<Record<string, Told>>>>,
  offset: (minutes: number, behind: boolean) =>
    `This phone is ${plural(minutes, "minute", "minutes")} ${behind ? "behind" : "ahead of"} the server.`,
  address: "The address",
  addressIs: (origin: string) => `This phone keeps its book under ${origin}.`,
  addressStays:
    "That address must not change: under another the app begins with an empty book. Before a move let the server take all, or save a copy and take it in there.",
  toPhone: "This phone",
} as const;
