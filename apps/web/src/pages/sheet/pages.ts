import type { Schema } from '../../api/client.ts';

export type Row = Schema<'WeekRow'>;

export interface SheetDay {
  /** By the yard's calendar, `2026-11-26`. */
  readonly date: string;
  readonly rows: readonly Row[];
}

/** What one builder takes along. */
export interface SheetPage {
  readonly id: string;
  readonly name: string;
  /** Days with work, in order. */
  readonly days: readonly SheetDay[];
  /** What to mind with the materials of this week, each once. */
  readonly cautions: readonly { readonly material: string; readonly texts: readonly string[] }[];
}

type Cautioned = Pick<Schema<'PlanTask'>, 'cautions'> & {
  readonly mix: Pick<NonNullable<Schema<'PlanTask'>['mix']>, 'material'> | null;
  readonly material: string | null;
};

/** Cautions by material; those of none, dust among them, or of several come first, each said once. */
function cautionsOf(tasks: readonly Cautioned[]): SheetPage['cautions'] {
  const materials = new Map<string, Set<string>>();
  for (const { mix, cautions } of tasks) {
    for (const { text } of cautions) {
      const known = materials.get(text) ?? new Set();
      materials.set(text, known.add(mix?.material ?? ''));
    }
  }
  const by = new Map<string, Set<string>>();
  for (const [text, of] of materials) {
    const [only] = of;
    const material = of.size > 1 ? '' : only;
    by.set(material, (by.get(material) ?? new Set()).add(text));
  }
  return [...by]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([material, texts]) => ({ material, texts: [...texts] }));
}

/** The pages of a week, one a builder who has work in it. */
export function pagesOf(
  groups: readonly Schema<'WeekGroup'>[],
  tasks: ReadonlyMap<string, Cautioned>,
): SheetPage[] {
  return groups
    .filter(({ rows }) => rows.length > 0)
    .map(({ id, name, rows }) => {
      const dates = [...new Set(rows.map(({ date }) => date))].sort();
      const own = [...new Set(rows.map(({ taskId }) => taskId))].flatMap(
        (taskId) => tasks.get(taskId) ?? [],
      );
      return {
        id,
        name,
        days: dates.map((date) => ({ date, rows: rows.filter((row) => row.date === date) })),
        cautions: cautionsOf(own),
      };
    });
}

/** `2026-11-23` and so many days on, by the calendar. */
export function daysOn(date: string, days: number): string {
  const at = new Date(`${date}T12:00:00Z`);
  at.setUTCDate(at.getUTCDate() + days);
  return at.toISOString().slice(0, 10);
}
