// Pages whose answer is the server's.

export const asking = {
  away: "The server did not answer. Try again when it is reached.",
  waiting: "Asking the server…",
  waited: (seconds: number) => `The server is at it, ${seconds} s so far…`,
  again: "Ask again",
  unpaired: "Pair this phone first: this is kept on the server.",
  pair: "Pair this phone",
  toPhone: "This phone",
} as const;
