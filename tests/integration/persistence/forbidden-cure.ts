/** What the database refuses of data sheets, readings, observations, fabrics and layers. */
const values = (table: string, row: Record<string, string>): string =>
  `INSERT INTO ${table} (yard_id, ${Object.keys(row).join(', ')})
   VALUES ('y', ${Object.values(row).join(', ')})`;

const reading = (row: Record<string, string>): string =>
  values('reading', {
    id: "'r'",
    space_id: "'hull'",
    of: "'air'",
    at: "'2027-01-04T09:00Z'",
    celsius: '7',
    ...row,
  });
const observation = (row: Record<string, string>): string =>
  values('observation', {
    id: "'o'",
    material_id: "'resin'",
    milestone: "'gel'",
    found: "'already'",
    space_id: "'hull'",
    laid_at: "'2027-01-04T09:00Z'",
    at: "'2027-01-04T10:00Z'",
    ...row,
  });
const fabric = (row: Record<string, string>): string =>
  values('fabric', {
    id: "'f'",
    name: "'F'",
    grams_per_m2: '450',
    resin_ratio: '2',
    binder: "'none'",
    source: "'s'",
    ...row,
  });
const layer = (row: Record<string, string>): string =>
  values('part_layer', {
    part_id: "'deck'",
    base: "'wood'",
    surface: "'bare'",
    waxed: 'false',
    ...row,
  });
const version = (row: Record<string, string>): string =>
  values('material_version', { material_id: "'resin'", version: '9', body: "'{}'", ...row });
const table = (change: string): string => `UPDATE cure_table SET ${change} WHERE yard_id = 'y'`;
const space = (change: string): string => `UPDATE space SET ${change} WHERE yard_id = 'y'`;
const task = (change: string): string =>
  `UPDATE task SET ${change} WHERE yard_id = 'y' AND id = 'first.wet'`;

export const cureScience = [
  { constraint: 'fabric_id_shape', sql: fabric({ id: "'A b'" }) },
  { constraint: 'reading_id_shape', sql: reading({ id: "''" }) },
  { constraint: 'observation_id_shape', sql: observation({ id: "'-'" }) },
  { constraint: 'yard_batches', sql: "UPDATE yard SET cup_share = 4 WHERE id = 'y'" },
  { constraint: 'yard_batches', sql: "UPDATE yard SET power_watts = -1 WHERE id = 'y'" },
  { constraint: 'yard_consumables', sql: "UPDATE yard SET consumables = '{}' WHERE id = 'y'" },
  { constraint: 'space_band', sql: space('band_c = 21') },
  { constraint: 'space_documents', sql: space("changes = '{}'") },
  { constraint: 'space_documents', sql: space("humidity = '[]'") },
  { constraint: 'space_documents', sql: space("skin = 'null'") },
  {
    constraint: 'outdoor_humidity',
    sql: "UPDATE outdoor SET humidity = '{80}' WHERE yard_id = 'y'",
  },
  {
    constraint: 'outdoor_humidity',
    sql: "UPDATE outdoor SET humidity = '{80,101,80}' WHERE yard_id = 'y'",
  },
  { constraint: 'material_sheet', sql: "UPDATE material SET sheet = '[]' WHERE yard_id = 'y'" },
  {
    constraint: 'material_kept',
    sql: "UPDATE material SET kept_lag_hours = 241 WHERE yard_id = 'y'",
  },
  { constraint: 'material_version_number', sql: version({ version: '0' }) },
  { constraint: 'material_version_body', sql: version({ body: "'[]'" }) },
  { constraint: 'material_version_pkey', sql: version({ version: '1' }) },
  { constraint: 'cure_table_rows', sql: table("celsius = '{}', minutes = '{}'") },
  { constraint: 'cure_table_rows', sql: table("conversion = '{}'") },
  { constraint: 'cure_table_trust', sql: table("trust = 'hope'") },
  { constraint: 'cure_table_trust', sql: table('spread = 0.9') },
  { constraint: 'fabric_amounts', sql: fabric({ resin_ratio: '0' }) },
  { constraint: 'fabric_binder', sql: fabric({ binder: "'glue'" }) },
  { constraint: 'part_layer_base', sql: layer({ base: "'honey'" }) },
  { constraint: 'part_layer_surface', sql: layer({ surface: "'rough'" }) },
  { constraint: 'part_layer_thickness', sql: layer({ mm: '0' }) },
  { constraint: 'task_batch', sql: task("quantity = '[]'") },
  { constraint: 'task_batch', sql: task("prepares = '{}'") },
  { constraint: 'task_bonding', sql: task("bonding = 'fast'") },
  { constraint: 'reading_of', sql: reading({ of: "'water'" }) },
  { constraint: 'reading_values', sql: reading({ celsius: '201' }) },
  { constraint: 'reading_values', sql: reading({ humidity: '0' }) },
  { constraint: 'reading_values', sql: reading({ minutes: '-1' }) },
  // A moment of its own, a moment within an hour, two hours that share half of one.
  { constraint: 'reading_overlap', sql: [reading({}), reading({ id: "'s'" })] },
  {
    constraint: 'reading_overlap',
    sql: [reading({ minutes: '60' }), reading({ id: "'s'", at: "'2027-01-04T09:59Z'" })],
  },
  {
    constraint: 'reading_overlap',
    sql: [
      reading({ minutes: '60' }),
      reading({ id: "'s'", at: "'2027-01-04T08:30Z'", minutes: '31' }),
    ],
  },
  { constraint: 'observation_milestone', sql: observation({ milestone: "'hard'" }) },
  { constraint: 'observation_found', sql: observation({ found: "'maybe'" }) },
  { constraint: 'observation_times', sql: observation({ at: "'2027-01-04T08:59Z'" }) },
  { constraint: 'observation_amounts', sql: observation({ grams: '0' }) },
  { constraint: 'observation_amounts', sql: observation({ hardener_percent: '0' }) },
];
