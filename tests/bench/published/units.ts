import { knownOf, type Known } from '../../reference/data.ts';

/** Files of sets of the benchmark folder by `set/file`. */
export function filesOf(sets: readonly string[]): ReadonlyMap<string, Known> {
  return new Map(
    sets.flatMap((set) =>
      knownOf(set).map((known): [string, Known] => [`${set}/${known.name}`, known]),
    ),
  );
}

/** The file of a unit. */
export function fileOf(unit: string): Known {
  const at = unit.lastIndexOf('/');
  const known = knownOf(unit.slice(0, at)).find(({ name }) => name === unit.slice(at + 1));
  if (known === undefined) throw new Error(`there is no file ${unit}`);
  return known;
}
