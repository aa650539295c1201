/** What the database refuses of barriers, slots, stocks, holds and the rest of the whole problem. */
const task = (change: string): string =>
  `UPDATE task SET ${change} WHERE yard_id = 'y' AND id = 'first.wet'`;
const list = (kind: string, slots: string): string =>
  `INSERT INTO slot_list (yard_id, id, name, kind, slots) VALUES ('y', 's', 'S', '${kind}', '${slots}')`;

export const wholeProblem = [
  {
    constraint: 'stock_id_shape',
    sql: "INSERT INTO stock (yard_id, id, name, unit, total) VALUES ('y', 'A b', 'S', 'm', 1)",
  },
  {
    constraint: 'barrier_id_shape',
    sql: "INSERT INTO barrier (yard_id, id, name, closed) VALUES ('y', '', 'B', true)",
  },
  {
    constraint: 'slot_list_id_shape',
    sql: "INSERT INTO slot_list (yard_id, id, name, kind) VALUES ('y', '-', 'S', 'tide')",
  },
  {
    constraint: 'delivery_id_shape',
    sql: "INSERT INTO delivery (yard_id, id, name, expected) VALUES ('y', 'Ä', 'D', now())",
  },
  { constraint: 'yard_money', sql: "UPDATE yard SET currency = 'euro' WHERE id = 'y'" },
  { constraint: 'yard_money', sql: "UPDATE yard SET money_tolerance = -1 WHERE id = 'y'" },
  { constraint: 'member_money', sql: "UPDATE member SET hourly_cost = -1 WHERE yard_id = 'y'" },
  { constraint: 'member_overtime', sql: "UPDATE member SET overtime = '{}' WHERE yard_id = 'y'" },
  { constraint: 'space_supply', sql: "UPDATE space SET taken = '1' WHERE yard_id = 'y'" },
  { constraint: 'space_supply', sql: "UPDATE space SET hours = '{}' WHERE yard_id = 'y'" },
  { constraint: 'tool_supply', sql: `UPDATE tool SET away = '"x"' WHERE yard_id = 'y'` },
  { constraint: 'tool_supply', sql: "UPDATE tool SET hours = 'null' WHERE yard_id = 'y'" },
  {
    constraint: 'stock_total',
    sql: "INSERT INTO stock (yard_id, id, name, unit, total) VALUES ('y', 's', 'S', 'm', -1)",
  },
  { constraint: 'slot_list_kind', sql: list('moon', '[]') },
  { constraint: 'slot_list_slots', sql: list('tide', '{}') },
  { constraint: 'job_words', sql: "UPDATE job SET words = '{}' WHERE yard_id = 'y'" },
  { constraint: 'task_work', sql: task('skill_id = NULL') },
  { constraint: 'task_work', sql: task('floor_minutes = -1') },
  { constraint: 'task_clean_down', sql: task('clean_down_minutes = 1441') },
  { constraint: 'task_barrier', sql: task('barrier_closes = true') },
  { constraint: 'task_price', sql: task('price = -1') },
  { constraint: 'task_documents', sql: task("holds = '{}'") },
  { constraint: 'task_documents', sql: task("consumes = '0'") },
  {
    constraint: 'task_sensitive',
    sql: task("sensitive_minutes = 1, sensitive_milestone = 'cured'"),
  },
  { constraint: 'task_sensitive', sql: task("sensitive_milestone = 'hard'") },
];
