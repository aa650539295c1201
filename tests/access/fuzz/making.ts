import { createECDH } from 'node:crypto';
import { type Rule, scopes, type Subject } from '#access/rule.ts';
import { outcome } from '../outcome.ts';
import { type Choose } from '../requests/choose.ts';
import { type Call, fill, queryTexts, type Request, requestOf } from '../requests/fill.ts';
import type { Schemas } from '../requests/json-schema.ts';
import { isRead, type Operation } from '../requests/operations.ts';
import {
  wrongHeaders,
  wrongQuery,
  wrongQueryText,
  wrongSegment,
  wrongText,
  wrongValue,
} from '../requests/wrong.ts';
import { type Asking, person, program } from '../walk/callers.ts';
import { by } from '../walk/ask.ts';
import { kinds, nowhere } from '../walk/cases.ts';
import { testPassword } from '../../support/api.ts';
import { missingId } from '../world/records.ts';
import type { Side } from '../world/side.ts';
import type { World } from '../world/make-world.ts';
import type { Manner } from './turns.ts';

/** A request to be sent, and what is known of it. */
export interface Made {
  readonly operation: Operation;
  readonly rule: Rule;
  readonly caller: Asking;
  readonly request: Request;
  /** Right in form, and by somebody whom the table lets do it. */
  readonly isMeant: boolean;
  readonly isWrong: boolean;
}

export interface Ground {
  readonly world: World;
  readonly schemas: Schemas;
  readonly choose: Choose;
  /** Accounts of no yard, for what somebody does to the own account: taken in turns, since it may sign out. */
  readonly strangers: readonly Asking[];
  /** Sign-ins that wait for their code. */
  readonly pending: readonly string[];
  /** The only ids of the other yard that are written into bodies, where they may be kept as text. */
  readonly planted: readonly string[];
}

/** Makes the requests of a seed, one after the other. */
export function makingOf(
  ground: Ground,
): (operation: Operation, rule: Rule, manner: Manner) => Made {
  const { world, choose, strangers, schemas } = ground;
  const { here, there } = world;
  const members = [
    person(here, 'foreman'),
    person(here, 'builder'),
    person(here, 'owner'),
    ...scopes.map((scope) => program(here, scope)),
  ];
  const foreigner = person(there, 'foreman', 'foreman of another yard');
  const textOf = queryTexts(4);
  let turn = 0;

  return (operation, rule, manner) => {
    const dice = choose.between(1, 100);
    const isAnybody = manner === 'by chance' && dice <= 8;
    const isWrong = manner === 'spoiled' || (manner === 'by chance' && !isAnybody && dice <= 18);
    const home = { yardId: here.yardId, record: 'own' } as const;
    const able = members.filter((one) => outcome(rule, one, home) === 'let in');
    // The other yard stays as it was made, so that what is in it can be told.
    const others = [...members, ...strangers, ...(isRead(operation.face) ? [foreigner] : [])];
    const isOwnAccount = typeof rule.may === 'string';
    const caller = isOwnAccount
      ? strangers[turn++ % strangers.length]
      : choose.of(isAnybody ? others : able);
    const yardId = isAnybody ? choose.of([here.yardId, there.yardId, nowhere]) : here.yardId;
    const made = filling(ground, rule, yardId, isAnybody);
    // Of the kinds of calendar one that most who may ask can have.
    const own = /calendars?$/i.test(operation.face) ? { kind: 'builder' } : {};
    const filled = { ...made, given: { ...made.given, ...own } };
    const call = fill(operation, manner === 'plain' ? plainly(filled) : filled, schemas);
    const request = isWrong
      ? spoiled(call, ground, manner === 'spoiled', textOf)
      : requestOf(call, textOf);
    const isKnown = isAnybody && choose.chance(0.1) ? null : caller.token;
    const isMeant = !isAnybody && !isWrong;
    return { operation, rule, caller, request: by(request, isKnown), isMeant, isWrong };
  };
}

/** A browser's keys: a point of the curve and 16 bytes (RFC 8291, 2). */
const pair = createECDH('prime256v1');
const browser = {
  endpoint: 'https://push.example.com/fuzz',
  p256dh: pair.generateKeys('base64url'),
  auth: Buffer.alloc(16, 7).toString('base64url'),
};

