import { isInputObjectType, isNonNullType, isRequiredArgument } from 'graphql';
import type { Rule, Subject } from '#access/rule.ts';
import type { Choose } from './choose.ts';
import { asGraphql, queryOf } from './graphql-values.ts';
import { type JsonSchema, type Making, type Schemas, valueOf } from './json-schema.ts';
import {
  type GraphqlOperation,
  inputShapeOf,
  type Operation,
  type RestOperation,
} from './operations.ts';
import { kindNamed, referring } from './references.ts';

/** What is to be put into an operation. */
export interface Filling {
  readonly rule: Rule;
  readonly yardId: string;
  /** The record that the call names itself, in its address or arguments. */
  readonly named: (kind: Subject) => string | undefined;
  /** Records that its body or query refers to. */
  readonly referred: (kind: Subject) => string | undefined;
  readonly kinds: ReadonlySet<Subject>;
  readonly choose: Choose;
  /** Of 0 to 1: how much of what may be left out is given. */
  readonly fullness: number;
  /** For the body's own `id`; undefined: made up. */
  readonly newId: (kind: Subject) => string | undefined;
  readonly revision: number;
  /** What fields of a body say, by their names, whatever else would fit: a password that is right. */
  readonly given?: Readonly<Record<string, unknown>>;
  /** What stands in a query though the schema lets it be left out. */
  readonly always?: ReadonlySet<string>;
}

/** A call on either face, before it becomes a request: so that one thing in it can be made wrong. */
export interface Call {
  readonly operation: Operation;
  /** Parameters of the address, or none. */
  readonly path: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  readonly headers: Readonly<Record<string, string>>;
  /** The JSON body, or GraphQL's variables. */
  readonly body: unknown;
}

export function fill(operation: Operation, filling: Filling, schemas: Schemas): Call {
  return operation.kind === 'rest'
    ? fillRest(operation, filling, schemas)
    : fillGraphql(operation, filling, schemas);
}

function making(filling: Filling, schemas: Schemas): Making {
  const { choose, fullness, referred, given = {} } = filling;
  const text: Making['text'] = (field, schema) => referring(field, schema, referred);
  return { schemas, choose, fullness, given, text };
}

function fillRest(operation: RestOperation, filling: Filling, schemas: Schemas): Call {
  const make = making(filling, schemas);
  const given = operation.parameters.filter(
    ({ in: where, required, name }) =>
      where === 'query' &&
      (required || filling.always?.has(name) === true || filling.choose.chance(filling.fullness)),
  );
  const query = given.map(({ name, schema }): [string, string] => [
    name,
    wordOf(name === 'after' ? '' : valueOf(schema, make, name)),
  ]);
  const path = namesOf(operation.path).map((name): [string, string] => [
    name,
    segment({ name }, filling),
  ]);
  const guarded = operation.parameters.some(({ name }) => name === 'If-Match');
  return {
    operation,
    path: Object.fromEntries(path),
    // An empty cursor is none.
    query: Object.fromEntries(query.filter(([, text]) => text !== '')),
    headers: guarded ? { 'if-match': `"${String(filling.revision)}"` } : {},
    body: operation.body ? bodyOf(operation.body, filling, make) : undefined,
  };
}

const wordOf = (value: unknown): string =>
  typeof value === 'string' ? value : JSON.stringify(value);

/** Of the parameters in an address. */
export const namesOf = (path: string): string[] =>
  [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name);

function segment({ name }: { readonly name: string }, filling: Filling): string {
  if (name === 'yardId') return filling.yardId;
  if (name === 'version') return '1';
  const kind = name === 'id' ? filling.rule.on : kindNamed(name, filling.kinds);
  return (kind && filling.named(kind)) ?? 'nothing';
}

/** The kind of record that a shape of a body makes. */
function kindOfShape({ $ref }: JsonSchema, { kinds }: Filling): Subject | undefined {
  return $ref === undefined ? undefined : kindNamed($ref.slice($ref.lastIndexOf('/') + 1), kinds);
}

function bodyOf(schema: JsonSchema, filling: Filling, make: Making): unknown {
  const body = valueOf(schema, make);
  const kind = kindOfShape(schema, filling);
  const id = kind && filling.newId(kind);
  const hasId = typeof body === 'object' && body !== null && 'id' in body;
  return hasId && id !== undefined ? { ...body, id } : body;
}

function fillGraphql(operation: GraphqlOperation, filling: Filling, schemas: Schemas): Call {
  const make = making(filling, schemas);
  const variables = operation.field.args.flatMap((arg): [string, unknown][] => {
    const { name, type } = arg;
    const plain = isNonNullType(type) ? type.ofType : type;
    if (isInputObjectType(plain)) {
      const shape = inputShapeOf(operation) ?? plain.name;
      const body = bodyOf({ $ref: `#/components/schemas/${shape}` }, filling, make);
      return [[name, asGraphql(plain, body)]];
    }
    if (name === 'revision') return [[name, filling.revision]];
    if (name === 'id' || name.endsWith('Id')) return [[name, segment(arg, filling)]];
    if (!isRequiredArgument(arg) && !filling.choose.chance(filling.fullness)) return [];
    const made: Readonly<Partial<Record<string, unknown>>> = {
      first: filling.choose.between(1, 200),
      version: 1,
      mine: filling.choose.chance(0.5),
      whose: 'ALL',
    };
    if (name in made) return [[name, made[name]]];
    return isRequiredArgument(arg) ? [[name, 'nothing']] : [];
  });
  return { operation, path: {}, query: {}, headers: {}, body: Object.fromEntries(variables) };
}

export interface Request {
  readonly method: string;
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
  /** JSON. */
  readonly body?: string;
}

/** The query of an operation, `depth` objects deep. Written once: the service keeps what it has parsed. */
export function queryTexts(depth: number): (operation: GraphqlOperation) => string {
  const known = new Map<string, string>();
  return (operation) => {
    const text = known.get(operation.face) ?? queryOf(operation, depth);
    known.set(operation.face, text);
    return text;
  };
}

/** The request of a call; `textOf` gives GraphQL's query. */
export function requestOf(call: Call, textOf: (operation: GraphqlOperation) => string): Request {
  const { operation, headers, body } = call;
  if (operation.kind !== 'rest') {
    const text = JSON.stringify({ query: textOf(operation), variables: body });
    return { method: 'POST', url: '/graphql', headers, body: text };
  }
  const path = operation.path.replaceAll(/\{(\w+)\}/g, (_, name: string) =>
    encodeURIComponent(call.path[name] ?? ''),
  );
  const query = new URLSearchParams(call.query).toString();
  return {
    method: operation.method,
    url: query === '' ? path : `${path}?${query}`,
    headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  };
}
