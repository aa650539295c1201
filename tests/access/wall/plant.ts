import { inYard, service } from '#persistence/client.ts';
import type { PrismaClient } from '#persistence/generated/client.ts';
import { saveTasks } from '#persistence/workload/store.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { makeWorkload } from '#planning/workload/make.ts';
import type { Yard } from '#planning/yard/yard.ts';
import { wholeYard } from '../../integration/persistence/whole-yard.ts';

/** Accounts of the two people in a planted yard: Ann, foreman and builder, and Ben, who is an owner only. */
export interface Accounts {
  readonly ann: string;
  readonly ben: string;
}

/** Begins every id of the boat in a planted yard that is not Ben's, and of what hangs on it. */
export const others = 'other';

/**
 * A yard with at least one row in every table of a yard, written by the owner of the tables, whom no
 * policy holds. Whoever adds a table plants a row here.
 */
export async function plantYard(
  owner: PrismaClient,
  yardId: string,
  { ann, ben }: Accounts,
): Promise<void> {
  const yard = withOthersBoat(wholeYard(yardId));
  await inYard(owner, service(yardId), async (tx) => {
    await saveYard(tx, yard);
    await saveTasks(tx, yardId, makeWorkload(yard));
    for (const [id, accountId] of Object.entries({ ann, ben })) {
      await tx.member.update({ where: { yardId_id: { yardId, id } }, data: { accountId } });
    }
    for (const statement of rest(yardId)) await tx.$executeRawUnsafe(statement);
  });
  // What triggers write, where there are none.
  await owner.$executeRaw`
    INSERT INTO audit (chain, number, yard_id, at, change, record, key, after, hash)
    SELECT ${yardId}, 1, ${yardId}, now(), 'insert', 'boat', '{}', '{}', sha256('hash')
    WHERE NOT EXISTS (SELECT FROM audit WHERE yard_id = ${yardId})`;
}

function withOthersBoat(yard: Yard): Yard {
  const [boat] = yard.boats;
  const [refit] = boat.refits;
  const [part] = refit.parts;
  const [job] = part.jobs;
  const jobs = [{ ...job, id: `${others}-job` }];
  const parts = [{ ...part, id: `${others}-part`, jobs }];
  const refits = [{ ...refit, id: `${others}-refit`, parts }];
  return { ...yard, boats: [...yard.boats, { ...boat, id: others, owner: null, refits }] };
}

/** Rows that no yard file makes. */
function rest(yardId: string): string[] {
  const y = `'${yardId}'`;
  const [run, plan, claim] = ['run', 'plan', 'claim'].map((what) => `md5('${what}' || ${y})::uuid`);
  const later = "now() + interval '1 h'";
  return [
    `INSERT INTO task_crew (yard_id, task_id, member_id) VALUES (${y}, 'first.wet', 'ann')`,
    `INSERT INTO claim (yard_id, id, task_id, member_id) VALUES (${y}, ${claim}, 'first.wet', 'ann')`,
    `INSERT INTO claim_member (yard_id, claim_id, member_id) VALUES (${y}, ${claim}, 'ann')`,
    ...['ann', 'ben'].flatMap((member) => [
      `INSERT INTO event (yard_id, kind, subject, subject_id, by_member_id)
       VALUES (${y}, 'looked', 'boat', 'heron', '${member}')`,
      `INSERT INTO idempotency_key (yard_id, member_id, key, fingerprint)
       VALUES (${y}, '${member}', 'k', 'f')`,
      `INSERT INTO program_key (yard_id, member_id, name, token_hash, scopes, expires_at)
       VALUES (${y}, '${member}', 'Clock', sha256(('key-${member}' || ${y})::bytea), '{read}', ${later})`,
    ]),
    `INSERT INTO invitation (yard_id, member_id, token_hash, invited_by_id, expires_at)
     VALUES (${y}, 'ben', sha256(('link' || ${y})::bytea), 'ann', ${later})`,
    `INSERT INTO plan_run (yard_id, id) VALUES (${y}, ${run})`,
    `INSERT INTO compiled_problem (yard_id, hash, gzip) VALUES (${y}, '0123456789abcdef', '')`,
    `INSERT INTO plan (yard_id, id, run_id, problem_hash, engine_version, status, origin, lateness,
                       finishes, branches, bounds, chains, floats, sheet, map, iterations, found_at)
     VALUES (${y}, ${plan}, ${run}, '0123456789abcdef', '1', 'feasible', now(), 0, 0, '{}', '[]',
             '[]', '[]', '{}', '{}', 1, 1)`,
    `INSERT INTO plan_refit (yard_id, plan_id, refit, refit_id, finish_at)
     VALUES (${y}, ${plan}, 0, 'heron-27', now())`,
    `INSERT INTO plan_placement (yard_id, plan_id, activity, task_id, mode, start_at, finish_at,
                                 segment_starts, segment_ends)
     VALUES (${y}, ${plan}, 0, 'first.wet', 0, now(), now(), '{}', '{}')`,
    `INSERT INTO plan_placement_crew (yard_id, plan_id, activity, member_id, demand)
     VALUES (${y}, ${plan}, 0, 'ann', 0)`,
    `INSERT INTO published_plan (yard_id, plan_id) VALUES (${y}, ${plan})`,
    `INSERT INTO material_version (yard_id, material_id, version, body) VALUES (${y}, 'resin', 9, '{}')`,
  ];
}

/** An account with a row in each table of accounts. */
export async function plantAccount(owner: PrismaClient, id: string): Promise<void> {
  await owner.account.create({ data: { id, email: `${id}@yard.test`, name: id } });
  const a = `'${id}'`;
  const secret = `sha256(${a}::bytea)`;
  const later = "now() + interval '1 h'";
  for (const table of ['session', 'pending_sign_in', 'password_reset']) {
    await owner.$executeRawUnsafe(
      `INSERT INTO ${table} (token_hash, account_id, expires_at) VALUES (${secret}, ${a}, ${later})`,
    );
  }
  const rows = [
    `INSERT INTO totp (account_id, secret) VALUES (${a}, 'sealed')`,
    `INSERT INTO recovery_code (account_id, code_hash) VALUES (${a}, ${secret})`,
    `INSERT INTO passkey (id, account_id, name, public_key, counter, transports)
     VALUES (${a}, ${a}, 'Telephone', 'key', 0, '{}')`,
    `INSERT INTO passkey_challenge (account_id, challenge, expires_at) VALUES (${a}, 'c', ${later})`,
  ];
  for (const row of rows) await owner.$executeRawUnsafe(row);
}
