import { Inject, Injectable } from '@nestjs/common';
import { DomainError, fault } from '#kernel/error.ts';
import { hashOf, newToken } from '#persistence/access/token.ts';
import { holdMembership } from '../../platform/access/hold-membership.ts';
import type { Account, Viewer } from '../../platform/access/viewer.ts';
import { type Config, configToken } from '../../platform/config/config.ts';
import { Database, oneSnapshot, type Tx } from '../../platform/database/database.ts';
import type { Page, PageRequest } from '../../platform/paging/page.ts';
import type { Calendar, CalendarInput, NewCalendar } from './calendars.contract.ts';
import {
  countOpen,
  findReader,
  findSpaceName,
  insertCalendar,
  listCalendars,
  type Reader,
  revokeOne,
  revokeOpen,
  type Whose,
} from './calendars.store.ts';
import { lacksRole } from './may-read.ts';

/** More are forgotten ones. */
const mostOpen = 50;

@Injectable()
export class CalendarsService {
  constructor(
    private readonly database: Database,
    @Inject(configToken) private readonly config: Config,
  ) {}

  list(viewer: Viewer, page: PageRequest): Promise<Page<Calendar>> {
    const list = (tx: Tx) => listCalendars(tx, reachOf(viewer), page);
    return this.database.inYard(viewer, list, oneSnapshot);
  }

  /** The address is known to nobody but the caller, from here on. */
  create(viewer: Viewer, account: Account, input: CalendarInput): Promise<NewCalendar> {
    const { yardId } = viewer;
    const token = newToken();
    return this.database.inYard(viewer, async (tx) => {
      await holdMembership(tx, account.sessionId);
      const reader = await readerOf(tx, viewer, input);
      const of = await subjectOf(tx, yardId, reader, input);
      if ((await countOpen(tx, { yardId, memberId: reader.id })) >= mostOpen) {
        throw new DomainError('input.limit', `${reader.name} has ${String(mostOpen)} calendars.`, {
          cure: 'Revoke those that nobody reads any more.',
        });
      }
      const calendar = await insertCalendar(tx, {
        yardId,
        memberId: reader.id,
        kind: input.kind,
        spaceId: input.kind === 'space' ? input.spaceId : null,
        name: input.name ?? of,
        tokenHash: hashOf(token),
      });
      const url = new URL(`/api/v1/calendars/${token}.ics`, this.config.publicUrl);
      return { ...calendar, url: url.href };
    });
  }

  revoke(viewer: Viewer, id: string): Promise<void> {
    return this.database.inYard(viewer, (tx) => revokeOne(tx, reachOf(viewer), id));
  }
}

/** Ends all calendars of the yard, or of one member. */
export const revokeCalendars = (tx: Tx, whose: Whose): Promise<void> => revokeOpen(tx, whose);

/** The foreman's are all calendars of the yard. */
const reachOf = ({ yardId, memberId, roles }: Viewer): Whose =>
  roles.includes('foreman') ? { yardId } : { yardId, memberId };

/** Who will read it: whose rights it has, and with whose it ends. */
async function readerOf(
  tx: Tx,
  { yardId, memberId, roles }: Viewer,
  { personId, kind }: CalendarInput,
): Promise<Reader> {
  const of = personId ?? memberId;
  if (of !== memberId && !roles.includes('foreman')) {
    throw wrong('personId', of, 'only the foreman makes calendars for others', 'Leave it out.');
  }
  const reader = await findReader(tx, yardId, of);
  // Nobody but the caller, whose access ends at this moment, is not named in what was sent.
  if (!reader && personId === null)
    throw new DomainError('record.missing', 'There is no such yard.');
  if (!reader) throw wrong('personId', of, 'there is no such person', 'Name one of the yard.');
  if (reader.accountId === null) {
    const cure = 'Invite them first: a calendar is read as its person.';
    throw wrong('personId', of, `${reader.name} has no account`, cure);
  }
  const missing = lacksRole(kind, reader.roles);
  if (missing !== null) {
    const message = `${reader.name} is not ${missing}`;
    throw wrong('kind', kind, message, 'Ask for a kind that is of use to them.');
  }
  return reader;
}

/** What it is called where nobody says it. */
async function subjectOf(
  tx: Tx,
  yardId: string,
  reader: Reader,
  { kind, spaceId }: CalendarInput,
): Promise<string> {
  if (kind !== 'space') {
    if (spaceId !== null) {
      const message = `a calendar of kind "${kind}" is of no space`;
      throw wrong('spaceId', spaceId, message, 'Leave it out, or ask for kind "space".');
    }
    return kind === 'builder' ? `Work of ${reader.name}` : `Boats of ${reader.name}`;
  }
  const cure = 'Name one of the yard’s spaces.';
  if (spaceId === null) throw wrong('spaceId', spaceId, 'a space’s calendar names one', cure);
  const name = await findSpaceName(tx, yardId, spaceId);
  if (name === null) throw wrong('spaceId', spaceId, 'there is no such space', cure);
  return name;
}

function wrong(path: string, value: unknown, message: string, cure: string): DomainError {
  const faults = [fault('input.field', path, message, { value, cure })];
  return new DomainError('input.field', `${path}: ${message}`, { cure, faults });
}
