import { earliestStart, latestStart } from '#cure/clock/cure-clock.ts';
import type { Milestone } from '#cure/material/material.ts';
import { becoming, closing } from '../decode/reading/film.ts';
import type { When } from '../decode/sheet.ts';
import type { Yard } from '../yard/yard.ts';
import { around, askedMaterial, askedSpace, assumedIn } from './around.ts';

/** A film that is to be somewhere by a moment: sandable at seven tomorrow. */
export interface StartQuestion {
  readonly material: string;
  readonly space: string;
  readonly milestone: Milestone;
  readonly by: string;
  /** How long it takes to lay. */
  readonly minutes: number;
}

export interface StartFor {
  /** When the work may begin at the latest; of a milestone that ends something, at the earliest. */
  readonly start: When | null;
  readonly bound: 'latest' | 'earliest';
  /** From then on the outdoor table does not say it all: a day is repeated. */
  readonly assumed: boolean;
  /** Null: not within the days before that were looked at. */
  readonly words: string;
}

const BACK_DAYS = 60;

/**
 * When to lay a film so that it has reached a milestone by a moment, safely: reckoned with the
 * coldest that the space may be. Of a milestone that ends something (pot life, open time, gel, tack, bond
 * window) it is the start from which on it has not ended by then, reckoned with the warmest.
 * Throws yard.reference, and cure.missing for a milestone that the sheet has no number for.
 */
export function startFor(yard: Yard, asked: StartQuestion): StartFor {
  const { material, space, milestone, by, minutes } = asked;
  askedMaterial(yard, material);
  askedSpace(yard, space);
  const from = new Date(Date.parse(by) - BACK_DAYS * 86_400_000).toISOString();
  const subject = { spaces: [space], materials: [material] };
  const seen = around(yard, from, BACK_DAYS + 1, subject);
  const { films, frame, at } = seen;
  const wanted = frame.minuteOf(by);
  const ends = closing.has(milestone);
  const clock = films.clock(material, milestone, ends ? 'close' : 'open', [space]);
  // A closing counts from the first that is laid, which is the start; an opening from the last.
  const found = ends ? earliestStart(clock, wanted) : (latestStart(clock, wanted) ?? -1) - minutes;
  const start = found >= 0 ? at.when(found) : null;
  const bound = ends ? 'earliest' : 'latest';
  const assumed = assumedIn(seen, yard, subject, [Math.max(0, found), wanted]);
  const words = wordsOf(start && at.words(found), asked, at.words(wanted));
  return { start, bound, assumed, words };
}

function wordsOf(start: string | null, { milestone }: StartQuestion, by: string): string {
  const ends = closing.has(milestone);
  const what = becoming[milestone];
  if (ends) {
    return start === null
      ? `Laid at any time in the ${String(BACK_DAYS)} days before, it is not ${what} on ${by}.`
      : `Begin no earlier than ${start}, or it may be ${what} by ${by}.`;
  }
  return start === null
    ? `Even laid ${String(BACK_DAYS)} days before it is not sure to be ${what} by ${by}.`
    : `Begin by ${start} for it to be ${what} by ${by}.`;
}
