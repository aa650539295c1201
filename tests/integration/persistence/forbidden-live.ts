/** What the database refuses of live work. */
interface Forbidden {
  readonly constraint: string;
  readonly sql: string | readonly string[];
}

const insert = (table: string, row: Readonly<Record<string, string>>): string =>
  `INSERT INTO ${table} (yard_id, ${Object.keys(row).join(', ')})
   VALUES ('y', ${Object.values(row).join(', ')})`;
const yard = (change: string): string => `UPDATE yard SET ${change} WHERE id = 'y'`;
const task = (change: string): string =>
  `UPDATE task SET ${change} WHERE yard_id = 'y' AND id = 'first.wet'`;

const claim = "'00000000-0000-4000-8000-00000000000c'";
const insertClaim = insert('claim', { id: claim, task_id: "'first.sand'", member_id: "'ann'" });
const report = {
  member_id: "'ann'",
  key: "'k'",
  kind: "'start'",
  input: "'{}'",
  phone_at: 'now()',
  at: 'now()',
  outcome: "'done'",
};
const snag = {
  part_id: "'deck'",
  kind: "'void'",
  words: "''",
  raised_by_id: "'ann'",
  found_at: 'now()',
};
const snagId = "'00000000-0000-4000-8000-00000000000d'";
const insertSnag = insert('snag', { ...snag, id: snagId });
const photo = {
  snag_id: snagId,
  media_type: "'image/png'",
  bytes: '1',
  width: '1',
  height: '1',
  sha256: "''",
  added_by_id: "'ann'",
};
const change = {
  refit_id: "'heron-27'",
  kind: "'size'",
  input: "'{}'",
  words: "''",
  raised_by_id: "'ann'",
};
const proposal = { snag_id: snagId, edits: "'{}'", read_event_id: '0' };
const rework = { cause: "'abandoned'", task_id: "'first.wet'", words: "''", edits: "'{}'" };
const alarm = { key: "'k'", kind: "'opens'", due_at: 'now()', words: "''" };
const calendar = {
  member_id: "'ann'",
  kind: "'builder'",
  name: "'Diary'",
  token_hash: "sha256('t')",
};

/** `plan`: statements that make the plan of the given id. */
export const liveWork = (plan: string, insertPlan: readonly string[]): readonly Forbidden[] => {
  const candidate = { plan_id: plan, moved: '0', disturbance: '0' };
  return [
    { constraint: 'yard_undo', sql: yard('undo_minutes = -1') },
    { constraint: 'yard_lease', sql: yard('lease_seconds = 0') },
    { constraint: 'yard_publish', sql: yard('publish_moves_up_to = -1') },
    {
      constraint: 'space_work_percent',
      sql: "UPDATE space SET work_percent = 9 WHERE yard_id = 'y'",
    },
    { constraint: 'task_portion', sql: task('portion = 0') },
    { constraint: 'task_left', sql: task('left_minutes = 5') },
    {
      constraint: 'claim_override',
      sql: [insertClaim, `UPDATE claim SET override_reason = 'cold' WHERE id = ${claim}`],
    },
    {
      constraint: 'work_span_order',
      sql: [
        insertClaim,
        insert('work_span', {
          task_id: "'first.sand'",
          claim_id: claim,
          start_at: 'now()',
          end_at: "now() - interval '1 h'",
        }),
      ],
    },
    { constraint: 'report_outcome', sql: insert('report', { ...report, outcome: "'lost'" }) },
    { constraint: 'report_key', sql: insert('report', { ...report, key: "''" }) },
    { constraint: 'plan_run_purpose', sql: insert('plan_run', { purpose: "'fun'" }) },
    {
      constraint: 'candidate_state',
      sql: [...insertPlan, insert('candidate', { ...candidate, state: "'liked'" })],
    },
    {
      constraint: 'candidate_moved',
      sql: [...insertPlan, insert('candidate', { ...candidate, moved: '-1' })],
    },
    { constraint: 'snag_state', sql: insert('snag', { ...snag, state: "'forgotten'" }) },
    { constraint: 'snag_area', sql: insert('snag', { ...snag, area_m2: '0' }) },
    {
      constraint: 'snag_photo_type',
      sql: [insertSnag, insert('snag_photo', { ...photo, media_type: "'text/html'" })],
    },
    {
      constraint: 'snag_photo_size',
      sql: [insertSnag, insert('snag_photo', { ...photo, width: '0' })],
    },
    { constraint: 'change_order_kind', sql: insert('change_order', { ...change, kind: "'none'" }) },
    {
      constraint: 'change_order_state',
      sql: insert('change_order', { ...change, state: "'lost'" }),
    },
    {
      constraint: 'proposal_of',
      sql: insert('proposal', { edits: "'{}'", read_event_id: '0' }),
    },
    {
      constraint: 'proposal_state',
      sql: [insertSnag, insert('proposal', { ...proposal, state: "'lost'" })],
    },
    { constraint: 'rework_cause', sql: insert('rework', { ...rework, cause: "'fun'" }) },
    { constraint: 'rework_snag', sql: insert('rework', { ...rework, cause: "'snag'" }) },
    { constraint: 'alarm_state', sql: insert('alarm', { ...alarm, state: "'lost'" }) },
    { constraint: 'alarm_rung', sql: insert('alarm', { ...alarm, state: "'rung'" }) },
    {
      constraint: 'calendar_link_kind',
      sql: insert('calendar_link', { ...calendar, kind: "'all'" }),
    },
    {
      constraint: 'calendar_link_space',
      sql: insert('calendar_link', { ...calendar, kind: "'space'" }),
    },
  ];
};
