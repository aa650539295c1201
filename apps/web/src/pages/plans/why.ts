/** A line of why there is no plan: what, and where in the yard that can be changed. */
export interface WhyLine {
  readonly text: string;
  /** The room of the set-up and the record in it; null: nowhere in particular. */
  readonly room: string | null;
  readonly id: string | null;
}

/** Lists of the yard file, and where the set-up has them. */
const rooms: Readonly<Record<string, string>> = {
  people: 'people',
  skills: 'skills',
  spaces: 'spaces',
  tools: 'tools',
  stocks: 'stocks',
  barriers: 'barriers',
  slotLists: 'slot-lists',
  deliveries: 'deliveries',
  materials: 'materials',
  fabrics: 'fabrics',
  readings: 'readings',
  procedures: 'procedures',
  boats: 'boats',
  outdoor: 'outdoor',
  horizonDays: 'yard',
  planFrom: 'yard',
};

/** The room where what stands at a path of the yard file is kept: `people[1].shifts`. */
export function roomOf(path: string): string | null {
  const list = /^[A-Za-z]+/.exec(path)?.[0];
  return list === undefined ? null : (rooms[list] ?? null);
}

/** Rows that are a record of a room themselves; the id of others is not one that a room knows. */
const records = new Set(['person', 'calendar', 'space', 'space-hours', 'tool', 'tool-hours']);

/** `people[1].shifts (calendar bram): Bram works in …`, as the service words it. */
export function whyLine(line: string): WhyLine {
  const found = /^(\S+) \((\S+)(?: (\S+))?\): (.+)$/s.exec(line);
  if (found === null) return { text: line.replace(/^(\S+)(?: \S+)?: /, ''), room: null, id: null };
  const [, path, kind, , text] = found;
  const id = found.at(3) ?? null;
  const room = roomOf(path);
  return { text, room, id: room !== null && records.has(kind) ? id : null };
}
