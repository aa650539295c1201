import { localWords, toLocal } from '#calendar/local-time.ts';
import type { AlarmFacts, FactsOf } from './facts.ts';

const minuteOf = (iso: string): number => Math.floor(Date.parse(iso) / 60_000);

/** `40 min`, `1 h 30 min`; begun minutes count, so that nobody is told of more than there is. */
function span(ms: number): string {
  const minutes = Math.max(1, Math.round(ms / 60_000));
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours === 0) return `${String(rest)} min`;
  return rest === 0 ? `${String(hours)} h` : `${String(hours)} h ${String(rest)} min`;
}

interface Clock {
  readonly at: number;
  /** `14:20`; with its day where that is another one than now. */
  readonly of: (iso: string) => string;
  readonly until: (iso: string) => number;
}

function clockAt(at: Date, zone: string): Clock {
  const now = at.getTime();
  const today = toLocal(Math.floor(now / 60_000), zone).date;
  return {
    at: now,
    of: (iso) => {
      const { date, time } = toLocal(minuteOf(iso), zone);
      return date === today ? time : localWords(iso, zone);
    },
    until: (iso) => Date.parse(iso) - now,
  };
}

/**
 * What an alarm says at the moment `at` that it rings, times on the wall of the yard. Null: what
 * it warned of is over, so that it would only mislead.
 */
export function alarmWords(facts: AlarmFacts, at: Date, zone: string): string | null {
  const clock = clockAt(at, zone);
  switch (facts.kind) {
    case 'opens': {
      const left = clock.until(facts.opensAt);
      return left > 0
        ? `${facts.what} opens in ${span(left)}, at ${clock.of(facts.opensAt)}.`
        : `${facts.what} is open since ${clock.of(facts.opensAt)}.`;
    }
    case 'closes':
      return closes(facts, clock);
    case 'missed':
      return missed(facts, clock);
    case 'too-cold':
      return tooCold(facts, clock);
    case 'pot-life':
      return potLife(facts, clock);
    case 'lapses':
      return clock.until(facts.lapsesAt) <= 0
        ? null
        : `${facts.what}: your claim lapses in ${span(clock.until(facts.lapsesAt))}, at ` +
            `${clock.of(facts.lapsesAt)}. Start it, or it is free again.`;
    case 'overrun':
      return (
        `${facts.what} runs over: it was to be done by ${clock.of(facts.expectedAt)}. ` +
        'Say how much is left, or what holds it up.'
      );
    case 'unbegun':
      return (
        `${facts.what} should have begun at ${clock.of(facts.startsAt)}; nobody has begun it. ` +
        'Begin it, or say what holds it up.'
      );
  }
}

function closes(facts: FactsOf<'closes'>, clock: Clock): string | null {
  const { what, verb, closesAt, startBy, otherwise, after } = facts;
  const left = clock.until(closesAt);
  if (left <= 0) return null;
  const head = `${what} closes in ${span(left)}: `;
  const then = after === '' ? '' : ` After that ${after}.`;
  if (clock.until(startBy) < 0) {
    return `${head}it takes longer than that, so ask the foreman before you begin.${then}`;
  }
  const by =
    startBy === closesAt
      ? `${verb ?? 'begin'} by ${clock.of(closesAt)}`
      : `begin${verb === null ? '' : ` to ${verb}`} by ${clock.of(startBy)} ` +
        `to be done by ${clock.of(closesAt)},`;
  return `${head}${by} or ${otherwise}.${then}`;
}

function missed({ what, closesAt, rework, otherWay }: FactsOf<'missed'>, clock: Clock): string {
  if (rework !== null) return `${what}: preparation added. ${rework.words}`;
  if (otherWay !== null) return `${what} missed. ${otherWay}`;
  return (
    `${what} missed: its window shut at ${clock.of(closesAt)}. ` +
    'Nothing goes on it before the foreman has looked at it.'
  );
}

const degrees = (celsius: number): string => `${celsius.toFixed(1).replace(/\.0$/, '')} °C`;

function tooCold(facts: FactsOf<'too-cold'>, clock: Clock): string | null {
  const { what, place, material, minimumC, celsius, from, until, awaited, spoils } = facts;
  if (until !== null && clock.until(until) <= 0) return null;
  const begins = clock.until(from);
  const when = begins > 0 ? `from ${clock.of(from)} ` : '';
  const end = until === null ? '' : ` until ${clock.of(until)}`;
  const harm = spoils
    ? 'Cold spoils it: test the film before anything goes on it.'
    : 'It stands still until it is warmer.';
  return (
    `${what}: too cold to cure. ${place} is ${when}down to ${degrees(celsius)}${end}, ` +
    `${material} needs ${degrees(minimumC)}, and it is not ${awaited} yet. ${harm} ` +
    'Warm it without a flame: vapours burn, and a fire without a flue brings water and carbon monoxide.'
  );
}

function potLife(facts: FactsOf<'pot-life'>, clock: Clock): string {
  const { what, cup, cups, grams, mixedAt, endsAt } = facts;
  const which = cups === 1 ? '' : `, cup ${String(cup)} of ${String(cups)}`;
  const verb = clock.until(endsAt) > 0 ? 'ends' : 'ended';
  return (
    `${what}: pot life of this cup ${verb} at ${clock.of(endsAt)} (${String(grams)} g mixed at ` +
    `${clock.of(mixedAt)}${which}). Spread none of it once it strings, mix nothing into it, and put a ` +
    'cup that grows hot outside, where nobody breathes it.'
  );
}
