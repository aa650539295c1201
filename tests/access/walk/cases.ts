import { table } from '#access/table.ts';
import type { Rule, Subject } from '#access/rule.ts';
import { namesOf } from '../requests/fill.ts';
import type { Operation } from '../requests/operations.ts';
import { everyones, type Named, type Outcome, outcome, owned, type Target } from '../outcome.ts';
import type { handOut } from '../world/records.ts';
import type { Side } from '../world/side.ts';
import type { World } from '../world/make-world.ts';
import type { Asking } from './callers.ts';

/** A call that is to be made. */
export interface Case {
  readonly operation: Operation;
  readonly rule: Rule;
  readonly caller: Asking;
  readonly target: Target;
  readonly expected: Outcome;
  /** Which yard it names, for the reader. */
  readonly yard: 'this' | 'another' | 'none such' | 'no';
}

export const kinds: ReadonlySet<Subject> = new Set(table.map(({ on }) => on));
export const nowhere = 'no-such-yard';

const takesYard = (operation: Operation): boolean =>
  operation.kind === 'rest'
    ? operation.path.includes('{yardId}')
    : operation.field.args.some(({ name }) => name === 'yardId');

/** Whether the call itself names a record, other than its yard. */
function namesRecord(operation: Operation): boolean {
  const names =
    operation.kind === 'rest'
      ? namesOf(operation.path)
      : operation.field.args.map(({ name }) => name);
  return names.some((name) => /^id$|^(?!yard).*Id$/.test(name));
}

/** Everything that the operation can be asked about, from here. */
function targetsOf(
  operation: Operation,
  { on }: Rule,
  { here, there }: World,
): [Case['yard'], Target][] {
  const named = namesRecord(operation);
  const records: Named[] = [
    'own',
    ...(owned.has(on) || on === 'program-key' ? (['neighbour’s'] as const) : []),
    ...(everyones.has(on) ? [] : (['other’s'] as const)),
    'missing',
  ];
  if (!takesYard(operation)) {
    const all: Named[] = named ? ['own', 'other’s', 'missing'] : ['nothing'];
    return all.map((record) => ['no', { yardId: null, record }]);
  }
  const first: Named = named ? 'own' : 'nothing';
  return [
    ...(named ? records : [first]).map((record): [Case['yard'], Target] => [
      'this',
      { yardId: here.yardId, record },
    ]),
    ['another', { yardId: there.yardId, record: first }],
    ['none such', { yardId: nowhere, record: first }],
  ];
}

/** Those besides the five differ from them in what they are, not in what is there. */
const concerns = ({ isFurther }: Asking, yard: Case['yard'], record: Named): boolean =>
  !isFurther || (yard !== 'none such' && record !== 'missing');

export function casesOf(
  operation: Operation,
  rule: Rule,
  callers: readonly Asking[],
  world: World,
): Case[] {
  const targets = targetsOf(operation, rule, world);
  return callers.flatMap((caller) =>
    targets
      .filter(([yard, { record }]) => concerns(caller, yard, record))
      .map(([yard, target]) => {
        const expected = outcome(rule, caller, target);
        return { operation, rule, caller, target, expected, yard };
      }),
  );
}

/** What calls of it take away for good: it has no revision to be guarded by. */
function takesAway(operation: Operation): boolean {
  if (operation.kind === 'rest') {
    const guarded = operation.parameters.some(({ name }) => name === 'If-Match');
    return operation.method === 'DELETE' && !guarded;
  }
  return /^(remove|revoke|close|end)/.test(operation.field.name);
}

/** The ids that a case's call names. */
export function idsFor(
  { operation, rule, caller, target, expected, yard }: Case,
  { here, there, accounts }: World,
  give: ReturnType<typeof handOut>,
): (kind: Subject) => string | undefined {
  const { record } = target;
  const isTaken = expected === 'let in' && takesAway(operation);
  return (kind) => {
    const wanted = record === 'nothing' ? 'own' : record;
    if (kind === 'session' || kind === 'passkey' || kind === 'push-subscription') {
      const named = wanted === 'other’s' ? 'neighbour’s' : wanted;
      return give(accounts, kind, named, caller.accountId, isTaken && kind === rule.on);
    }
    const isTheirs = yard === 'another' || wanted === 'other’s';
    const side: Side = isTheirs ? there : here;
    if (kind === 'class') return wanted === 'missing' ? 'nothing-here' : aClass;
    return give(side.records, kind, wanted, caller.memberId, isTaken && kind === rule.on);
  };
}

/** Of the catalogue that comes with the service. */
const aClass = 'epoxy-slow';
