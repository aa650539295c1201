import { Injectable } from '@nestjs/common';
import type { Viewer } from '../../platform/access/viewer.ts';
import { Database } from '../../platform/database/database.ts';
import { appendEvent } from '../../platform/database/events.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import { patched } from '../../platform/shapes/layers.ts';
import { assertFits, withRecord } from '../soundness/soundness.service.ts';
import type { Person, PersonInput, PersonPatch } from './people.contract.ts';
import {
  assertForeman,
  deletePerson,
  findPerson,
  insertPerson,
  listPeople,
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
      const changed = patched(await findPerson(tx, yardId, id), patch);
      await assertFits(tx, yardId, (yard) => withRecord(yard, 'people', changed));
      await updatePerson(tx, yardId, revision, changed);
      await assertForeman(tx, yardId);
      await appendEvent(tx, viewer, 'person-changed', 'person', id);
      return findPerson(tx, yardId, id);
    });
  }

  remove(viewer: Viewer, id: string, revision: number): Promise<void> {
    const { yardId } = viewer;
    return this.database.inYard(viewer, async (tx) => {
      await findPerson(tx, yardId, id);
      await deletePerson(tx, yardId, id, revision);
      await assertForeman(tx, yardId);
      await appendEvent(tx, viewer, 'person-removed', 'person', id);
    });
  }
}

/** Nobody but the foreman sees what another earns. */
function shownTo({ roles, memberId }: Viewer, person: StoredPerson): Person {
  if (roles.includes('foreman') || person.id === memberId) return person;
  return { ...person, hourlyCost: null, overtimeHourlyExtra: null };
}
