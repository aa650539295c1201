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
  const id = (what: string): string => `md5('${what}' || ${y})::uuid`;
  const [run, plan, claim] = ['run', 'plan', 'claim'].map(id);
  const alarm = id('alarm');
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
    `INSERT INTO work_span (yard_id, task_id, claim_id, start_at, crew)
     VALUES (${y}, 'first.wet', ${claim}, now(), '{ann}')`,
    `INSERT INTO report (yard_id, member_id, key, kind, input, phone_at, at, outcome)
     VALUES (${y}, 'ann', 'k', 'start', '{}', now(), now(), 'done')`,
    `INSERT INTO log_cursor (yard_id) VALUES (${y})`,
    `INSERT INTO candidate (yard_id, plan_id, moved, disturbance) VALUES (${y}, ${plan}, 1, 1)`,
    `INSERT INTO publishing (yard_id, plan_id) VALUES (${y}, ${plan})`,
    `INSERT INTO alarm (yard_id, id, key, kind, due_at, words) VALUES (${y}, ${alarm}, 'k', 'opens', now(), '')`,
    `INSERT INTO alarm_receipt (yard_id, alarm_id, member_id) VALUES (${y}, ${alarm}, 'ann')`,
    ...['ann', 'ben'].map(
      (member) =>
        `INSERT INTO calendar_link (yard_id, id, member_id, kind, name, token_hash)
         VALUES (${y}, ${id(`calendar-${member}`)}, '${member}', 'owner', 'Diary',
                 sha256(('calendar-${member}' || ${y})::bytea))`,
    ),
    `INSERT INTO calendar_item (yard_id, link_id, uid, mark, entry)
     VALUES (${y}, ${id('calendar-ben')}, 'u', 'm', '{}')`,
    ...live(yardId, 'heron-27', 'deck', id('snag')),
    ...live(yardId, `${others}-refit`, `${others}-part`, id(`${others}-snag`)),
    `INSERT INTO rework (yard_id, cause, snag_id, task_id, words, edits)
     VALUES (${y}, 'snag', ${id('snag')}, 'first.wet', '', '{}')`,
  ];
}

/** A snag that its owner may see, and a change order, of one refit; `refit` says whose each row is. */
function live(yardId: string, refit: string, part: string, snag: string): string[] {
  const y = `'${yardId}'`;
  const change = `md5('change-${refit}' || ${y})::uuid`;
  const proposal = (column: string, of: string): string =>
    `INSERT INTO proposal (yard_id, ${column}, edits, read_event_id)
     VALUES (${y}, ${of}, '{"of": "${refit}"}', 0)`;
  return [
    `INSERT INTO snag (yard_id, id, part_id, kind, words, shown_to_owner, raised_by_id, found_at)
     VALUES (${y}, ${snag}, '${part}', 'void', '${refit}', true, 'ann', now())`,
    `INSERT INTO snag (yard_id, part_id, kind, words, raised_by_id, found_at)
     VALUES (${y}, '${part}', 'void', '${others}: not shown', 'ann', now())`,
    `INSERT INTO snag_photo (yard_id, snag_id, media_type, bytes, width, height, sha256, added_by_id)
     VALUES (${y}, ${snag}, 'image/png', 1, 1, 1, '', '${refit}')`,
    `INSERT INTO change_order (yard_id, id, refit_id, kind, input, words, raised_by_id)
     VALUES (${y}, ${change}, '${refit}', 'size', '{}', '', 'ann')`,
    proposal('change_order_id', change),
    proposal('snag_id', snag).replace(`"${refit}"`, `"${others}: of a snag"`),
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
    `INSERT INTO push_subscription (account_id, endpoint, p256dh, auth)
     VALUES (${a}, 'https://push.test/' || ${a}, 'key', 'secret')`,
  ];
  for (const row of rows) await owner.$executeRawUnsafe(row);
}
