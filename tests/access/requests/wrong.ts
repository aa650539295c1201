import type { Choose } from './choose.ts';

type Path = readonly (string | number)[];

/** Values that no field of ours has, or none of that size. */
const odd: readonly unknown[] = [
  ...[null, true, -1, 0, 1.5, 2 ** 31, 2 ** 53, -(2 ** 63), 1e308, 5e-324],
  ...['', ' ', '0', 'null', 'NaN', 'a\u0000b', '\u0000', '\u202Eevas', 'é', 'e\u0301', '😀'],
  ...['\uD800', '\uFFFF', "' OR 1=1 --", '${7*7}', '../../etc/passwd', '%00', '<script>'],
  ...['x'.repeat(10_000), '9'.repeat(400), [], {}, [[]], [null], { $ne: null }],
];

const unknownFields = ['__proto__', 'constructor', 'yardId', 'accountId', 'roles', 'isAdmin', 'ß'];

/** Every place in a value, the value itself first. */
function places(value: unknown, at: Path = []): Path[] {
  if (typeof value !== 'object' || value === null) return [at];
  const inner = Array.isArray(value)
    ? value.map((item: unknown, index): [number, unknown] => [index, item])
    : Object.entries(value);
  return [at, ...inner.flatMap(([key, item]) => places(item, [...at, key]))];
}

/** The value with what is at a place replaced; undefined leaves it out. */
function replaced(value: unknown, place: Path, by: unknown): unknown {
  if (place.length === 0) return by;
  const [key, ...rest] = place;
  if (Array.isArray(value)) {
    return value.map((item: unknown, index) => (index === key ? replaced(item, rest, by) : item));
  }
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([name, item]): [string, unknown] => [
    name,
    name === key ? replaced(item, rest, by) : item,
  ]);
  return Object.fromEntries(entries.filter(([, item]) => item !== undefined));
}

const nested = (levels: number): unknown => {
  let value: unknown = 'end';
  for (let level = 0; level < levels; level += 1) value = level % 2 === 0 ? [value] : { value };
  return value;
};

/** A value with one thing wrong in it; `foreign` are ids that it has no business to name. */
export function wrongValue(value: unknown, choose: Choose, foreign: readonly string[]): unknown {
  const all = places(value);
  const place = choose.of(all);
  switch (choose.between(0, 7)) {
    case 0:
      return place.length > 0 ? replaced(value, place, undefined) : undefined;
    case 1:
      return replaced(value, place, nested(choose.of([3, 40, 400])));
    case 2: {
      const field = choose.of(unknownFields);
      if (typeof value !== 'object' || value === null || Array.isArray(value))
        return { [field]: 1 };
      // A key of that name, not the object's prototype: as JSON.parse makes it.
      return Object.defineProperty({ ...value }, field, {
        value: choose.of(odd),
        enumerable: true,
        configurable: true,
        writable: true,
      });
    }
    case 3:
      return replaced(value, place, choose.of(foreign));
    case 4:
      return replaced(
        value,
        place,
        Array.from({ length: choose.of([30, 3_000]) }, () => 0),
      );
    default:
      return replaced(value, place, choose.of(odd));
  }
}

/** JSON that is none, or says more than it should. */
export function wrongText(json: string, choose: Choose): string {
  switch (choose.between(0, 6)) {
    case 0:
      return json.slice(0, choose.between(0, Math.max(0, json.length - 1)));
    case 1:
      return `${json}${json}`;
    case 2:
      return json.replace(/\d+/, '1e999');
    case 3:
      return '['.repeat(choose.of([10, 1_000, 100_000]));
    case 4:
      return json.replace('{', '{"__proto__":{"roles":["foreman"]},');
    case 5:
      return json.replace('{', '{"id":"a","id":"b",');
    default:
      return `\uFEFF${json}`;
  }
}

const odderTexts = [
  ...[
    '%00',
    '%2e%2e%2f',
    '%ff',
    'x'.repeat(301),
    'x'.repeat(9_000),
    '%F0%9F%98%80',
    '..',
    '%',
    '*',
  ],
  ...['9999999999999999999999', '-1', 'null', '%E2%80%AE', 'a%2Fb', '%27%20OR%201%3D1'],
];

/** A piece of an address that no id is. */
export const wrongSegment = (choose: Choose): string => choose.of(odderTexts);

const odderQueries = [
  ...['first=0', 'first=1e3', 'first=-1', 'first=201', 'first=x', 'first=1&first=2', 'first[]=1'],
  ...['after=', 'after=zz', 'after=%00', 'unknown=1', '__proto__=1', '__proto__[x]=1', '%', '&&=&'],
  ...[`after=${'x'.repeat(4_000)}`, 'from=2026-13-40', 'first=%F0%9F%98%80', 'mine=maybe'],
];
export const wrongQuery = (choose: Choose): string => choose.of(odderQueries);

const odderHeaders: readonly Readonly<Record<string, string>>[] = [
  { 'if-match': '*' },
  { 'if-match': 'W/"1"' },
  { 'if-match': '"99999999999999999999"' },
  { 'idempotency-key': ' ' },
  { 'idempotency-key': 'é'.repeat(300) },
  { 'last-event-id': '-1' },
  { 'last-event-id': '99999999999999999999' },
  { 'content-type': 'text/plain' },
  { 'content-type': 'application/x-www-form-urlencoded' },
  { 'content-type': 'application/json; charset=utf-16' },
  { 'content-encoding': 'gzip' },
  { accept: 'text/html;q=x' },
  { origin: 'https://elsewhere.example' },
  { 'x-forwarded-for': '"><script>' },
  { 'x-http-method-override': 'DELETE' },
  { cookie: 'curewright_session=; __proto__=1; =; a' },
];
export const wrongHeaders = (choose: Choose): Readonly<Record<string, string>> =>
  choose.of(odderHeaders);

/** A query that GraphQL should refuse, out of one that it would not. */
export function wrongQueryText(query: string, choose: Choose): string {
  switch (choose.between(0, 8)) {
    case 0:
      return query.slice(0, choose.between(0, query.length - 1));
    case 1:
      return query.replace('{', '{ nothingOfTheKind ');
    case 2:
      return `{ ${Array.from({ length: 300 }, (_, k) => `a${k}: __typename`).join(' ')} }`;
    case 3:
      return `{ ${'boats(yardId: "a") { items { refits { parts '.repeat(20)}`;
    case 4:
      return `{ __schema { types { fields { type { ofType { ofType { ofType { name } } } } } } } }`;
    case 5:
      return '{ ...a } fragment a on Query { ...b } fragment b on Query { ...a }';
    case 6:
      return query.replace('{', `{ __typename ${'@skip(if: false)'.repeat(200)} `);
    case 7:
      return query.replaceAll('!', '');
    default:
      return `${query} ${query}`;
  }
}
