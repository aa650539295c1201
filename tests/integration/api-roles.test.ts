import { readFile } from 'node:fs/promises';
import {
  buildSchema,
  type GraphQLField,
  type GraphQLInputType,
  isEnumType,
  isInputObjectType,
  isLeafType,
  isListType,
  isNonNullType,
  isRequiredArgument,
  isRequiredInputField,
} from 'graphql';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { smallYardApi } from '../support/small-yard-api.ts';

/**
 * Who may do what, operation by operation, as both faces declare themselves: an operation that
 * is added is the foreman's alone until it is named here. Ids are of nothing, so that what is
 * let through changes nothing.
 */
const { api, tokens } = smallYardApi();

const anyone = ['GET .', 'GET boats', 'GET boats/{id}'];
const owners = [...anyone, 'GET my-boats', 'GET my-boats/{id}'];
const builders = [
  ...anyone,
  ...[
    ...['skills', 'people', 'spaces', 'tools', 'stocks', 'barriers', 'slot-lists', 'deliveries'],
    ...['materials', 'fabrics', 'readings', 'observations', 'procedures', 'tasks', 'claims'],
  ].flatMap((list) => [`GET ${list}`, `GET ${list}/{id}`]),
  ...['refits', 'parts', 'jobs', 'plans'].map((one) => `GET ${one}/{id}`),
  ...['sheet', 'versions', 'calibration', 'film', 'latest-start'].map(
    (of) => `GET materials/{id}/${of}`,
  ),
  ...['bond-rules', 'classes', 'classes/{id}', 'fabrics'].map((of) => `GET catalogue/${of}`),
  'POST bond-checks',
  'POST readings',
  'POST observations',
  'GET spaces/{id}/climate',
  'GET parts/{id}/surface',
  'GET procedures/{id}/versions/{version}',
  'GET outdoor',
  'GET warnings',
  'GET events',
  'GET plans/{id}/week',
  'GET plans/{id}/chains',
  'GET plans/{id}/tasks/{taskId}/why-not-earlier',
  'GET plans/{id}/tasks/{taskId}/mix-sheet',
  ...['plans/{id}', 'published-plan'].flatMap((plan) => [
    `GET ${plan}/mix-sheets`,
    `GET ${plan}/shopping`,
  ]),
  'GET published-plan',
  'GET published-plan/week',
  'GET published-plan/chains',
  'GET ready',
  'POST tasks/{taskId}/claims',
  ...['release', 'start', 'finish'].map((verb) => `POST claims/{id}/${verb}`),
];

describe('over REST', () => {
  const prefix = '/api/v1/yards/{yardId}';

  async function operations(): Promise<{ name: string; method: string; path: string }[]> {
    const { body } = await api.rest('GET', '/openapi.json');
    const paths = z.record(z.string(), z.record(z.string(), z.unknown())).parse(body.paths);
    return Object.entries(paths)
      .filter(([path]) => path.startsWith(prefix))
      .flatMap(([path, methods]) =>
        Object.keys(methods).map((lower) => {
          const method = lower.toUpperCase();
          const name = `${method} ${path.slice(prefix.length + 1) || '.'}`;
          const filled = path
            .replace('{yardId}', 'small')
            .replace('{version}', '1')
            .replaceAll(/\{\w+\}/g, 'none');
          return { name, method, path: filled };
        }),
      );
  }

  /** The status alone: a stream would not end. */
  async function statusOf(method: string, path: string, token: string | null): Promise<number> {
    const headers = token === null ? {} : { authorization: `Bearer ${token}` };
    const answer = await fetch(`${api.url}${path}`, { method, headers });
    await answer.body?.cancel();
    return answer.status;
  }

  test('nobody and strangers are let in nowhere', async () => {
    const all = await operations();
    expect(all.length).toBeGreaterThan(50);
    for (const { name, method, path } of all) {
      const statuses = [
        await statusOf(method, path, null),
        await statusOf(method, path, tokens.stranger),
      ];
      expect([name, ...statuses]).toEqual([name, 401, 404]);
    }
  });

  test.each([
    ['a builder', () => tokens.builder, builders],
    ['an owner', () => tokens.owner, owners],
    ['the foreman, who owns no boat', () => tokens.foreman, null],
  ])('%s', async (_who, token, allowed) => {
    const all = await operations();
    const letIn: string[] = [];
    for (const { name, method, path } of all) {
      const status = await statusOf(method, path, token());
      expect([name, status < 500 && status !== 401]).toEqual([name, true]);
      if (status !== 403) letIn.push(name);
    }
    const expected =
      allowed ?? all.map(({ name }) => name).filter((name) => !name.includes('my-boats'));
    expect(letIn.sort()).toEqual([...expected].sort());
  });
});

