import { forbiddenToMembers } from './forbidden-access.ts';
import { cureScience } from './forbidden-cure.ts';
import { liveWork } from './forbidden-live.ts';
import { wholeProblem } from './forbidden-whole.ts';

/** A write that the named constraint, and no other, keeps out of the small yard `y`. */
interface Forbidden {
  readonly constraint: string;
  readonly sql: string | readonly string[];
}

const insertShift = (from: number, to: number, more = "'{}', '{}'", weekday = 3): string =>
  `INSERT INTO weekly_shift (yard_id, member_id, weekday, from_minute, to_minute, break_from, break_to)
   VALUES ('y', 'ann', ${String(weekday)}, ${String(from)}, ${String(to)}, ${more})`;
const insertException = (date: string, from: number, to: number, more = "'{}', '{}'"): string =>
  `INSERT INTO exception_shift (yard_id, member_id, date, from_minute, to_minute, break_from, break_to)
   VALUES ('y', 'ann', '${date}', ${String(from)}, ${String(to)}, ${more})`;
const insertLink = (columns: string, values: string): string =>
  `INSERT INTO task_link (yard_id, id, from_task_id, to_task_id, ${columns})
   VALUES ('y', 'l', 'first.wet', 'first.wipe', ${values})`;
const task = (change: string): string =>
  `UPDATE task SET ${change} WHERE yard_id = 'y' AND id = 'first.wet'`;
const insertRun = (columns: string, values: string): string =>
  `INSERT INTO plan_run (yard_id, ${columns}) VALUES ('y', ${values})`;
const insertClaim = (columns: string, values: string): string =>
  `INSERT INTO claim (yard_id, task_id, member_id, ${columns}) VALUES ('y', 'first.sand', 'ann', ${values})`;

const run = "'00000000-0000-4000-8000-000000000002'";
const plan = "'00000000-0000-4000-8000-000000000003'";
const insertPlan = (status: string, lateness: number): readonly string[] => [
  insertRun('id', run),
  `INSERT INTO compiled_problem (yard_id, hash, gzip) VALUES ('y', '0123456789abcdef', '')`,
  `INSERT INTO plan (yard_id, id, run_id, problem_hash, engine_version, status, origin, lateness, finishes,
                     branches, bounds, chains, floats, sheet, map, iterations, found_at)
   VALUES ('y', ${plan}, ${run}, '0123456789abcdef', '1', '${status}', now(), ${String(lateness)}, 0,
           '{}', '[]', '[]', '[]', '{}', '{}', 1, 1)`,
];
const insertPlacement = (finish: string, ends: string, slot = 'NULL'): readonly string[] => [
  ...insertPlan('feasible', 0),
  `INSERT INTO plan_placement (yard_id, plan_id, activity, task_id, mode, start_at, finish_at,
                               segment_starts, segment_ends, slot)
   VALUES ('y', ${plan}, 0, 'first.wet', 0, '2027-01-04T08:00Z', '${finish}',
           '{2027-01-04T08:00Z}', '${ends}', ${slot})`,
];

const ofShape = ['skill', 'member', 'space', 'tool', 'material', 'boat', 'refit', 'part', 'job'];

const shapes: readonly Forbidden[] = [
  ...ofShape.map((table) => ({
    constraint: `${table}_id_shape`,
    sql: `UPDATE ${table} SET id = 'not an id' WHERE yard_id = 'y'`,
  })),
  {
    constraint: 'procedure_id_shape',
    sql: `INSERT INTO procedure (yard_id, id, version, name, body) VALUES ('y', 'P', 1, 'P', '{}')`,
  },
];

