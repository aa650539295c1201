import { formatLocal } from '#calendar/local-time.ts';
import { crewHours, laterOrEarlier } from '../words/span.ts';
import type { Price } from './price.ts';

const number = (value: number): string => String(Number(value.toFixed(2)));
const moreOrLess = (value: number): string => (value < 0 ? 'less' : 'more');

/** What becomes of a promise that is not kept. */
function lateWords({ lateWithout, lateWith }: Price['boats'][number]): string {
  if (lateWith === 0) return lateWithout > 0 ? ' That is in time, which it was not.' : '';
  if (lateWithout > 0) return ' It is later than promised either way.';
  return ' That is later than promised.';
}

function boatWords(boat: Price['boats'][number], zone: string): string {
  const finish = formatLocal(boat.with, 0, zone);
  if (boat.minutes === 0) return `${boat.boat}: finished ${finish}, as without it.`;
  return `${boat.boat}: finished ${finish}, ${laterOrEarlier(boat.minutes)}.${lateWords(boat)}`;
}

const names = new Intl.ListFormat('en');

/** Boats that it moves one by one, for they are what is asked about; several that it leaves, in one line. */
function boatsWords(boats: Price['boats'], zone: string): string[] {
  const moved = boats.filter(({ minutes }) => minutes !== 0);
  const left = boats.filter(({ minutes }) => minutes === 0);
  const told = (moved.length === 0 ? boats : moved).map((boat) => boatWords(boat, zone));
  if (moved.length === 0 || left.length === 0) return told;
  return [...told, `${names.format(left.map(({ boat }) => boat))}: finished as without it.`];
}

/** A price line by line: hours by skill, materials, then boats. */
export function priceWords(price: Price, zone: string): string[] {
  const work = price.work.flatMap(({ name, minutes }) => {
    const hours = crewHours(minutes);
    return hours === null ? [] : [`${name}: ${hours} ${moreOrLess(minutes)}.`];
  });
  const materials = price.materials.map(
    ({ name, amount, unit }) =>
      `${name}: ${number(Math.abs(amount))} ${unit} ${moreOrLess(amount)}.`,
  );
  return [
    ...(work.length === 0 ? ['No crew hours more or less.'] : work),
    ...materials,
    ...boatsWords(price.boats, zone),
  ];
}
