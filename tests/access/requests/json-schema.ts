import fc from 'fast-check';
import type { Choose } from './choose.ts';

/** As much of JSON Schema 2020-12 as the document of this service uses. */
export interface JsonSchema {
  readonly $ref?: string;
  readonly type?: string | readonly string[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly anyOf?: readonly JsonSchema[];
  readonly oneOf?: readonly JsonSchema[];
  readonly allOf?: readonly JsonSchema[];
  readonly properties?: Readonly<Record<string, JsonSchema>>;
  readonly required?: readonly string[];
  readonly items?: JsonSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly exclusiveMaximum?: number;
}

export type Schemas = Readonly<Record<string, JsonSchema>>;

export interface Making {
  readonly schemas: Schemas;
  readonly choose: Choose;
  /** The share of fields that may be left out which are given. */
  readonly fullness: number;
  /** What fields have by their names alone. */
  readonly given?: Readonly<Record<string, unknown>>;
  /** A text for a field by its name and shape, where it refers to a record say; undefined: make one. */
  readonly text: (field: string, schema: JsonSchema) => string | undefined;
}

/** Deeper than this only what must be there is made: shapes of shapes would grow without end. */
const deepest = 5;

/** A value that fits the schema; `field` is the name that it will stand under. */
export function valueOf(schema: JsonSchema, making: Making, field = '', depth = 0): unknown {
  const { choose, schemas, given = {} } = making;
  if (Object.hasOwn(given, field)) return given[field];
  if (schema.$ref !== undefined) return valueOf(named(schema.$ref, schemas), making, field, depth);
  if ('const' in schema) return schema.const;
  if (schema.enum) return choose.of(schema.enum);
  const options = schema.anyOf ?? schema.oneOf;
  if (options) {
    const empty = options.find(({ type }) => type === 'null');
    if (empty && (depth > deepest || !choose.chance(making.fullness))) return null;
    return valueOf(choose.of(options.filter((option) => option !== empty)), making, field, depth);
  }
  if (schema.allOf) {
    const parts = schema.allOf.map((part) => valueOf(part, making, field, depth) as object);
    return Object.assign({}, ...parts) as unknown;
  }
  return ofType(schema, making, field, depth);
}

/** The shape that a reference leads to. */
function named($ref: string, schemas: Schemas): JsonSchema {
  const name = $ref.slice($ref.lastIndexOf('/') + 1);
  const found = schemas[name] as JsonSchema | undefined;
  if (!found) throw new TypeError(`the document has no shape "${name}"`);
  return found;
}

function ofType(schema: JsonSchema, making: Making, field: string, depth: number): unknown {
  const { choose, fullness } = making;
  const types = typeof schema.type === 'string' ? [schema.type] : (schema.type ?? []);
  const type = choose.of(types.length > 0 ? types : ['string']);
  switch (type) {
    case 'null':
      return null;
    case 'boolean':
      return choose.chance(0.5);
    case 'integer':
    case 'number':
      return numberOf(schema, choose, type === 'integer');
    case 'array': {
      const least = schema.minItems ?? 0;
      const more = depth > deepest ? 0 : choose.between(0, Math.ceil(3 * fullness));
      const count = Math.min(least + more, schema.maxItems ?? Infinity);
      const items = schema.items ?? { type: 'string' };
      return Array.from({ length: count }, () => valueOf(items, making, field, depth + 1));
    }
    case 'object': {
      const { properties = {}, required = [] } = schema;
      const given = Object.entries(properties).filter(
        ([key]) => required.includes(key) || (depth <= deepest && choose.chance(fullness)),
      );
      return Object.fromEntries(
        given.map(([key, inner]) => [key, valueOf(inner, making, key, depth + 1)]),
      );
    }
    default:
      return making.text(field, schema) ?? textOf(schema, choose);
  }
}

/** Near what people write: a bound of astronomical size says only that there is none. */
const usual = 1_000;

function numberOf(schema: JsonSchema, choose: Choose, whole: boolean): number {
  const { minimum, maximum, exclusiveMinimum, exclusiveMaximum } = schema;
  const step = whole ? 1 : 1 / 64;
  const low = minimum ?? (exclusiveMinimum === undefined ? -usual : exclusiveMinimum + step);
  const high = maximum ?? (exclusiveMaximum === undefined ? usual : exclusiveMaximum - step);
  const least = Math.max(low, Math.min(0, high) === high ? -usual : 0);
  const most = Math.max(least, Math.min(high, least + usual));
  if (choose.chance(0.1) && Math.abs(low) <= 1e9) return low;
  if (choose.chance(0.1) && Math.abs(high) <= 1e9) return high;
  const made = choose.between(0, Math.floor((most - least) / step));
  return least + made * step;
}

/** Instants are whole minutes: that is not said in a schema. */
const firstDay = Date.parse('2026-11-30T00:00:00Z');
const instantOf = (choose: Choose): string =>
  new Date(firstDay + choose.between(0, 60 * 24 * 60) * 60_000).toISOString();

const samples = new Map<string, string[]>();

/** Some texts that a pattern matches: always the same ones, chosen from by the seed. */
function matching(pattern: string): string[] {
  const known = samples.get(pattern);
  if (known) return known;
  const made = fc.sample(fc.stringMatching(new RegExp(pattern)), { numRuns: 24, seed: 1 });
  samples.set(pattern, made);
  return made;
}

const letters = Array.from({ length: 26 }, (_, k) => String.fromCharCode(97 + k));

function textOf(schema: JsonSchema, choose: Choose): string {
  const { format, pattern, minLength = 0, maxLength = 40 } = schema;
  if (format === 'date-time') return instantOf(choose);
  if (format === 'date') return instantOf(choose).slice(0, 10);
  if (format === 'email') return `${choose.of(letters)}${choose.between(0, 9_999)}@yard.test`;
  if (pattern !== undefined) {
    const fitting = matching(pattern).filter(
      ({ length }) => length >= minLength && length <= (schema.maxLength ?? Infinity),
    );
    return choose.of(fitting);
  }
  const length = Math.max(minLength, Math.min(maxLength, choose.between(1, 12)));
  return Array.from({ length }, () => choose.of(letters)).join('');
}
