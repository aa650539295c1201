/**
 * An id that reads like the name, free among those there are: lower-case letters, digits and
 * dashes, as the service wants them. Nobody is asked to make one up.
 */
export function idFor(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60)
    .replace(/-+$/, '');
  const base = plain === '' ? 'item' : plain;
  let id = base;
  for (let k = 2; taken.includes(id); k += 1) id = `${base}-${String(k)}`;
  return id;
}
