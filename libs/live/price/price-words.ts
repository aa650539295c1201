import { formatLocal } from '#calendar/local-time.ts';
import type { Price } from './price.ts';

const number = (value: number): string => String(Number(value.toFixed(2)));
const moreOrLess = (value: number): string => (value < 0 ? 'less' : 'more');

/** `2 days 3 h`; days of 24 hours, for they are days on the calendar. */
function span(minutes: number): string {
  const whole = Math.abs(Math.round(minutes));
  const [days, h, min] = [Math.floor(whole / 1440), Math.floor((whole % 1440) / 60), whole % 60];
  const parts = [
    days === 0 ? '' : days === 1 ? '1 day' : `${String(days)} days`,
    h === 0 ? '' : `${String(h)} h`,
    min === 0 || days > 0 ? '' : `${String(min)} min`,
  ].filter((part) => part !== '');
  return parts.length === 0 ? 'no time' : parts.join(' ');
}

/** What becomes of a promise that is not kept. */
function lateWords({ lateWithout, lateWith }: Price['boats'][number]): string {
  if (lateWith === 0) return lateWithout > 0 ? ' That is in time, which it was not.' : '';
  if (lateWithout > 0) return ' It is later than promised either way.';
  return ' That is later than promised.';
}

function boatWords(boat: Price['boats'][number], zone: string): string {
  const finish = formatLocal(boat.with, 0, zone);
  if (boat.minutes === 0) return `${boat.boat}: finished ${finish}, as without it.`;
  const moved = `${span(boat.minutes)} ${boat.minutes > 0 ? 'later' : 'earlier'}`;
  return `${boat.boat}: finished ${finish}, ${moved}.${lateWords(boat)}`;
}

/** A price line by line: hours by skill, materials, then each boat. */
export function priceWords(price: Price, zone: string): string[] {
  const work = price.work.map(
    ({ name, minutes }) =>
      `${name}: ${number(Math.abs(minutes) / 60)} crew hours ${moreOrLess(minutes)}.`,
  );
  const materials = price.materials.map(
    ({ name, amount, unit }) =>
      `${name}: ${number(Math.abs(amount))} ${unit} ${moreOrLess(amount)}.`,
  );
  return [
    ...(work.length === 0 ? ['No crew hours more or less.'] : work),
    ...materials,
    ...price.boats.map((boat) => boatWords(boat, zone)),
  ];
}
