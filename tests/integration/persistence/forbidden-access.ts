/** What the database refuses of sign-in, invitations, program keys and the audit. */
interface Forbidden {
  readonly constraint: string;
  readonly sql: string;
}

export const accountId = '00000000-0000-4000-8000-000000000001';
export const takenEmail = 'b@b.c';

const account = `'${accountId}'`;
const token = "sha256('token')";
const later = "now() + interval '1 h'";
const before = "now() - interval '1 h'";

const insert = (table: string, row: Readonly<Record<string, string>>): string =>
  `INSERT INTO ${table} (${Object.keys(row).join(', ')}) VALUES (${Object.values(row).join(', ')})`;

const session = { token_hash: token, account_id: account, expires_at: later };
const passkey = {
  id: "'credential'",
  account_id: account,
  name: "'Telephone'",
  public_key: "'key'",
  counter: '0',
};
const challenge = { account_id: account, challenge: "'c'", expires_at: later };

/** Told to the account itself. */
export const forbiddenToAccounts: readonly Forbidden[] = [
  { constraint: 'account_email_lower', sql: "UPDATE account SET email = 'A@b.c'" },
  { constraint: 'account_email_key', sql: `UPDATE account SET email = '${takenEmail}'` },
  ...['session', 'pending_sign_in', 'password_reset'].flatMap((table) => [
    {
      constraint: `${table}_token_sha256`,
      sql: insert(table, { ...session, token_hash: "'token'" }),
    },
    { constraint: `${table}_span`, sql: insert(table, { ...session, expires_at: before }) },
  ]),
  {
    constraint: 'pending_sign_in_attempts',
    sql: insert('pending_sign_in', { ...session, attempts: '-1' }),
  },
  {
    constraint: 'recovery_code_sha256',
    sql: insert('recovery_code', { account_id: account, code_hash: "'code'" }),
  },
  { constraint: 'passkey_counter', sql: insert('passkey', { ...passkey, counter: '-1' }) },
  { constraint: 'passkey_name', sql: insert('passkey', { ...passkey, name: "''" }) },
  {
    constraint: 'passkey_challenge_span',
    sql: insert('passkey_challenge', { ...challenge, expires_at: before }),
  },
];

const invitation = {
  yard_id: "'y'",
  member_id: "'ben'",
  token_hash: token,
  invited_by_id: "'ann'",
  expires_at: later,
};
const key = {
  yard_id: "'y'",
  member_id: "'ann'",
  name: "'Wall clock'",
  token_hash: token,
  scopes: "'{read}'",
  expires_at: later,
};

/** Told to the service in the yard. */
export const forbiddenToMembers: readonly Forbidden[] = [
  {
    constraint: 'member_yard_id_account_id_key',
    sql: `UPDATE member SET account_id = ${account} WHERE yard_id = 'y'`,
  },
  {
    constraint: 'invitation_token_sha256',
    sql: insert('invitation', { ...invitation, token_hash: "'token'" }),
  },
  {
    constraint: 'invitation_span',
    sql: insert('invitation', { ...invitation, expires_at: before }),
  },
  {
    constraint: 'invitation_end',
    sql: insert('invitation', { ...invitation, accepted_at: 'now()', revoked_at: 'now()' }),
  },
  {
    constraint: 'invitation_one_open',
    sql: `${insert('invitation', invitation)}, ('y', 'ben', sha256('other'), 'ann', ${later})`,
  },
  {
    constraint: 'program_key_token_sha256',
    sql: insert('program_key', { ...key, token_hash: "'token'" }),
  },
  { constraint: 'program_key_span', sql: insert('program_key', { ...key, expires_at: before }) },
  { constraint: 'program_key_name', sql: insert('program_key', { ...key, name: "''" }) },
  { constraint: 'program_key_scopes', sql: insert('program_key', { ...key, scopes: "'{}'" }) },
  { constraint: 'program_key_scopes', sql: insert('program_key', { ...key, scopes: "'{all}'" }) },
];

const audit = {
  chain: "'y'",
  number: '1000000',
  yard_id: "'y'",
  at: 'now()',
  change: "'insert'",
  record: "'boat'",
  key: "'{}'",
  after: "'{}'",
  hash: token,
};

/** Told to the owner of the tables, who alone may write there, or make a yard another one. */
export const forbiddenToOwner: readonly Forbidden[] = [
  { constraint: 'yard_id_shape', sql: "UPDATE yard SET id = 'Y' WHERE id = 'y'" },
  { constraint: 'audit_change', sql: insert('audit', { ...audit, change: "'update'" }) },
  { constraint: 'audit_change', sql: insert('audit', { ...audit, change: "'look'" }) },
  { constraint: 'audit_chain', sql: insert('audit', { ...audit, chain: "''" }) },
  { constraint: 'audit_hash_sha256', sql: insert('audit', { ...audit, hash: "'hash'" }) },
];
