import type { z } from 'zod';
import { unitCure } from '#cure/climate/plausible.ts';
import { fault, type Fault } from '#kernel/error.ts';
import { pathOf, show, valueAt } from './path.ts';

type Issue = z.core.$ZodIssue;

const kinds: Partial<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
};
const kindOf = (name: string): string => kinds[name] ?? name;

const formats: Partial<Record<string, string>> = {
  datetime: 'an instant with its offset, like 2026-11-30T07:00:00+01:00',
  date: 'a date, like 2026-11-30',
  email: 'an e-mail address',
};

const entries = (count: number | bigint): string =>
  `${String(count)} ${count === 1 || count === 1n ? 'entry' : 'entries'}`;

function sizeMessage(
  origin: string,
  value: unknown,
  limit: number | bigint,
  below: boolean,
  side: string,
): string {
  if (origin === 'array') {
    return `the list has ${entries(Array.isArray(value) ? value.length : 0)}; ${side} ${String(limit)} allowed`;
  }
  if (origin === 'string')
    return `${show(value)} is too ${below ? 'short' : 'long'}; ${side} ${String(limit)} characters`;
  return `${show(value)} is too ${below ? 'small' : 'large'}; ${side} ${String(limit)}`;
}

/** A temperature that no shape lets through can only be of another unit; so can a humidity below 1. */
function unitOf({ path }: Issue, value: unknown): string | null {
  if (typeof value !== 'number') return null;
  const field = path.findLast((segment) => typeof segment === 'string') ?? '';
  if (/^celsius$|C$/.test(field) && value > 200) return unitCure(value);
  if (/^(humidity|percent)$/.test(field) && value > 0 && value < 1)
    return `Give percent: if ${String(value)} is a share of 1, it is ${String(Math.round(value * 100))} %.`;
  return null;
}

/** What is wrong, naming the value, and what would be right. */
function words(issue: Issue, value: unknown): { message: string; cure: string } {
  switch (issue.code) {
    case 'invalid_type': {
      const wanted = kindOf(issue.expected);
      return value === undefined
        ? { message: 'this field is missing', cure: `Add it: ${wanted}.` }
        : { message: `${show(value)} is not ${wanted}`, cure: `Write ${wanted} here.` };
    }
    case 'invalid_format': {
      const wanted = formats[issue.format];
      return wanted === undefined
        ? {
            message: `${show(value)} cannot be used here: ${issue.message}`,
            cure: `Correct it: ${issue.message}.`,
          }
        : { message: `${show(value)} is not ${wanted}`, cure: `Write ${wanted}.` };
    }
    case 'too_small': {
      const side = issue.inclusive === false ? 'more than' : 'at least';
      return {
        message: sizeMessage(issue.origin, value, issue.minimum, true, side),
        cure: unitOf(issue, value) ?? `Give ${side} ${String(issue.minimum)}.`,
      };
    }
    case 'too_big': {
      const side = issue.inclusive === false ? 'less than' : 'at most';
      return {
        message: sizeMessage(issue.origin, value, issue.maximum, false, side),
        cure: unitOf(issue, value) ?? `Give ${side} ${String(issue.maximum)}.`,
      };
    }
    case 'invalid_value': {
      const choices = issue.values.map(show).join(', ');
      const wanted = issue.values.length === 1 ? choices : `one of ${choices}`;
      return value === undefined
        ? { message: 'this field is missing', cure: `Add it: ${wanted}.` }
        : { message: `${show(value)} is not ${wanted}`, cure: `Write ${wanted}.` };
    }
    case 'invalid_union': {
      const options =
        'options' in issue && Array.isArray(issue.options)
          ? issue.options.map(show).join(', ')
          : 'the documented kinds';
      return {
        message: `${show(value)} is not one of ${options}`,
        cure: `Write one of ${options}.`,
      };
    }
    default:
      return {
        message: `${show(value)} cannot be used here: ${issue.message}`,
        cure: 'Correct the named field.',
      };
  }
}

function faultsOf(json: unknown, issue: Issue): Fault[] {
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) =>
      fault('input.field', pathOf([...issue.path, key]), `there is no field ${show(key)} here`, {
        value: valueAt(json, [...issue.path, key]),
        cure: 'Remove it, or correct its spelling.',
      }),
    );
  }
  const value = valueAt(json, issue.path);
  const { message, cure } = words(issue, value);
  return [
    fault('input.field', pathOf(issue.path), message, {
      ...(value === undefined ? {} : { value }),
      cure,
    }),
  ];
}

/** Every fault of shape in plain words, each naming the value found. */
export const shapeFaults = (json: unknown, error: z.ZodError): Fault[] =>
  error.issues.flatMap((issue) => faultsOf(json, issue));
