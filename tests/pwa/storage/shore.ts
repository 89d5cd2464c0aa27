/** A localStorage of its own for a test. Keys are its own enumerable fields, as in a browser. */
export function shore(): Storage {
  const there: Record<string, string> = {};
  const methods = {
    getItem: (key: string) => there[key] ?? null,
    setItem: (key: string, value: string) => {
      there[key] = value;
    },
    removeItem: (key: string) => {
      delete there[key];
    },
  };
  for (const [name, value] of Object.entries(methods)) {
    Object.defineProperty(there, name, { value, enumerable: false, writable: true });
  }
  Object.defineProperty(there, "length", { get: () => Object.keys(there).length });
  return there as unknown as Storage;
}
