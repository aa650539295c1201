import { malformed } from '../text.ts';

/** Calendars laid over a project with minimum and maximum lags; periods are 0..horizon - 1. */
export interface CalendarFile {
  /** Name of the `.sch` file with activities, demands, lags and capacities. */
  readonly base: string;
  readonly horizon: number;
  /** Whether lags count every period or those in which the project works. */
  readonly lags: 'elapsed' | 'working';
  readonly project: readonly boolean[];
  readonly resources: readonly {
    readonly works: readonly boolean[];
    /** Activities that wait go on using it. */
    readonly held: boolean;
  }[];
  /** By activity, the dummies left out. */
  readonly splittable: readonly boolean[];
}

/** More periods than this are no benchmark of ours: tables have a value for each. */
const MOST_PERIODS = 100_000;

/** A field's value and where it stands. */
class Place {
  private readonly text: string;
  private readonly file: string;
  private readonly value: unknown;
  private readonly name: string;
  private readonly occurrence: number;

  constructor(text: string, file: string, value: unknown, name = '', occurrence = 0) {
    this.text = text;
    this.file = file;
    this.value = value;
    this.name = name;
    this.occurrence = occurrence;
  }

  /** A member of an object; `occurrence` says which of the equally named ones of the file it is. */
  field(name: string, occurrence = 0): Place {
    const { value } = this;
    if (typeof value !== 'object' || value === null || Array.isArray(value)) {
      throw this.fault('is no object', 'Write it as { .. }.');
    }
    const found: unknown = Object.entries(value).find(([key]) => key === name)?.[1];
    const place = new Place(this.text, this.file, found, name, occurrence);
    if (found === undefined) throw place.fault('is missing', `Give "${name}".`);
    return place;
  }

  list(): Place[] {
    if (!Array.isArray(this.value)) throw this.fault('is no list', 'Write it as [ .. ].');
    return this.value.map((item: unknown) => new Place(this.text, this.file, item, this.name));
  }

  word(): string {
    if (typeof this.value === 'string') return this.value;
    throw this.fault('is no text', 'Write it in quotes.');
  }

  oneOf<T extends string>(words: readonly T[]): T {
    const found = words.find((word) => word === this.value);
    if (found !== undefined) return found;
    throw this.fault('is something else', `Write one of ${words.join(', ')}.`);
  }

  truth(): boolean {
    if (typeof this.value === 'boolean') return this.value;
    throw this.fault('is neither true nor false', 'Write true or false.');
  }

  whole(least: number, most: number): number {
    const { value } = this;
    if (typeof value === 'number' && Number.isInteger(value) && value >= least && value <= most)
      return value;
    const range = `${String(least)} to ${String(most)}`;
    throw this.fault('is not possible', `Give a whole number from ${range}.`);
  }

  /** So many of `0` and `1`. */
  marks(count: number): boolean[] {
    const word = this.word();
    if (word.length !== count || /[^01]/.test(word)) {
      throw this.fault(
        `does not have ${String(count)} signs of 0 and 1`,
        `Write exactly ${String(count)} of them.`,
      );
    }
    return Array.from(word, (mark) => mark === '1');
  }

  fault(message: string, cure: string): Error {
    const { text, file, name, value } = this;
    const before = text.split(`"${name}"`, this.occurrence + 1).join(`"${name}"`);
    const line = before.length < text.length ? before.split('\n').length : 1;
    const what = name === '' ? 'the file' : `"${name}"`;
    return malformed({ file, line }, value ?? null, `${what} ${message}`, cure);
  }
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch (error) {
    const words = error instanceof Error ? error.message : '';
    const line = Number(/line (\d+)/.exec(words)?.[1] ?? text.trimEnd().split('\n').length);
    throw malformed({ file, line }, '', 'this is not JSON', 'Correct the file there.');
  }
}

/** Reads the file of calendars itself. Throws `input.malformed`. */
export function readCalendarFile(text: string, file: string): CalendarFile {
  const whole = new Place(text, file, parsed(text, file));
  const horizon = whole.field('horizon').whole(0, MOST_PERIODS);
  const splittable = whole.field('splittable');
  return {
    base: whole.field('base').word(),
    horizon,
    lags: whole.field('lags').oneOf(['elapsed', 'working']),
    project: whole.field('project').marks(horizon),
    resources: whole
      .field('resources')
      .list()
      .map((one, r) => ({
        works: one.field('calendar', r).marks(horizon),
        held: one.field('held', r).truth(),
      })),
    splittable: splittable.marks(splittable.word().length),
  };
}

/** That the calendars are for the project. Throws `input.malformed`. */
export function expectFit(
  text: string,
  file: string,
  { resources, splittable }: CalendarFile,
  expected: { readonly resources: number; readonly activities: number },
): void {
  const whole = new Place(text, file, parsed(text, file));
  if (resources.length !== expected.resources) {
    throw whole
      .field('resources')
      .fault(
        `are ${String(resources.length)}, those of the base file ${String(expected.resources)}`,
        'Give one calendar for each resource of the base file.',
      );
  }
  if (splittable.length !== expected.activities)
    whole.field('splittable').marks(expected.activities);
}
