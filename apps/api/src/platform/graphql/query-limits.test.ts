import { readFileSync } from 'node:fs';
import { buildSchema, getIntrospectionQuery, parse } from 'graphql';
import { describe, expect, it } from 'vitest';
import { DomainError } from '#kernel/error.ts';
import { costOf } from './query-cost.ts';
import { assertIsText, subscriptionFaults } from './query-limits.ts';
import { assertQuerySize } from './query-size.ts';

const schema = buildSchema(
  readFileSync(new URL('../../../schema.graphql', import.meta.url), 'utf8'),
);

/** The code and the words of what a function throws; null where it does not. */
function refusalOf(work: () => unknown): { code: string; words: string } | null {
  try {
    work();
    return null;
  } catch (error) {
    if (error instanceof DomainError) return { code: error.code, words: error.message };
    throw error;
  }
}
const sizeOf = (query: string, introspection = true) =>
  refusalOf(() => {
    assertQuerySize(parse(query), introspection);
  });
const nested = (levels: number): string => `${'{ a '.repeat(levels)}${'}'.repeat(levels)}`;
const many = (count: number, field: (n: number) => string): string =>
  Array.from({ length: count }, (_, n) => field(n)).join(' ');

describe('the size of a query', () => {
  it('is bounded in depth, roots, aliases and fields', () => {
    expect(sizeOf(nested(12))).toBeNull();
    expect(sizeOf(nested(13))).toEqual({
      code: 'input.limit',
      words: 'The query has 13 levels; at most 12 are answered.',
    });
    expect(sizeOf(`{ ${many(20, (n) => `a${String(n)}: me { name }`)} }`)).toBeNull();
    expect(sizeOf(`{ ${many(21, (n) => `a${String(n)}`)} }`)?.words).toContain(
      '21 fields at the top',
    );
    expect(sizeOf(`{ a { ${many(51, (n) => `b${String(n)}: b`)} } }`)?.words).toContain(
      '51 aliases',
    );
    expect(sizeOf(`{ a { ${many(1000, (n) => `b${String(n)}`)} } }`)?.words).toContain(
      '1001 fields',
    );
  });

  it('is counted with the fragments written out, however they multiply', () => {
    const doubling = many(
      40,
      (n) => `fragment f${String(n)} on Me { ...f${String(n + 1)} ...f${String(n + 1)} }`,
    );
    expect(sizeOf(`{ me { ...f0 } } ${doubling} fragment f40 on Me { name }`)?.code).toBe(
      'input.limit',
    );
    expect(sizeOf(`{ ...f } fragment f on Query { ${nested(12).slice(1, -1)} }`)).toBeNull();
    expect(sizeOf(`{ ...f } fragment f on Query ${nested(13)}`)?.words).toContain('13 levels');
  });

  it('ends with fragments in a circle or missing', () => {
    expect(
      sizeOf('{ ...f } fragment f on Query { me { name } ...g } fragment g on Query { ...f ...h }'),
    ).toBeNull();
  });

  it('does not bound the standard introspection, unless that is off', () => {
    const query = getIntrospectionQuery({ inputValueDeprecation: true, specifiedByUrl: true });
    expect(sizeOf(query)).toBeNull();
    expect(costOf(schema, parse(query), {}).nodes).toBeLessThan(10);
    expect(sizeOf('{ __type(name: "Boat") { name } }', false)?.code).toBe('input.limit');
    expect(sizeOf('{ me { __typename } }', false)).toBeNull();
    const deep =
      '{ __schema { types { ofType ' + `${'{ ofType '.repeat(18)}{ name }${' }'.repeat(18)} } } }`;
    expect(sizeOf(deep)?.words).toContain('of the schema');
  });

  it('covers text that only a literal holds', () => {
    expect(sizeOf('{ a(b: "x\\u0000") }')).toMatchObject({ code: 'input.field' });
    expect(sizeOf('{ a(b: "x\\\\u0000") }')).toBeNull();
  });
});

describe('the cost of a query', () => {
  const cost = (query: string, variables = {}) => costOf(schema, parse(query), variables);
  const boats = (first: string) =>
    `query ($n: Int) { boats(yardId: "y"${first}) { items { id refits { id } } nextCursor } }`;

  it('is its fields, a page as often as was asked for, a list some five times', () => {
    // boats, nextCursor, items; each boat an id, refits, and each of five refits an id.
    const each = 1 + 1 + 5 * 1;
    expect(cost(boats('')).nodes).toBe(1 + 1 + 1 + 50 * each);
    expect(cost(boats(', first: 200')).nodes).toBe(1 + 1 + 1 + 200 * each);
    expect(cost(boats(', first: $n'), { n: 3 }).nodes).toBe(1 + 1 + 1 + 3 * each);
    expect(cost(boats(', first: $n')).nodes).toBe(1 + 1 + 1 + 50 * each);
  });

  it('is the same in fragments', () => {
    const query =
      '{ ...q } fragment q on Query { boats(yardId: "y") { ...p } } fragment p on BoatPage { ... on BoatPage { items { id refits { id } } nextCursor } }';
    expect(cost(query)).toEqual({ ...cost(boats('')), calls: 1 });
  });

  it('counts calls at the top', () => {
    expect(
      cost('{ a: me { name } ...f } fragment f on Query { b: me { name } c: me { name } }').calls,
    ).toBe(3);
  });

  it('is bounded, in words', () => {
    const wide = many(
      10,
      (n) =>
        `p${String(n)}: boats(yardId: "y", first: 200) { items { id name owner refits { id name parts { id } } } }`,
    );
    const refusal = refusalOf(() => cost(`{ ${wide} }`));
    expect(refusal?.code).toBe('input.limit');
    expect(refusal?.words).toMatch(/may give \d+ values; at most 50000/);
  });
});

describe('a query over a socket', () => {
  const faults = (query: string, variables?: Record<string, unknown>) =>
    subscriptionFaults(schema, { query, variables }, true).map(({ message }) => message);

  it('is judged like one over HTTP', () => {
    expect(faults('subscription { events(yardId: "y") { id } }')).toEqual([]);
    expect(faults('subscription { events(yardId: "y") { nothing } }')).toHaveLength(1);
    const asked = 'subscription ($y: ID!) { events(yardId: $y) { id } }';
    expect(faults(asked, { y: 'y' })).toEqual([]);
    expect(faults(asked)).toEqual([expect.stringContaining('"$y"')]);
    expect(faults(asked, { y: [[]] })).toEqual([expect.stringContaining('"$y"')]);
    expect(faults('subscription {')).toEqual([expect.stringContaining('Syntax Error')]);
    for (const [query, code] of [
      ['{ me { name } }', 'input.malformed'],
      ['null', 'input.malformed'],
      [`subscription ${nested(13)}`, 'input.limit'],
    ] as const) {
      expect(refusalOf(() => faults(query))?.code).toBe(code);
    }
    expect(
      refusalOf(() => faults('subscription { events(yardId: "y") { id } }', { a: '\0' }))?.code,
    ).toBe('input.field');
  });
});

it.each(['null', '{}', '[1]', '{"kind": "Document", "definitions": []}', 7, null])(
  'takes no %s for a query',
  (source) => {
    expect(
      refusalOf(() => {
        assertIsText(source);
      })?.code,
    ).toBe('input.malformed');
  },
);
