import { effect, signal } from '@preact/signals';
import { keep, keptAt } from '../../../offline/store.ts';
import { person } from '../../../session/session.ts';

/** What has become of one cup; by the device's clock, ISO 8601. */
export interface Cup {
  readonly isWeighed: boolean;
  readonly mixedAt: string | null;
  readonly spreadAt: string | null;
  /** As the sheet said when it was mixed, minutes. */
  readonly useWithin: number | null;
  readonly potLife: number | null;
}

const emptyCup: Cup = {
  isWeighed: false,
  mixedAt: null,
  spreadAt: null,
  useWithin: null,
  potLife: null,
};

type Cups = ReadonlyMap<string, Cup>;

/** Cups by `<task> <number>`, of whoever is signed in; they outlive the page. */
const cups = signal<Cups>(new Map());

const name = 'cups';
/** A cup that was mixed this long ago is nobody's concern any more. */
const keptMs = 24 * 60 * 60_000;

effect(() => {
  const accountId = person.value?.id;
  cups.value = new Map();
  if (accountId === undefined) return;
  void keptAt(accountId, name).then((found) => {
    if (found === null || person.peek()?.id !== accountId) return;
    const young = [...(found.data as Cups)].filter(
      ([, { mixedAt }]) => mixedAt === null || Date.now() - Date.parse(mixedAt) < keptMs,
    );
    cups.value = new Map([...young, ...cups.peek()]);
  });
});

const keyOf = (taskId: string, number: number): string => `${taskId} ${String(number)}`;

export const cupOf = (taskId: string, number: number): Cup =>
  cups.value.get(keyOf(taskId, number)) ?? emptyCup;

export function changeCup(taskId: string, number: number, change: Partial<Cup>): void {
  const key = keyOf(taskId, number);
  const before = cups.peek().get(key) ?? emptyCup;
  cups.value = new Map([...cups.peek(), [key, { ...before, ...change }]]);
  const accountId = person.peek()?.id;
  if (accountId !== undefined) void keep(accountId, name, cups.peek());
}

/** Cups of a task that are mixed and not spread, by number. */
export const openCups = (taskId: string): readonly (readonly [number: number, cup: Cup])[] =>
  [...cups.value]
    .filter(([key, { mixedAt, spreadAt }]) => {
      const isOfTask = key.slice(0, key.lastIndexOf(' ')) === taskId;
      return isOfTask && mixedAt !== null && spreadAt === null;
    })
    .map(([key, cup]) => [Number(key.slice(key.lastIndexOf(' ') + 1)), cup] as const)
    .sort(([a], [b]) => a - b);
