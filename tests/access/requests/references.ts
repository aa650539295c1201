import type { Subject } from '#access/rule.ts';
import type { JsonSchema } from './json-schema.ts';

/** What the fields of bodies and queries that hold an id refer to. */
const fields: Readonly<Partial<Record<string, Subject>>> = {
  owner: 'person',
  crew: 'person',
  skill: 'skill',
  space: 'space',
  keptIn: 'space',
  dustReaches: 'space',
  from: 'space',
  to: 'space',
  destination: 'space',
  tool: 'tool',
  stock: 'stock',
  slots: 'slot-list',
  material: 'material',
  classId: 'class',
  fabric: 'fabric',
  procedure: 'procedure',
  after: 'job',
  joins: 'part',
  delivery: 'delivery',
  barrier: 'barrier',
  boat: 'boat',
  refit: 'refit',
  part: 'part',
  task: 'task',
  taskId: 'task',
  personId: 'person',
  skillId: 'skill',
  spaceId: 'space',
  procedureId: 'procedure',
  refitId: 'refit',
  partId: 'part',
};

/** A window of a day on which the yards of these tests have work. */
const instants: Readonly<Partial<Record<string, string>>> = {
  from: '2026-12-01T08:00:00Z',
  laidFrom: '2026-12-01T08:00:00Z',
  until: '2026-12-02T08:00:00Z',
  laidUntil: '2026-12-01T09:00:00Z',
  by: '2026-12-05T08:00:00Z',
};

const isId = ({ pattern }: JsonSchema): boolean =>
  pattern?.startsWith('^[a-z0-9][a-z0-9._-]') ?? false;

/** What a field of a body or query says when it names the records that `idOf` gives. */
export function referring(
  field: string,
  schema: JsonSchema,
  idOf: (kind: Subject) => string | undefined,
): string | undefined {
  if (schema.format === 'date-time') return instants[field];
  const kind = isId(schema) ? fields[field] : undefined;
  return kind && idOf(kind);
}

const kebab = (words: string): string =>
  words.replaceAll(/[A-Z]/g, (letter, at) => `${at === 0 ? '' : '-'}${letter.toLowerCase()}`);

/** `SlotListInput` is of a slot list, `boatId` of a boat: by which kinds are known. */
export function kindNamed(name: string, kinds: ReadonlySet<Subject>): Subject | undefined {
  const word = kebab(name.replace(/(Version)?(Input|Patch|Id)$/, ''));
  return [...kinds].find((kind) => kind === word);
}
