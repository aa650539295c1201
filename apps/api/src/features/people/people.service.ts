import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database, type Tx } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { revokeCalendars } from '../calendars/calendars.service.ts';
import { revokeGivenInvitations, revokeInvitations } from '../invitations/invitations.service.ts';
import { narrowKeys, removeKeys, revokeKeys } from '../program-keys/program-keys.service.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Person, PersonInput, PersonPatch } from './people.contract.ts';
import {
  assertForeman,
  deletePerson,
  findPerson,
  insertPerson,
  listPeople,
  removeAccount,
  type StoredPerson,
  updatePerson,
} from './people.store.ts';

@Injectable()
export class PeopleService {
  constructor(private readonly database: Database) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Person>> {
    return this.database.inYard(viewer, async (tx) => {
      const { items, ...rest } = await listPeople(tx, viewer.yardId, page);
      return { ...rest, items: items.map((person) => shownTo(viewer, person)) };
    });
  }

  get(viewer: Viewer, id: string): Promise<Person> {
    return this.database.inYard(viewer, async (tx) =>
      shownTo(viewer, await findPerson(tx, viewer.yardId, id)),
    );
  }

  create(viewer: Viewer, input: PersonInput): Promise<Person> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'people', input));
      await insertPerson(tx, yardId, input);
      await appendEvent(tx, viewer, 'person-added', 'person', input.id);
      return findPerson(tx, yardId, input.id);
    });
  }

  update(viewer: Viewer, id: string, revision: number, patch: PersonPatch): Promise<Person> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      const before = await findPerson(tx, yardId, id);
      const changed = patched(before, patch);
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'people', changed));
      await updatePerson(tx, yardId, revision, changed);
      await endWhatChanged(tx, yardId, before, changed);
      await appendEvent(tx, viewer, 'person-changed', 'person', id);
      await assertForeman(tx, yardId);
      return findPerson(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findPerson(tx, yardId, id);
      // Invitations go with the person (the foreign key says so); who gave any is not removed.
      await removeKeys(tx, { yardId, memberId: id });
      await deletePerson(tx, yardId, id, revision);
      await appendEvent(tx, viewer, 'person-removed', 'person', id);
      await assertForeman(tx, yardId);
    });
  }

  /**
   * Of somebody who leaves: whoever did work here can be removed no more, but comes in no more either,
   * not by a link that they made for another person.
   */
  endAccess(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findPerson(tx, yardId, id);
      await removeAccount(tx, yardId, id, revision);
      await revokeKeys(tx, { yardId, memberId: id });
      await revokeCalendars(tx, { yardId, memberId: id });
      await revokeInvitations(tx, { yardId, memberId: id });
      await revokeGivenInvitations(tx, { yardId, memberId: id });
      await appendEvent(tx, viewer, 'access-ended', 'person', id);
      await assertForeman(tx, yardId);
    });
  }
}

/**
 * A link was given for the roles and the address of its day, and by a foreman; a key reaches no
 * further than the roles that its person has.
 */
async function endWhatChanged(
  tx: Tx,
  yardId: string,
  before: StoredPerson,
  { id: memberId, roles, email }: StoredPerson,
): Promise<void> {
  const sameRoles =
    before.roles.length === roles.length && roles.every((role) => before.roles.includes(role));
  if (sameRoles && before.email === email) return;
  await revokeInvitations(tx, { yardId, memberId });
  if (!roles.includes('foreman')) await revokeGivenInvitations(tx, { yardId, memberId });
  await narrowKeys(tx, { yardId, memberId }, roles);
}

/** Nobody but the foreman sees what another earns. */
function shownTo({ roles, memberId }: Viewer, person: StoredPerson): Person {
  if (roles.includes('foreman') || person.id === memberId) return person;
  return { ...person, hourlyCost: null, overtimeHourlyExtra: null };
}
