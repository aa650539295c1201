import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { z } from 'zod';
import type { Scope, Subject } from '#access/rule.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { keyPrefix } from '../../../apps/api/src/platform/access/token.ts';
import type { TestDatabase } from '../../support/database.ts';
import { publishPlan } from '../../support/published-plan.ts';
import type { Method } from '../requests/operations.ts';
import { send } from '../requests/send.ts';
import { addLive } from './live.ts';
import { tinyPng } from './picture.ts';
import { type Kept, type Records, recordsOf } from './records.ts';
import { guests, markedYard, spareCount } from './yard-file.ts';

export const who = ['foreman', 'builder', 'owner', 'neighbour'] as const;
export type Who = (typeof who)[number];

/** Their names in the yard of two boats. */
const persons: Record<Who, string> = {
  foreman: 'ines',
  builder: 'bram',
  owner: 'odile',
  neighbour: 'otto',
};

export interface Person {
  readonly accountId: string;
  readonly memberId: string;
  /** Of a session. */
  readonly token: string;
}

/** One of the yards, with what is in it. */
export interface Side {
  readonly yardId: string;
  /** Begins every id of the yard that somebody chose. */
  readonly mark: string;
  /** Is in every text of the yard that somebody wrote. */
  readonly secret: string;
  readonly people: Readonly<Record<Who, Person>>;
  /** Tokens of program keys: the foreman's. */
  readonly keys: Readonly<Record<Scope, string>>;
  readonly records: Records;
}

export interface Making {
  readonly app: NestFastifyApplication;
  readonly database: TestDatabase;
  readonly today: string;
}

const hour = 60 * 60_000;
export const later = (): Date => new Date(Date.now() + 12 * hour);

/** An account with a session, which nobody signed in for: a password costs time and proves nothing here. */
export async function openAccount(
  owner: PrismaClient,
  email: string,
): Promise<Omit<Person, 'memberId'>> {
  const { id: accountId } = await owner.account.create({ data: { email, name: email } });
  const token = newToken();
  await owner.session.create({
    data: { tokenHash: hashOf(token), accountId, expiresAt: later() },
  });
  return { accountId, token };
}

/** The yard, made by its foreman over the API, with members who are signed in and records of every kind. */
export async function makeSide(making: Making, mark: string, secret: string): Promise<Side> {
  const { owner } = making.database;
  const file = markedYard(making.today, mark, secret);
  const entries = await Promise.all(
    who.map(async (name): Promise<[Who, Person]> => {
      const account = await openAccount(owner, `${persons[name]}@${mark}.test`);
      return [name, { ...account, memberId: `${mark}-${persons[name]}` }];
    }),
  );
  const people = Object.fromEntries(entries) as Record<Who, Person>;
  const yardId = file.id;
  const call = caller(making.app, people);
  await call('foreman', 'POST', 'yards', file);
  for (const { accountId, memberId } of Object.values(people)) {
    await owner.member.update({
      where: { yardId_id: { yardId, id: memberId } },
      data: { accountId },
    });
  }
  await publishPlan(making.database, yardId);
  const at = `yards/${yardId}`;
  const task = `${mark}-petrel-panel.${mark}-lay-up`;
  const claim = idOf(await call('builder', 'POST', `${at}/tasks/${task}/claims`, {}));
  const run = idOf(await call('foreman', 'POST', `${at}/plan-runs`, {}));
  const keys = await makeKeys(owner, yardId, people.foreman.memberId);
  const spareJobs = Array.from({ length: 12 }, (_, k) => ({
    id: `${mark}-spare-${k}`,
    procedure: `${mark}-panel`,
  }));
  const spareRefit = {
    id: `${mark}-extra`,
    name: `Extra ${secret}`,
    release: file.planFrom,
    parts: [
      {
        id: `${mark}-locker`,
        name: `Locker ${secret}`,
        space: `${mark}-bay`,
        areaM2: 1,
        jobs: spareJobs,
      },
    ],
  };
  await call('foreman', 'POST', `${at}/boats/${mark}-petrel/refits`, spareRefit);
  const plan = await owner.publishedPlan.findUniqueOrThrow({ where: { yardId } });
  const of = people.owner.memberId;
  const records = new Map<Subject, readonly Kept[]>([
    ...recordsOf(file),
    [
      'job',
      [
        { id: `${mark}-petrel-panel`, of },
        { id: `${mark}-heron-panel`, of: people.neighbour.memberId },
        ...spareJobs.map(({ id }) => ({ id, of })),
      ],
    ],
    [
      'task',
      [
        { id: task, of },
        { id: `${mark}-heron-panel.${mark}-lay-up`, of: people.neighbour.memberId },
      ],
    ],
    ['claim', [{ id: claim, of: null }]],
    ['plan-run', [{ id: run, of: null }]],
    ['plan', [{ id: plan.planId, of: null }]],
    ...(await addSpares(owner, yardId, mark, people)),
    ...(await addLive(
      owner,
      {
        yardId,
        secret,
        foreman: people.foreman.memberId,
        builder: people.builder.memberId,
        owners: (
          [
            ['petrel', people.owner],
            ['heron', people.neighbour],
          ] as const
        ).map(([boat, { memberId }]) => ({
          memberId,
          refitId: `${mark}-${boat}-refit`,
          partId: `${mark}-${boat}-hatch`,
        })),
        taskId: task,
        planId: plan.planId,
      },
      async (snag) => {
        const answer = await making.app.inject({
          method: 'POST',
          url: `/api/v1/${at}/snags/${snag}/photos`,
          headers: {
            authorization: `Bearer ${people.builder.token}`,
            'content-type': 'image/png',
          },
          payload: tinyPng,
        });
        if (answer.statusCode !== 201) throw new Error(`photo: ${answer.body}`);
        return answer.json<unknown>();
      },
    )),
  ]);
  return { yardId, mark, secret, people, keys, records };
}

