// The one page that the worker writes itself: the app's files are gone and no server is near.
export const cleared = {
  app: "Broodline",
  title: "The phone has cleared the app's own files",
  remedy:
    "It needs your server once to fetch them again. What you wrote is kept apart: do not clear the site's data, and open this page near the server.",
  again: "Try again",
} as const;