/** The password of every account here, now and hereafter. */
const words = { password: testPassword, oldPassword: testPassword, timeZone: 'Europe/London' };

/**
 * What no schema says of the fields of the plainest calls: a step that nobody works at and that does
 * nothing; a report that is carried out, since one that is dismissed needs a note; a film that is
 * somewhere or at some temperature.
 */
const plainly = <T extends { readonly given: object }>(filled: T): T => ({
  ...filled,
  fullness: 0,
  revision: 1,
  always: new Set(['celsius']),
  given: {
    ...filled.given,
    crewMin: 0,
    crewMax: 0,
    air: 'clean',
    secondFactorRequired: false,
    as: 'done',
    ...browser,
  },
});

function filling(ground: Ground, rule: Rule, yardId: string, isAnybody: boolean) {
  const { world, choose } = ground;
  const { here, there, accounts } = world;
  const oneOf = (side: Side, kind: Subject): string | undefined => {
    const kept = side.records.get(kind) ?? accounts.get(kind) ?? [];
    const free = kind === 'person' ? kept.filter(({ id }) => !isCaller(side, id)) : kept;
    return free.length > 0 ? choose.of(free).id : undefined;
  };
  const named = (kind: Subject): string | undefined => {
    const id = oneOf(isAnybody || choose.chance(0.05) ? there : here, kind);
    return id !== undefined && choose.chance(0.05) ? missingId(id) : id;
  };
  return {
    rule,
    yardId,
    named,
    referred: (kind: Subject) => oneOf(here, kind),
    newId: (kind: Subject) => (choose.chance(0.2) ? oneOf(here, kind) : undefined),
    kinds,
    choose,
    given: { ...words, pending: choose.of(ground.pending) },
    fullness: choose.of([0, 0.2, 0.5, 0.9]),
    revision: choose.of([1, 1, 1, 2, 3, 999_999]),
  };
}

/** Whoever calls keeps role and boat: what they may see would change otherwise. */
const isCaller = ({ people }: Side, id: string): boolean =>
  Object.values(people).some(({ memberId }) => memberId === id);

type TextOf = ReturnType<typeof queryTexts>;

/** The call's request with one thing wrong; `surely`: with something that hardly ever passes. */
function spoiled(call: Call, ground: Ground, surely: boolean, textOf: TextOf): Request {
  const { choose } = ground;
  const hasBody = call.body !== undefined;
  switch (choose.of(faultsOf(hasBody, surely))) {
    case 'body': {
      const body = wrongValue(call.body, choose, ground.planted);
      return requestOf({ ...call, body }, textOf);
    }
    case 'text': {
      const request = requestOf(call, textOf);
      return { ...request, body: wrongText(request.body ?? '{}', choose) };
    }
    case 'path':
      return call.operation.kind === 'rest'
        ? wrongPath(call, choose, textOf)
        : wrongDocument(call, choose, textOf);
    case 'query': {
      const request = requestOf(call, textOf);
      return { ...request, url: `${request.url.split('?')[0]}?${wrongQuery(choose)}` };
    }
    case 'headers': {
      const request = requestOf(call, textOf);
      return { ...request, headers: { ...request.headers, ...wrongHeaders(choose) } };
    }
  }
}

type Fault = 'body' | 'text' | 'path' | 'query' | 'headers';

function faultsOf(hasBody: boolean, surely: boolean): readonly Fault[] {
  if (surely) return hasBody ? sureFaults : ['path'];
  return hasBody ? bodyFaults : otherFaults;
}

const sureFaults = ['body', 'text', 'text', 'text', 'path', 'path'] as const;
const bodyFaults = ['body', 'body', 'body', 'text', 'path', 'headers'] as const;
const otherFaults = ['path', 'query', 'query', 'headers', 'text'] as const;

function wrongPath(call: Call, choose: Choose, textOf: TextOf): Request {
  const request = requestOf(call, textOf);
  const segments = request.url.split('/');
  const at = choose.between(3, segments.length - 1);
  return { ...request, url: segments.with(at, wrongSegment(choose)).join('/') };
}

function wrongDocument(call: Call, choose: Choose, textOf: TextOf): Request {
  return requestOf(call, (operation) => wrongQueryText(textOf(operation), choose));
}
