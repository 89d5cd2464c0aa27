/** Fields of the page that were typed into; one that left the page was saved or given up. */
const typed = new Set<HTMLInputElement | HTMLTextAreaElement>();

/** Whether loading the page anew would lose words or a figure that the keeper has typed and not saved. */
export function isHalfTyped(): boolean {
  for (const field of typed) if (!field.isConnected) typed.delete(field);
  return [...typed].some((field) => field.value !== "");
}

/** Begins to notice what is typed. */
export function noticeTyping(page: Document): void {
  page.addEventListener("input", ({ target }) => {
    if (target instanceof HTMLInputElement || target instanceof HTMLTextAreaElement) typed.add(target);
  });
}