describe('over GraphQL', () => {
  const anyonesFields = ['yard', 'boats', 'boat'];
  const ownersFields = [...anyonesFields, 'myBoats', 'myBoat'];
  const draftsAndOwn = [
    ...['plans', 'planRuns', 'planRun', 'planCheck', 'whatShortens'],
    ...['myBoats', 'myBoat'],
  ];
  const buildersCommands = [
    ...['claimTask', 'releaseClaim', 'startClaim', 'finishClaim'],
    ...['addReadings', 'addObservation'],
  ];

  interface Asked {
    readonly name: string;
    readonly kind: 'query' | 'mutation';
    readonly text: string;
  }

  async function fields(): Promise<Asked[]> {
    const text = await readFile(new URL('../../apps/api/schema.graphql', import.meta.url), 'utf8');
    const schema = buildSchema(text);
    const of = (
      kind: Asked['kind'],
      all: Record<string, GraphQLField<unknown, unknown>>,
    ): Asked[] =>
      Object.values(all)
        .filter(({ args }) => args.some(({ name }) => name === 'yardId'))
        .map((field) => ({ name: field.name, kind, text: `${kind} { ${call(field)} }` }));
    return [
      ...of('query', schema.getQueryType()?.getFields() ?? {}),
      ...of('mutation', schema.getMutationType()?.getFields() ?? {}),
    ];
  }

  async function codeOf({ text }: Asked, token: string | null): Promise<string | null> {
    const { body } = await api.graphql(text, {}, token === null ? {} : { token });
    const errors = z.array(z.object({ extensions: z.object({ code: z.string() }) }));
    const code = errors.parse(body.errors ?? []).at(0)?.extensions.code ?? null;
    // Else the query made here does not fit, and says nothing of access.
    expect([text, code]).not.toEqual([text, 'input.malformed']);
    return code;
  }

  test('nobody and strangers are let in nowhere', async () => {
    const all = await fields();
    expect(all.length).toBeGreaterThan(50);
    for (const field of all) {
      const codes = [await codeOf(field, null), await codeOf(field, tokens.stranger)];
      expect([field.name, ...codes]).toEqual([field.name, 'access.sign-in', 'record.missing']);
    }
  });

  test.each([
    [
      'a builder',
      () => tokens.builder,
      ({ name, kind }: Asked) =>
        kind === 'mutation' ? buildersCommands.includes(name) : !draftsAndOwn.includes(name),
    ],
    ['an owner', () => tokens.owner, ({ name }: Asked) => ownersFields.includes(name)],
  ])('%s', async (_who, token, mayCall) => {
    const all = await fields();
    const letIn: string[] = [];
    for (const field of all) {
      if ((await codeOf(field, token())) !== 'access.role') letIn.push(field.name);
    }
    expect(letIn).toEqual(all.filter(mayCall).map(({ name }) => name));
  });

  /** The field with the least that it must be given. */
  function call({ name, args, type }: GraphQLField<unknown, unknown>): string {
    const given = args
      .filter(isRequiredArgument)
      .map((arg) => `${arg.name}: ${arg.name === 'yardId' ? '"small"' : least(arg.type)}`);
    const plain = isNonNullType(type) ? type.ofType : type;
    return `${name}(${given.join(', ')})${isLeafType(plain) ? '' : ' { __typename }'}`;
  }

  function least(type: GraphQLInputType): string {
    if (isNonNullType(type)) return least(type.ofType);
    if (isListType(type)) return '[]';
    if (isEnumType(type)) return type.getValues()[0].name;
    if (isInputObjectType(type)) {
      const given = Object.values(type.getFields())
        .filter(isRequiredInputField)
        .map((field) => `${field.name}: ${least(field.type)}`);
      return `{ ${given.join(', ')} }`;
    }
    return (
      { Int: '1', Float: '1', Boolean: 'true', Instant: '"2026-11-30T07:00:00Z"' }[type.name] ??
      '"none"'
    );
  }
});
