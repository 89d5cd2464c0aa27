// Cautions: each short, shown once where it belongs. All of them defer to local rules and the vet.

export const safety = {
  rule: "Follow local rules and your vet.",
  mains: "Wet hands and mains power: dry your hands before you touch plug or switch.",
  hands:
    "Wash your hands after eggs, chicks and shells: they can carry Salmonella. Keep birds out of the kitchen and children under 5 away from them.",
  helping:
    "Help only what has stalled for a day, stop at the first blood, and note it: a helped chick is shown as helped when you choose breeders.",
  coated:
    "No bulb with a non-stick coat near birds: its fumes kill them (commonly used, not yet checked against its source).",
  alarm: "What is due is a reminder, not a safety alarm. Nothing here watches your machine.",
} as const;
