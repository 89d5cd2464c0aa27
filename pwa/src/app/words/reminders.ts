// Reminders on this phone.

export const unreadNotice = {
  title: "Something is due",
  body: "Open Broodline to see what.",
} as const;

export const reminders = {
  title: "Reminders",
  why: "This phone can be reminded of what is due, also while the app is closed. The server sends it, over the internet, through the browser maker's push service; only this phone can read it.",
  on: "Remind this phone",
  off: "No more reminders",
  again: "Turn them on again",
  unpaired: "Pair this phone first: it is the server that sends reminders.",
  noPush: "This browser cannot be reminded. Due shows the same whenever the app is opened.",
  install:
    "On an iPhone or iPad, reminders need the installed app: share this page, add it to the Home Screen, and open it from there.",
  blocked:
    "Notifications are not allowed for this app. Allow them in the phone's or the browser's settings, then come back.",
  waiting: "Asking the phone and its push service…",
  slow: "The phone's push service did not answer. That needs the internet; try again when there is some.",
  failed: "The phone would not take reminders. Try again later, or in another browser.",
  away: "The server did not answer. Try again when it is reached.",
  working: "Reminders work.",
  untried: "Reminders are on. Nothing was sent yet: try it out.",
  broken: "Reminders do not work.",
  lost: "Reminders stopped: the phone has forgotten them. Turn them on again.",
  last: (when: string) => `Last sent ${when}.`,
  try: "Try it out",
  tried: "It was handed to the push service. It shows within a minute, if notifications are not silenced.",
  what: "Remind me of",
  tasks: {
    candle: "Candling",
    lockdown: "Lockdown, the evening before and the morning of",
    hatch: "First chicks expected",
    pull: "Chicks to feed and water",
    open: "Opening what did not hatch",
    webs_again: "Toe webs again",
    rings: "Leg rings again",
    heat: "Less heat for the chicks",
    feed: "Another feed",
    weigh: "Weigh day",
  },
  at: "On the day, at",
  evening: "The evening before, at",
  quiet: "Quiet hours",
  quietNote: "What falls into them comes when they end.",
  from: "Quiet from",
  until: "Quiet until",
  yes: "On",
  no: "Off",
  zone: "Times are those of your place.",
} as const;
