import { spanInWords } from '#planning/decode/reading/moments.ts';
import type { OwnerSpace } from './my-boats.contract.ts';
import type { OwnBoats, Taken } from './my-boats.store.ts';
import { whenOf } from './owner-when.ts';

/** The spaces that the boat's planned work needs, by name, with what takes them. */
export function ownerSpacesOf(
  boatId: string,
  { sheet, timeZone }: Pick<OwnBoats, 'sheet' | 'timeZone'>,
  taken: readonly Taken[],
): OwnerSpace[] {
  const tasks = new Map(sheet?.tasks.map((task) => [task.id, task]));
  const names = new Map<string, string>();
  for (const task of tasks.values()) {
    if (task.boatId === boatId) names.set(task.spaceId, task.space);
  }
  return [...names]
    .map(([id, name]) => ({
      id,
      name,
      taken: taken
        .filter(({ spaceId }) => spaceId === id)
        .map(({ from, until, taskId }) => {
          const span = { from: whenOf(from, timeZone), until: whenOf(until, timeZone) };
          const task = taskId === null ? undefined : tasks.get(taskId);
          const what = task === undefined ? 'occupied' : `${task.name}, ${task.part}`;
          const words = `${spanInWords(span.from, span.until, timeZone)}: ${what}.`;
          return { ...span, taskId: task?.id ?? null, words };
        }),
    }))
    .sort((a, b) => (a.name < b.name ? -1 : 1));
}
