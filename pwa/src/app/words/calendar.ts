// What is due, in the keeper's own calendar.

export const calendar = {
  link: "In your calendar",
  title: (n: number) => (n === 0 ? "Nothing is due yet" : "What is due, in your calendar"),
  under:
    "Your calendar reads it from the server by itself, at the hours of this phone's reminders. It names tasks, machines and counts; your notes and families stay in the book.",
  feed: "Subscribe",
  on: "Make an address for my calendar",
  anew: "Make a new address",
  off: "End the address",
  once: "This address is shown once. Whoever has it can read what is due, so keep it to yourself.",
  address: "Address of the calendar",
  subscribe: "Subscribe on this phone",
  copy: "Copy the address",
  copied: "Copied.",
  noCopy: "This browser would not copy it: hold the address and copy it by hand.",
  isOn: "Your calendar has an address.",
  never: "No calendar has read it yet.",
  read: (when: string) => `Last read ${when}.`,
  ended: "No calendar reads this phone's list.",
  alarms:
    "Each event carries an alarm. On an iPhone leave “Remove alarms” unticked when you subscribe. Some calendars drop alarms of subscriptions: set a default alert for that calendar, or take events one by one.",
  reach:
    "The calendar must reach this server. One that is read by a company's machines cannot reach a server at home; one on the phone can, in your own network.",
  single: "One by one",
  take: (title: string, when: string) => `Take it: ${title}, ${when}`,
  taking: "Take it",
  more: (n: number) => `${n} more later`,
} as const;
