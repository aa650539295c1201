/** A value made once for each key. */
export function once<T>(known: Map<string, T>, key: string, make: () => T): T {
  const before = known.get(key);
  if (before !== undefined) return before;
  const made = make();
  known.set(key, made);
  return made;
}
