import { byFace } from './by-face.ts';
import type { Face, Rule } from './rule.ts';
import { accessSettings } from './table/access-settings.ts';
import { accounts } from './table/accounts.ts';
import { alarms } from './table/alarms.ts';
import { audit } from './table/audit.ts';
import { boats } from './table/boats.ts';
import { changes } from './table/changes.ts';
import { calendars } from './table/calendars.ts';
import { candidates } from './table/candidates.ts';
import { cure } from './table/cure.ts';
import { invitations } from './table/invitations.ts';
import { keys } from './table/keys.ts';
import { passkeys } from './table/passkeys.ts';
import { planning } from './table/planning.ts';
import { productivity } from './table/productivity.ts';
import { records } from './table/records.ts';
import { reports } from './table/reports.ts';
import { secondFactor } from './table/second-factor.ts';
import { service } from './table/service.ts';
import { snags } from './table/snags.ts';
import { work } from './table/work.ts';
import { yard } from './table/yard.ts';

/** Who may do what, on what: the one place. An operation that is not here is refused. */
export const table: readonly Rule[] = [
  ...service,
  ...accounts,
  ...secondFactor,
  ...passkeys,
  ...yard,
  ...accessSettings,
  ...invitations,
  ...keys,
  ...records,
  ...cure,
  ...boats,
  ...planning,
  ...candidates,
  ...changes,
  ...work,
  ...snags,
  ...reports,
  ...alarms,
  ...calendars,
  ...productivity,
  ...audit,
];

const rows = byFace(table);

/** Undefined: nobody decided, so nobody may. */
export const ruleOf = (face: string): Rule | undefined => rows.get(face);

/** All faces that the table names. */
export const faces: readonly Face[] = table.flatMap((rule) => rule.faces);
