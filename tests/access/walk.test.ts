import { beforeAll, describe, expect, test } from 'vitest';
import { faces, ruleOf, table } from '#access/table.ts';
import type { Rule } from '#access/rule.ts';
import { inTurns } from './requests/in-turns.ts';
import { isRead, type Operation } from './requests/operations.ts';
import { asking, endsSessions, type Seen } from './walk/ask.ts';
import { callersOf, person } from './walk/callers.ts';
import { type Case, casesOf } from './walk/cases.ts';
import { type Documents, documentsOf } from './walk/documents.ts';
import { restore } from './world/make-world.ts';
import { twoYards } from './world/two-yards.ts';

/**
 * Every operation of both documents by everybody on everything: what comes of a call is what the
 * table says of it, and nothing else. What is not there and what is another yard's cannot be told apart.
 */
const worldOf = twoYards();
let documents: Documents;
let ruled: (readonly [Operation, Rule])[];
beforeAll(async () => {
  documents = await documentsOf(worldOf());
  ruled = documents.all.flatMap((operation) => {
    const rule = ruleOf(operation.face);
    return rule ? [[operation, rule] as const] : [];
  });
});

const nameOf = ({ operation, caller, target, yard }: Case): string =>
  `${operation.face} by ${caller.name}, ${yard} yard, ${target.record}`;

describe('the table', () => {
  test('has a row for every operation of both documents, and no other', () => {
    const called = faces.filter((face) => !/^(job|field) /.test(face));
    expect([...called].sort()).toEqual(documents.all.map(({ face }) => face).sort());
    expect(new Set(faces).size).toBe(faces.length);
    expect(documents.all.length).toBeGreaterThan(200);
  });

  test('lets a key that only reads change nothing', () => {
    const wrong = table.filter(({ faces: of, scope, may }) => {
      if (typeof may === 'string') return scope !== null;
      if (of.every((face) => face.startsWith('job '))) return false;
      return of.some(isRead) ? scope === 'manage' || scope === 'work' : scope === 'read';
    });
    expect(wrong.map(({ operation }) => operation)).toEqual([]);
  });
});

interface Walked {
  readonly one: Case;
  readonly seen: Seen;
}

async function walk(cases: readonly Case[]): Promise<Walked[]> {
  const world = worldOf();
  const ask = asking(world, documents.schemas);
  const apart = cases.filter(endsSessions);
  const together = cases.filter((one) => !endsSessions(one));
  const walked = await inTurns(together, 6, async (one) => ({ one, seen: await ask(one) }));
  for (const one of apart) {
    walked.push({ one, seen: await ask(one) });
    await restore(world);
  }
  return walked;
}

const wrongOf = (walked: readonly Walked[]): string[] =>
  walked
    .filter(({ one, seen }) => seen.outcome !== one.expected)
    .map(({ one, seen }) => {
      const was = `${seen.outcome} (${seen.code ?? String(seen.answer.status)})`;
      return `${nameOf(one)}: ${one.expected} by the table, was ${was}`;
    });

describe('the walk', () => {
  let walked: Walked[];

  test('what comes of every call is what the table says', async () => {
    const callers = callersOf(worldOf());
    const cases = ruled.flatMap(([operation, rule]) =>
      casesOf(operation, rule, callers, worldOf()),
    );
    walked = await walk(cases);
    const outcomes = Object.groupBy(cases, ({ expected }) => expected);
    const counts = Object.entries(outcomes).map(([name, of]) => `${String(of.length)} ${name}`);
    process.stdout.write(
      `walk: ${cases.length} cases of ${ruled.length} operations: ${counts.join(', ')}\n`,
    );
    expect(wrongOf(walked)).toEqual([]);
    expect(cases.length).toBeGreaterThan(ruled.length * callers.length);
  }, 600_000);

  test('another’s record is answered like a missing one, and costs as many statements', async () => {
    const pairs = pairsOf(walked);
    const ask = asking(worldOf(), documents.schemas);
    /** What others changed, the next to ask reads: alone and the second time it is the call’s own cost. */
    const alone = async ({ one }: Walked): Promise<Walked> => {
      await ask(one);
      return { one, seen: await ask(one) };
    };
    const different: unknown[] = [];
    let again = 0;
    for (const pair of pairs) {
      let [theirs, missing] = pair;
      if (isAnsweredAlike(theirs.seen, missing.seen)) {
        if (costsAlike(theirs.seen, missing.seen)) continue;
        again += 1;
        [theirs, missing] = [await alone(theirs), await alone(missing)];
        if (costsAlike(theirs.seen, missing.seen)) continue;
      }
      different.push({ of: nameOf(theirs.one), theirs: toldOf(theirs), missing: toldOf(missing) });
    }
    expect(different).toEqual([]);
    expect(pairs.length).toBeGreaterThan(500);
    const counted = pairs.filter(([{ seen }]) => seen.answer.statements.length > 0);
    expect(counted.length).toBeGreaterThan(500);
    process.stdout.write(
      `walk: ${pairs.length} pairs of another’s and a missing record, ${again} counted again\n`,
    );
    expect(again).toBeLessThan(pairs.length / 20);
  }, 60_000);
});

const isAnsweredAlike = (one: Seen, other: Seen): boolean =>
  one.body === other.body && headersOf(one.answer) === headersOf(other.answer);

const costsAlike = (one: Seen, other: Seen): boolean =>
  one.answer.statements.length === other.answer.statements.length;

const toldOf = ({ seen: { body, answer } }: Walked) => ({
  body,
  heads: headersOf(answer),
  statements: answer.statements,
});

const headersOf = (answer: Seen['answer']): string => Object.keys(answer.headers).sort().join(' ');

/** Calls that found nothing because it is another's, each with the same call for what is not there at all. */
function pairsOf(walked: readonly Walked[]): [Walked, Walked][] {
  const keyOf = ({ operation, caller, target, yard }: Case): string =>
    [operation.face, caller.name, yard, target.record].join('|');
  const byKey = new Map(walked.map((each) => [keyOf(each.one), each]));
  return walked.flatMap((each): [Walked, Walked][] => {
    const { one } = each;
    if (each.seen.outcome !== 'not-found') return [];
    const isTheirYard = one.yard === 'another';
    if (!isTheirYard && one.target.record !== 'other’s' && one.target.record !== 'neighbour’s')
      return [];
    const like = isTheirYard
      ? { ...one, yard: 'none such' as const }
      : { ...one, target: { ...one.target, record: 'missing' as const } };
    const missing = byKey.get(keyOf(like));
    return missing ? [[each, missing]] : [];
  });
}

describe('a yard that asks for a second factor', () => {
  test('lets in nobody whose session has none', async () => {
    const { here, database } = worldOf();
    const ask = (required: boolean) =>
      database.owner.yard.update({
        where: { id: here.yardId },
        data: { secondFactorRequired: required },
      });
    const callers = (['foreman', 'builder', 'owner'] as const).map((who) => ({
      ...person(here, who),
      lacksFactor: true,
    }));
    const cases = ruled
      .filter(([, { may }]) => typeof may !== 'string')
      .flatMap(([operation, rule]) => casesOf(operation, rule, callers, worldOf()))
      .filter(({ yard, target }) => yard === 'this' && ['own', 'nothing'].includes(target.record));
    await ask(true);
    const walked = await walk(cases);
    await ask(false);
    expect(wrongOf(walked)).toEqual([]);
    expect(new Set(walked.map(({ seen }) => seen.code))).toEqual(new Set(['access.second-factor']));
    process.stdout.write(`walk: ${cases.length} cases without a second factor\n`);
  }, 600_000);
});
