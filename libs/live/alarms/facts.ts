import { z } from 'zod';

/** UTC. */
const moment = z.iso.datetime();

/** The task as people call it: `Second coat (Hull side, Kittiwake)`. */
const what = z.string();

/**
 * What an alarm is about: all that its words are made of when it rings, and no more. The words
 * themselves depend on when that is ("in 15 min"), so they are made then.
 */
export const alarmFactsSchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('opens'), what, opensAt: moment }),
  z.object({
    kind: z.literal('closes'),
    what,
    /** `coat`, `laminate`, `glue`, …; null: nothing is laid, or nobody said how much. */
    verb: z.string().nullable(),
    closesAt: moment,
    /** To be over in time with the largest crew. */
    startBy: moment,
    /** After "or": `it must be sanded`. */
    otherwise: z.string(),
    /** After "After that": `it has to be sanded and wiped first`; empty until it rings, or where it is not known. */
    after: z.string(),
  }),
  z.object({
    kind: z.literal('missed'),
    what,
    closesAt: moment,
    startBy: moment,
    /** The preparation that was added; null: none was, or not yet. */
    rework: z.object({ id: z.string(), words: z.string() }).nullable(),
    /** What is left where the work can be done another way; null: nobody looked, or it cannot. */
    otherWay: z.string().nullable(),
  }),
  z.object({
    kind: z.literal('too-cold'),
    what,
    place: z.string(),
    material: z.string(),
    /** The sheet's lowest temperature, and the lowest that the surface is expected to have meanwhile. */
    minimumC: z.number(),
    celsius: z.number(),
    from: moment,
    /** Null: as far as can be seen. */
    until: moment.nullable(),
    /** `tack-free`, `sandable`: what the film is not yet. */
    awaited: z.string(),
    /** What the sheet says of it: cold spoils the film, and does not only hold it up. */
    spoils: z.boolean(),
  }),
  z.object({
    kind: z.literal('pot-life'),
    what,
    cup: z.int(),
    cups: z.int(),
    grams: z.number(),
    mixedAt: moment,
    endsAt: moment,
  }),
  z.object({ kind: z.literal('lapses'), what, lapsesAt: moment }),
  z.object({ kind: z.literal('overrun'), what, expectedAt: moment }),
  /** `startsAt`: by the published plan. */
  z.object({ kind: z.literal('unbegun'), what, startsAt: moment }),
]);
export type AlarmFacts = z.output<typeof alarmFactsSchema>;
export type FactsOf<K extends AlarmFacts['kind']> = Extract<AlarmFacts, { kind: K }>;

/** An alarm as the work, as it stands, asks for it. */
export interface WantedAlarm {
  /** What it is about; the same while its moment moves. */
  readonly key: string;
  readonly taskId: string;
  /** UTC; not before the moment that it was reckoned at. */
  readonly dueAt: string;
  /** Members; nobody twice. */
  readonly audience: readonly string[];
  readonly facts: AlarmFacts;
}

/** How far a moment has to move before people are told anew (common practice, no source). */
const TOLD_MINUTES = 10;

const minutesBetween = (from: string, to: string): number =>
  (Date.parse(to) - Date.parse(from)) / 60_000;

const isElsewhere = (told: string, wanted: string): boolean =>
  Math.abs(minutesBetween(told, wanted)) > TOLD_MINUTES;

/** Cold that comes so long after people were told of some is another one (common practice, no source). */
const NEXT_COLD_MINUTES = 120;

/**
 * Whether what people were told at `rungAt` is no longer what they should know, so that it is to
 * ring once more. Of a cup and of a lease there is one end.
 */
export function ringsAgain(told: AlarmFacts, rungAt: string, wanted: AlarmFacts): boolean {
  switch (wanted.kind) {
    case 'opens':
      return told.kind === 'opens' && isElsewhere(told.opensAt, wanted.opensAt);
    case 'closes':
      return told.kind === 'closes' && isElsewhere(told.closesAt, wanted.closesAt);
    case 'missed':
      return told.kind === 'missed' && minutesBetween(rungAt, wanted.closesAt) > TOLD_MINUTES;
    case 'too-cold':
      return minutesBetween(rungAt, wanted.from) > NEXT_COLD_MINUTES;
    case 'overrun':
      return told.kind === 'overrun' && minutesBetween(rungAt, wanted.expectedAt) > 0;
    case 'unbegun':
      return told.kind === 'unbegun' && told.startsAt !== wanted.startsAt;
    case 'pot-life':
    case 'lapses':
      return false;
  }
}

/** So long nobody is told again of what they do not begin, whatever is planned (common practice, no source). */
const NEXT_UNBEGUN_HOURS = 4;

/** With what people were told at `rungAt`: not before it is worth telling them again. */
export function putOff(wanted: WantedAlarm, rungAt: Date): WantedAlarm {
  if (wanted.facts.kind !== 'unbegun') return wanted;
  const next = rungAt.getTime() + NEXT_UNBEGUN_HOURS * 3_600_000;
  return { ...wanted, dueAt: new Date(Math.max(next, Date.parse(wanted.dueAt))).toISOString() };
}

/** After that nobody need hear of it any more. */
export function worthUntil(facts: AlarmFacts, at: Date): Date {
  const hour = 3_600_000;
  switch (facts.kind) {
    case 'opens':
      return new Date(Math.max(Date.parse(facts.opensAt), at.getTime()) + hour);
    case 'closes':
      return new Date(facts.closesAt);
    case 'pot-life':
      return new Date(Math.max(Date.parse(facts.endsAt), at.getTime()) + hour / 4);
    case 'lapses':
      return new Date(facts.lapsesAt);
    case 'missed':
    case 'too-cold':
    case 'overrun':
    case 'unbegun':
      return new Date(at.getTime() + 12 * hour);
  }
}
