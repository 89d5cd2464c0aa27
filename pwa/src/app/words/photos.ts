// Photos of a hatch, a chick or a bird.

export const photos = {
  title: "Photos",
  take: "Take a photo",
  choose: "Choose an older one",
  none: "Nothing pictured yet. A photo works without signal: it stays on this phone and goes to the server later.",
  privacy: "Made small, and where you were is left out.",
  making: "Keeping the photo.",
  became: {
    kept: "The photo is kept on this phone.",
    unread: "This file is no picture that the phone can read. Take it again.",
    full: "The phone has no room left for a photo. Free some space, then take it again. Your book is not touched.",
    failed: "The photo could not be kept. Take it again.",
  },
  alt: (place: string, when: string) => `Photo, ${place}, ${when}`,
  firstPip: "First pip",
  way: {
    here: "Only on this phone so far",
    sent: "On the server",
    server: "From another phone",
    nowhere: "This photo lies on another phone, and the server cannot be asked now.",
    refused: (message: string, remedy: string) => `Only on this phone. ${message} ${remedy}`.trim(),
  },
  when: "Another time",
  back: "Take back",
} as const;
