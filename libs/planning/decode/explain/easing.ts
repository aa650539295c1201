import { within, type Cause, type Wait } from './sentences.ts';

/** What would be otherwise if a cause held nobody back, as the first half of a sentence. */
export function easing(cause: Cause, { to, from }: Omit<Wait, 'until'>): string {
  const before = from ?? 'what comes before';
  switch (cause.kind) {
    case 'sequence':
      return `If ${to} did not have to come after ${before}`;
    case 'order':
      return `If the foreman had not ordered ${to} after ${before}`;
    case 'wait':
      return `Without the ${String(cause.minutes)} min between ${before} and ${to}`;
    case 'film':
      return `If ${before} were ${cause.state} for ${to} at once`;
    case 'closing':
      return `If ${to}, after ${before}, did not have to be over ${within(cause.window)}`;
    case 'not-before':
      return `If ${before}, after ${to}, did not have to be over ${within(cause.window)}`;
    case 'batch':
      return `If ${to} did not have to be over ${within(cause.window)}`;
    case 'builder':
      return `With one more who can do what ${cause.person} does`;
    case 'calendar':
      return `If ${cause.person} were at work at all hours`;
    case 'crew':
      return `If ${to} needed nobody in particular`;
    case 'room':
      return `With room for one more in ${cause.space}`;
    case 'tool':
      return `With one more of ${cause.tool}`;
    case 'hours':
      return `If ${cause.what} could be used at all hours`;
    case 'stock':
      return `With enough of ${cause.stock}`;
    case 'part':
      return `If more than one could work on ${cause.part}`;
    case 'place':
      return `If ${cause.part} could be worked on wherever it is`;
    case 'dust':
    case 'open-film':
      return `If no dust reached ${cause.space}`;
    case 'surface':
      return `If what ${to} leaves open might be dusty at once`;
    case 'barrier':
      return `If ${cause.barrier} needed nobody to open and close it`;
    case 'hold':
      return `If ${cause.tool} were free as soon as the work is over`;
    case 'boat':
      return 'If the boat were there at once';
    case 'now':
      return 'Had the plan begun earlier';
    case 'delivery':
      return `If ${cause.delivery} were there at once`;
    case 'word':
      return `If the word on ${to} came at once`;
    case 'climate':
      return `If ${cause.material} could be laid in ${cause.space} in any climate`;
    case 'slots':
      return `If ${cause.list} could be had at any time`;
    case 'fixed':
      return `If ${to} were not held where the foreman has put it`;
    case 'choice':
      return `If none of the ways of ${cause.choice} had to be taken`;
    case 'horizon':
      return 'If the plan ended later';
    case 'loose':
      return `If ${to} began earlier`;
  }
}

const DAY = 1440;

/** `1 day 2 h 10 min`; elapsed time, not working time. */
export function elapsed(minutes: number): string {
  const days = Math.floor(minutes / DAY);
  const hours = Math.floor((minutes % DAY) / 60);
  const words = [
    days === 0 ? '' : `${String(days)} ${days === 1 ? 'day' : 'days'}`,
    hours === 0 ? '' : `${String(hours)} h`,
    minutes % 60 === 0 ? '' : `${String(minutes % 60)} min`,
  ].filter((word) => word !== '');
  return words.length === 0 ? '0 min' : words.join(' ');
}

/** What a refit gains (or, below 0, loses) by it, as the second half. */
export const gains = (refit: string, minutes: number): string =>
  minutes > 0
    ? `${elapsed(minutes)} earlier for ${refit}`
    : `${elapsed(-minutes)} later for ${refit}`;