const yardAndPeople: readonly Forbidden[] = [
  { constraint: 'yard_horizon', sql: "UPDATE yard SET horizon_days = 0 WHERE id = 'y'" },
  { constraint: 'yard_time_zone', sql: "UPDATE yard SET time_zone = '' WHERE id = 'y'" },
  { constraint: 'member_roles', sql: "UPDATE member SET roles = '{}' WHERE yard_id = 'y'" },
  {
    constraint: 'member_skill_level',
    sql: "UPDATE member_skill SET level = 4 WHERE yard_id = 'y'",
  },
  {
    constraint: 'member_skill_speed',
    sql: "UPDATE member_skill SET speed = 0 WHERE yard_id = 'y'",
  },
  { constraint: 'weekly_shift_weekday', sql: insertShift(60, 120, "'{}', '{}'", 8) },
  { constraint: 'weekly_shift_minutes', sql: insertShift(60, 1440) },
  { constraint: 'weekly_shift_breaks', sql: insertShift(60, 600, "'{120}', '{}'") },
  // Ann works Mondays from 8 to 16, and Sundays from 22 into Monday at 2.
  { constraint: 'weekly_shift_overlap', sql: insertShift(900, 1000, "'{}', '{}'", 1) },
  { constraint: 'weekly_shift_overlap', sql: insertShift(119, 200, "'{}', '{}'", 1) },
  { constraint: 'exception_shift_minutes', sql: insertException('2027-01-06', -1, 60) },
  {
    constraint: 'exception_shift_breaks',
    sql: insertException('2027-01-06', 60, 600, "'{120}', '{1440}'"),
  },
  // On the 7th from 10 to 14; a night shift from the 6th runs into it.
  { constraint: 'exception_shift_overlap', sql: insertException('2027-01-06', 1200, 601) },
];

const spacesToProcedures: readonly Forbidden[] = [
  { constraint: 'space_room', sql: "UPDATE space SET room = 0 WHERE yard_id = 'y'" },
  {
    constraint: 'space_settling',
    sql: "UPDATE space SET settling_minutes = -1 WHERE yard_id = 'y'",
  },
  {
    constraint: 'space_climate',
    sql: "UPDATE space SET climate = 'heated' WHERE id = 'hull' AND yard_id = 'y'",
  },
  {
    constraint: 'space_climate',
    sql: "UPDATE space SET climate = 'outdoors' WHERE id = 'bench' AND yard_id = 'y'",
  },
  {
    constraint: 'set_point_weekdays',
    sql: "UPDATE set_point SET weekdays = '{0}' WHERE yard_id = 'y'",
  },
  {
    constraint: 'set_point_minute',
    sql: "UPDATE set_point SET from_minute = 1440 WHERE yard_id = 'y'",
  },
  {
    constraint: 'set_point_celsius',
    sql: "UPDATE set_point SET celsius = 201 WHERE yard_id = 'y'",
  },
  { constraint: 'tool_count', sql: "UPDATE tool SET count = 0 WHERE yard_id = 'y'" },
  { constraint: 'outdoor_celsius', sql: "UPDATE outdoor SET celsius = '{}' WHERE yard_id = 'y'" },
  {
    constraint: 'material_resin_system',
    sql: "UPDATE material SET resin_system = 'honey' WHERE yard_id = 'y'",
  },
  {
    constraint: 'material_below_minimum',
    sql: "UPDATE material SET below_minimum = '' WHERE yard_id = 'y'",
  },
  {
    constraint: 'material_temperatures',
    sql: "UPDATE material SET maximum_c = 9 WHERE yard_id = 'y'",
  },
  {
    constraint: 'cure_table_milestone',
    sql: "UPDATE cure_table SET milestone = 'hard' WHERE yard_id = 'y'",
  },
  {
    constraint: 'cure_table_rows',
    sql: "UPDATE cure_table SET minutes = '{1}' WHERE yard_id = 'y'",
  },
  {
    constraint: 'procedure_version',
    sql: `INSERT INTO procedure (yard_id, id, version, name, body) VALUES ('y', 'p', 0, 'P', '{}')`,
  },
  {
    constraint: 'procedure_body',
    sql: `INSERT INTO procedure (yard_id, id, version, name, body) VALUES ('y', 'p', 1, 'P', '[]')`,
  },
  {
    constraint: 'procedure_use_one',
    sql: `INSERT INTO procedure_use (yard_id, procedure_id, version, skill_id, tool_id)
          VALUES ('y', 'patch', 1, 'sand', 'sander')`,
  },
  {
    constraint: 'procedure_immutable',
    sql: "UPDATE procedure SET name = 'Other' WHERE yard_id = 'y'",
  },
  {
    constraint: 'procedure_use_immutable',
    sql: "UPDATE procedure_use SET skill_id = 'sand' WHERE yard_id = 'y'",
  },
];

