import type { Subject } from '#access/rule.ts';
import { choose } from '../requests/choose.ts';
import { type Call, fill, queryTexts, type Request, requestOf } from '../requests/fill.ts';
import type { Schemas } from '../requests/json-schema.ts';
import { type Answer, codeOf, outcomeOf, send } from '../requests/send.ts';
import type { Outcome } from '../outcome.ts';
import { handOut } from '../world/records.ts';
import type { World } from '../world/make-world.ts';
import { subscriber } from '../../support/streams.ts';
import { type Case, idsFor, kinds, nowhere } from './cases.ts';

export interface Seen {
  readonly outcome: Outcome | 'fault';
  readonly code: string | null;
  readonly answer: Answer;
  /** What was answered, but for the ids that were asked for. */
  readonly body: string;
}

/** Ids that are there already, or new ones; a revision that was never, or the first. */
interface Making {
  readonly schemas: Schemas;
  readonly isReal: boolean;
}

function filled(
  one: Case,
  named: (kind: Subject) => string | undefined,
  { here, there }: World,
  { schemas, isReal }: Making,
): Call {
  const side = isReal && one.yard === 'another' ? there : here;
  const firstOf = (kind: Subject): string | undefined => side.records.get(kind)?.at(0)?.id;
  return fill(
    one.operation,
    {
      rule: one.rule,
      yardId: one.target.yardId ?? nowhere,
      named,
      referred: firstOf,
      newId: isReal ? () => undefined : firstOf,
      kinds,
      choose: choose(1),
      fullness: 0,
      // A report that is dismissed needs a note, which no schema says.
      given: { as: 'done' },
      revision: isReal ? 1 : 999_999,
    },
    schemas,
  );
}

/** Makes the calls of cases. What they make or change is there already or guarded by a wrong revision. */
export function asking(world: World, schemas: Schemas): (one: Case) => Promise<Seen> {
  const give = handOut();
  const textOf = queryTexts(1);
  return async (one) => {
    const { operation, caller, target } = one;
    const named = idsFor(one, world, give);
    const ids = new Map<Subject, string | undefined>();
    const once = (kind: Subject): string | undefined => {
      if (!ids.has(kind)) ids.set(kind, named(kind));
      return ids.get(kind);
    };
    const call = filled(one, once, world, { schemas, isReal: false });
    const answer =
      operation.kind === 'subscription'
        ? await firstOf(world.url, textOf(operation), call.body, caller.token)
        : await send(world.app, by(requestOf(call, textOf), caller.token));
    const asked = [...ids.values(), target.yardId].filter((id) => typeof id === 'string');
    return {
      outcome: isOwnWord(one, answer) ? 'let in' : outcomeOf(answer),
      code: codeOf(answer),
      answer,
      body: asked.reduce((text, id) => text.replaceAll(id, '#'), withoutRequestId(answer.text)),
    };
  };
}

/**
 * Where anyone may call, or an account is about its own, no yard is entered: what is refused there for
 * want of a token in the body, of a step of the sign-in or of what was to be set up, the operation itself says.
 */
function isOwnWord({ rule, target }: Case, answer: Answer): boolean {
  const outcome = outcomeOf(answer);
  if (rule.may === 'anyone') return outcome !== 'fault';
  if (rule.may !== 'signed-in') return false;
  const isUnset = outcome === 'not-found' && target.record === 'nothing';
  return isUnset || codeOf(answer) === 'access.second-factor';
}

/** The requests of cases as somebody would send them who means it, asking for all there is to see. */
export function fullRequests(world: World, schemas: Schemas): (one: Case) => Request {
  const give = handOut();
  const textOf = queryTexts(4);
  return (one) => {
    const call = filled(one, idsFor(one, world, give), world, { schemas, isReal: true });
    return by(requestOf(call, textOf), one.caller.token);
  };
}

export function by(request: Request, token: string | null): Request {
  if (token === null) return request;
  return { ...request, headers: { ...request.headers, authorization: `Bearer ${token}` } };
}

const withoutRequestId = (text: string): string => text.replaceAll(/urn:uuid:[0-9a-f-]{36}/g, '');

/** Long for a first word that comes at once. */
const patienceMs = 10_000;

/** The first word of a subscription: an event, or why there is none. */
async function firstOf(
  url: string,
  query: string,
  variables: unknown,
  token: string | null,
): Promise<Answer> {
  const client = subscriber(url, token ?? '');
  const told = client.iterate({
    query,
    variables: { ...(variables as Record<string, unknown>), after: '0' },
  });
  const silence = Promise.withResolvers<never>();
  const timer = setTimeout(() => silence.reject(new Error('nothing was told')), patienceMs);
  const answer = (value: unknown): Answer => {
    const text = JSON.stringify(value);
    return { status: 200, headers: {}, text, statements: [] };
  };
  try {
    const first = await Promise.race([told.next(), silence.promise]);
    return answer(first.value ?? { data: null });
  } catch (refused) {
    if (refused instanceof Error) throw refused;
    return answer({ errors: refused });
  } finally {
    clearTimeout(timer);
    await told.return?.();
    await client.dispose();
  }
}

/** The kinds of call after which somebody may be signed out. */
export const endsSessions = ({ operation, rule, expected }: Case): boolean =>
  expected === 'let in' &&
  ['account', 'session', 'person'].includes(rule.on) &&
  !isReading(operation);

const isReading = (operation: Case['operation']): boolean =>
  operation.kind === 'rest' ? operation.method === 'GET' : operation.kind !== 'mutation';