type Call = (by: Who, method: Method, path: string, body?: unknown) => Promise<unknown>;

function caller(app: NestFastifyApplication, people: Record<Who, Person>): Call {
  return async (by, method, path, body) => {
    const headers = { authorization: `Bearer ${people[by].token}` };
    const sent = body === undefined ? {} : { body: JSON.stringify(body) };
    const answer = await send(app, { method, url: `/api/v1/${path}`, headers, ...sent });
    if (answer.status >= 300) throw new Error(`${method} ${path}: ${answer.text}`);
    return JSON.parse(answer.text) as unknown;
  };
}

const idOf = (body: unknown): string => z.object({ id: z.string() }).parse(body).id;

/** Not over the API: that asks for the password, which nobody here has. */
async function makeKeys(
  owner: PrismaClient,
  yardId: string,
  memberId: string,
): Promise<Record<Scope, string>> {
  const make = async (scope: Scope): Promise<string> => {
    const token = `${keyPrefix}${newToken()}`;
    const name = `Key to ${scope}`;
    const data = { yardId, memberId, name, scopes: [scope], tokenHash: hashOf(token) };
    await owner.programKey.create({ data: { ...data, expiresAt: later() } });
    return token;
  };
  return { read: await make('read'), work: await make('work'), manage: await make('manage') };
}

/** Invitations and keys to take away. */
async function addSpares(
  owner: PrismaClient,
  yardId: string,
  mark: string,
  people: Record<Who, Person>,
): Promise<[Subject, Kept[]][]> {
  const spares = <T>(make: () => T): T[] => Array.from({ length: spareCount }, make);
  const secret = () => ({
    id: crypto.randomUUID(),
    tokenHash: hashOf(newToken()),
    expiresAt: later(),
  });
  const invitedById = people.foreman.memberId;
  const invitations = guests.map((guest) => ({
    yardId,
    memberId: `${mark}-${guest}`,
    invitedById,
    ...secret(),
  }));
  await owner.invitation.createMany({ data: invitations });
  const keys = Object.values(people).flatMap(({ memberId }) =>
    spares(() => ({ yardId, memberId, name: 'Spare', scopes: ['read'], ...secret() })),
  );
  await owner.programKey.createMany({ data: keys });
  return [
    ['invitation', invitations.map(({ id }) => ({ id, of: null }))],
    ['program-key', keys.map(({ id, memberId }) => ({ id, of: memberId }))],
  ];
}
