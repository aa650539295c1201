/** A path into the yard file as people write it: `boats[1].refits[0].promised`. */
export function pathOf(segments: readonly PropertyKey[]): string {
  let text = '';
  for (const segment of segments) {
    if (typeof segment === 'number') text += `[${String(segment)}]`;
    else text += text === '' ? String(segment) : `.${String(segment)}`;
  }
  return text;
}

/** What stands at a path; undefined where nothing does. */
export function valueAt(root: unknown, segments: readonly PropertyKey[]): unknown {
  let here = root;
  for (const segment of segments) {
    if (typeof here !== 'object' || here === null) return undefined;
    here = (here as Record<PropertyKey, unknown>)[segment];
  }
  return here;
}

/** A value as a message shows it: JSON, cut where it is long. */
export function show(value: unknown): string {
  if (value === undefined) return 'nothing';
  const text = JSON.stringify(value);
  return text.length > 60 ? `${text.slice(0, 57)}…` : text;
}