const work: readonly Forbidden[] = [
  { constraint: 'refit_promised', sql: "UPDATE refit SET promised = release WHERE yard_id = 'y'" },
  { constraint: 'refit_weight', sql: "UPDATE refit SET weight = 0 WHERE yard_id = 'y'" },
  { constraint: 'part_sizes', sql: "UPDATE part SET area_m2 = -0.1 WHERE yard_id = 'y'" },
  {
    constraint: 'job_after_other',
    sql: `INSERT INTO job_after (yard_id, job_id, after_id) VALUES ('y', 'first', 'first')`,
  },
  { constraint: 'task_work', sql: task('work_minutes = 0') },
  { constraint: 'task_level', sql: task('min_level = 0') },
  { constraint: 'task_work', sql: task('crew_min = 3') },
  { constraint: 'task_wet_material', sql: task('material_id = NULL') },
  { constraint: 'task_state_times', sql: task("state = 'working'") },
  { constraint: 'task_state_times', sql: task("state = 'done', started_at = now()") },
  { constraint: 'task_state_times', sql: task('started_at = now()') },
  { constraint: 'task_tool_count', sql: "UPDATE task_tool SET count = 0 WHERE yard_id = 'y'" },
  {
    constraint: 'task_link_other',
    sql: "UPDATE task_link SET to_task_id = from_task_id WHERE yard_id = 'y'",
  },
  {
    constraint: 'task_link_opens',
    sql: insertLink('opens_minutes, opens_milestone', "5, 'cured'"),
  },
  { constraint: 'task_link_opens', sql: insertLink('opens_milestone', "'hard'") },
  { constraint: 'task_link_closes', sql: insertLink('closes_minutes', '-1') },
];

const plansAndClaims: readonly Forbidden[] = [
  { constraint: 'plan_run_limits', sql: insertRun('seconds', '0') },
  { constraint: 'plan_run_status_times', sql: insertRun('status', "'running'") },
  { constraint: 'plan_run_status_times', sql: insertRun('status', "'finished'") },
  { constraint: 'plan_run_error', sql: insertRun('status, finished_at', "'failed', now()") },
  {
    constraint: 'compiled_problem_hash',
    sql: `INSERT INTO compiled_problem (yard_id, hash, gzip) VALUES ('y', 'x', '')`,
  },
  { constraint: 'plan_status', sql: insertPlan('hopeful', 0) },
  { constraint: 'plan_values', sql: insertPlan('feasible', -1) },
  {
    constraint: 'plan_placement_span',
    sql: insertPlacement('2027-01-04T07:59Z', '{2027-01-04T09:00Z}'),
  },
  {
    constraint: 'plan_placement_slot',
    sql: insertPlacement('2027-01-04T09:00Z', '{2027-01-04T09:00Z}', '-1'),
  },
  { constraint: 'plan_placement_segments', sql: insertPlacement('2027-01-04T09:00Z', '{}') },
  { constraint: 'claim_status_times', sql: insertClaim('status', "'working'") },
  { constraint: 'claim_status_times', sql: insertClaim('status, started_at', "'finished', now()") },
  {
    constraint: 'claim_one_open',
    sql: [insertClaim('status', "'open'"), insertClaim('status, started_at', "'working', now()")],
  },
  {
    constraint: 'event_kind',
    sql: `INSERT INTO event (yard_id, kind, subject, subject_id) VALUES ('y', '', 'task', 't')`,
  },
];

export const forbidden: readonly Forbidden[] = [
  ...wholeProblem,
  ...cureScience,
  ...shapes,
  ...forbiddenToMembers,
  ...liveWork(plan, insertPlan('feasible', 0)),
  ...yardAndPeople,
  ...spacesToProcedures,
  ...work,
  ...plansAndClaims,
];
