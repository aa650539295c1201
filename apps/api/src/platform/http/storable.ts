import { DomainError, fault } from '#kernel/error.ts';
import { pathOf } from '#planning/yard/path.ts';

/** A yard file needs nine. */
const deepest = 40;

/** A value on the way in, and how it was come to. */
interface Place {
  readonly value: unknown;
  readonly key: string | number;
  readonly outer: Place | null;
  readonly depth: number;
}

/**
 * Refuses what no record could hold: text with U+0000, which PostgreSQL's text has not, or with
 * half a surrogate pair (RFC 8259, 8.2), which its JSON has not; and nesting that would be too deep
 * for whoever reads it. `name` begins the paths. Not recursive, or it would be at fault itself.
 */
export function assertStorable(value: unknown, name = ''): void {
  const left: Place[] = [{ value, key: name, outer: null, depth: 0 }];
  for (let place = left.pop(); place !== undefined; place = left.pop()) {
    if (typeof place.value === 'string') assertText(place.value, place);
    else if (typeof place.value === 'object' && place.value !== null) {
      if (place.depth === deepest) throw tooDeep();
      left.push(...inside(place, place.value));
    }
  }
}

function inside(outer: Place, value: object): Place[] {
  const depth = outer.depth + 1;
  if (Array.isArray(value)) {
    return value.map((item: unknown, key) => ({ value: item, key, outer, depth }));
  }
  return Object.entries(value).map(([key, item]) => {
    const place = { value: item as unknown, key, outer, depth };
    assertText(key, place);
    return place;
  });
}

function assertText(text: string, place: Place): void {
  const isWhole = !text.includes('\0');
  if (isWhole && text.isWellFormed()) return;
  const what = isWhole ? 'half of a surrogate pair' : 'the character NUL (U+0000)';
  // A key may itself be what is wrong; no answer repeats it as it is.
  const path = clean(pathOf(keysTo(place).filter((key) => key !== '')));
  const wrong = fault('input.field', path, `the text holds ${what}, which cannot be kept`, {
    value: clean(text).slice(0, 60),
    cure: 'Take that character out.',
  });
  throw new DomainError('input.field', [path, wrong.message].filter(Boolean).join(': '), {
    cure: wrong.cure,
    faults: [wrong],
  });
}

function keysTo(place: Place): (string | number)[] {
  const keys: (string | number)[] = [];
  for (let at: Place | null = place; at !== null; at = at.outer) keys.unshift(at.key);
  return keys;
}

const clean = (text: string): string => text.toWellFormed().replaceAll('\0', '\uFFFD');

const tooDeep = (): DomainError =>
  new DomainError('input.limit', `The JSON is nested more than ${String(deepest)} deep.`, {
    cure: 'Send the documented shape.',
  });
