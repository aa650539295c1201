import { afterAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { smtpSink } from '../../apps/api/src/platform/testing/smtp-sink.ts';
import { faultsOf, testPassword } from '../support/api.ts';
import { inviting, linkToken, newPassword } from '../support/inviting.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';
import { whileHeld } from '../support/while-held.ts';

/**
 * Who comes in by a link, and how somebody goes out again. What an answer may tell about accounts:
 * OWASP Authentication Cheat Sheet, "Authentication and Error Messages".
 */
const busy = await smtpSink();
afterAll(() => busy.close());
const yard = smallYardApi({ mail: { smtpUrl: busy.url } });
const { api, database, tokens } = yard;
const { rest, person, personOf, invite, invited, open, guarded } = inviting(yard);

describe('an account that is there already', () => {
  test('is not made again, and nothing of it is told', async () => {
    const token = await invited('nele');
    const taken = await open('accept', {
      token,
      email: people.stranger.toUpperCase(),
      password: newPassword,
    });
    expect([taken.status, taken.body.code]).toEqual([409, 'record.exists']);
    expect({ ...taken.body, instance: undefined }).toEqual({
      type: '/problems/record.exists',
      title: 'Such a record exists already',
      status: 409,
      code: 'record.exists',
      detail: 'No new account can be made with this e-mail.',
      cure: 'If you have an account, sign in first and open the link again; or take another e-mail.',
      errors: [],
    });
    // Its own password is no way in either: to sign in is another call, with its limits.
    const own = await open('accept', { token, email: people.stranger, password: testPassword });
    expect(own.status).toBe(409);
  });

  test('joins when it is signed in, in another role than elsewhere', async () => {
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    expect((await rest('POST', '/yards', mine, tokens.stranger)).status).toBe(201);
    const id = await person('olaf', { roles: ['owner'] });
    const token = linkToken(await invite(id));
    const superfluous = await rest(
      'POST',
      '/invitations/accept',
      { token, email: 'x@y.test', password: newPassword },
      tokens.stranger,
    );
    expect(faultsOf(superfluous.body)).toEqual([
      ['email', 'input.field'],
      ['password', 'input.field'],
    ]);
    const joined = await rest('POST', '/invitations/accept', { token }, tokens.stranger);
    expect(joined).toMatchObject({ status: 200, body: { personId: 'olaf', session: null } });
    const { body } = await rest('GET', '/me', undefined, tokens.stranger);
    expect(body.memberships).toEqual([
      expect.objectContaining({ yardId: 'mine', roles: ['foreman'] }),
      expect.objectContaining({ yardId: 'small', roles: ['owner'] }),
    ]);
  });

  test('cannot be two people of one yard, nor a person have two accounts', async () => {
    const token = await invited('pia');
    const twice = await rest('POST', '/invitations/accept', { token }, tokens.builder);
    expect([twice.status, twice.body.code]).toEqual([409, 'record.exists']);
    expect(twice.body.detail).toBe('Your account is in Small yard already, as Bram.');
    const known = await invite('bram');
    expect([known.status, known.body.code]).toEqual([409, 'record.exists']);
    expect((await open('preview', { token })).status).toBe(200);
  });

  test('joins by its cookie only with the token against forged requests', async () => {
    const { headers, body } = await api.rest('POST', '/sessions', {
      body: { email: people.stranger, password: testPassword },
    });
    const { csrf } = z.object({ csrf: z.string() }).parse(body);
    const cookie = (headers.get('set-cookie') ?? '').split(';')[0];
    await database.owner.member.update({
      where: { yardId_id: { yardId: 'small', id: 'olaf' } },
      data: { accountId: null },
    });
    const token = linkToken(await invite('olaf'));
    const without = await api.rest('POST', '/invitations/accept', {
      body: { token },
      headers: { cookie },
    });
    expect(without.status).toBe(422);
    const joined = await api.rest('POST', '/invitations/accept', {
      body: { token },
      headers: { cookie, 'x-csrf-token': csrf },
    });
    expect(joined).toMatchObject({ status: 200, body: { personId: 'olaf' } });
  });

  test('does not come in because a yard names its e-mail', async () => {
    const email = 'late@yard.test';
    await person('quint', { email });
    await api.addAccount(email);
    const token = await api.signIn(email);
    expect((await rest('GET', '/yards/small', undefined, token)).status).toBe(404);
    await person('rosa', { email });
    expect((await rest('GET', '/yards/small', undefined, token)).status).toBe(404);
    expect((await personOf('rosa')).body.hasAccount).toBe(false);
  });
});

describe('what changes for a person', () => {
  test.each([
    ['other roles', { roles: ['builder', 'foreman'] }],
    ['another address', { email: 'new@mail.test' }],
  ])('%s end the link that is open', async (_what, change) => {
    const id = `svea-${Object.keys(change)[0]}`;
    const token = await invited(id);
    expect((await guarded('PATCH', id, '', { name: 'Svea' })).status).toBe(200);
    expect((await open('preview', { token })).status).toBe(200);
    expect((await guarded('PATCH', id, '', change)).status).toBe(200);
    expect((await open('preview', { token })).body.code).toBe('access.link');
  });

  test('removal ends the link', async () => {
    const token = await invited('thea');
    expect((await guarded('DELETE', 'thea')).status).toBe(204);
    expect((await open('preview', { token })).body.code).toBe('access.link');
  });

  test('the end of access lets nobody in any more, and a fresh link lets in again', async () => {
    const email = 'uwe@somewhere.test';
    const token = await invited('uwe');
    const { body } = await open('accept', { token, email, password: newPassword });
    const { session } = z.object({ session: z.object({ token: z.string() }) }).parse(body);
    expect((await rest('GET', '/yards/small', undefined, session.token)).status).toBe(200);
    const made = { name: 'screen', scopes: ['read'], days: 30, password: newPassword };
    const key = await rest('POST', '/yards/small/program-keys', made, session.token);
    const keyToken = z.string().parse(key.body.token);
    expect((await rest('GET', '/yards/small', undefined, keyToken)).status).toBe(200);

    const unguarded = await rest('DELETE', '/yards/small/people/uwe/account');
    expect(unguarded.body.code).toBe('record.unguarded');
    expect((await guarded('DELETE', 'uwe', '/account')).status).toBe(204);
    expect((await rest('GET', '/yards/small', undefined, session.token)).status).toBe(404);
    expect((await rest('GET', '/yards/small', undefined, keyToken)).status).toBe(401);
    expect((await personOf('uwe')).body).toMatchObject({ id: 'uwe', hasAccount: false });

    const fresh = linkToken(await invite('uwe'));
    const back = await rest('POST', '/invitations/accept', { token: fresh }, session.token);
    expect(back.status).toBe(200);
    // Back in, but the key stays ended.
    expect((await rest('GET', '/yards/small', undefined, session.token)).status).toBe(200);
    expect((await rest('GET', '/yards/small', undefined, keyToken)).status).toBe(401);
  });

  describe('ends the links that they gave to others, with their being a foreman', () => {
    const gone = [404, 'access.link'];
    /** A second foreman, and somebody in the yard for whom they made a link. */
    const foremanWithLink = async (id: string) => {
      const own = await invited(id, {}, { roles: ['foreman'] });
      const email = `${id}@somewhere.test`;
      const { body } = await open('accept', { token: own, email, password: newPassword });
      const { session } = z.object({ session: z.object({ token: z.string() }) }).parse(body);
      const guest = await person(`${id}-guest`, { roles: ['foreman'] });
      const path = `/yards/small/people/${guest}/invitations`;
      const link = linkToken(await rest('POST', path, {}, session.token));
      return { session: session.token, link, guest, path };
    };
    const comeBack = async (session: string, token: string) => {
      const { status, body } = await rest('POST', '/invitations/accept', { token }, session);
      return [status, body.code];
    };

    test('when their access ends', async () => {
      const { session, link } = await foremanWithLink('otto');
      expect((await guarded('DELETE', 'otto', '/account')).status).toBe(204);
      expect(await comeBack(session, link)).toEqual(gone);
      expect((await rest('GET', '/yards/small', undefined, session)).status).toBe(404);
    });

    test('when they are something else', async () => {
      const { link } = await foremanWithLink('ottilie');
      const changed = await guarded('PATCH', 'ottilie', '', { roles: ['builder'] });
      expect(changed.status).toBe(200);
      expect((await open('preview', { token: link })).body.code).toBe('access.link');
    });

    test('as they make one', async () => {
      const { session, guest, path } = await foremanWithLink('oskar');
      const end = "UPDATE member SET account_id = NULL WHERE yard_id = 'small' AND id = 'oskar'";
      const { status, body } = await whileHeld(database.ownerUrl, [end], () =>
        rest('POST', path, {}, session),
      );
      expect([status, body.code]).toEqual([404, 'record.missing']);
      expect(await database.owner.invitation.count({ where: { memberId: guest } })).toBe(1);
    });
  });

  test('their own access, under a key against repetition, is answered as done', async () => {
    const token = await invited('vera');
    const email = 'vera@somewhere.test';
    await open('accept', { token, email, password: newPassword });
    await guarded('PATCH', 'vera', '', { roles: ['foreman'] });
    const session = await api.signIn(email, newPassword);
    const { revision } = (await personOf('vera')).body;
    const { body } = await api.graphql(
      'mutation ($revision: Int!) { endAccess(yardId: "small", id: "vera", revision: $revision) }',
      { revision },
      { token: session, headers: { 'idempotency-key': 'farewell' } },
    );
    expect(body).toEqual({ data: { endAccess: true } });
    const kept = await database.owner.idempotencyKey.findFirst({ where: { memberId: 'vera' } });
    expect(kept?.body).toBe(true);
  });

  test('the only foreman cannot lock the yard out', async () => {
    const answer = await guarded('DELETE', 'ines', '/account');
    expect([answer.status, answer.body.code]).toEqual([409, 'record.in-use']);
    expect((await personOf('ines')).body.hasAccount).toBe(true);
  });

  test('is told in the log of the yard', async () => {
    const kinds = await database.owner.event.findMany({
      where: { yardId: 'small', subject: 'person', subjectId: 'uwe' },
      orderBy: { id: 'asc' },
      select: { kind: true, byMemberId: true },
    });
    expect(kinds.map(({ kind, byMemberId }) => [kind, byMemberId])).toEqual([
      ['person-added', 'ines'],
      ['person-invited', 'ines'],
      ['person-joined', 'uwe'],
      ['access-ended', 'ines'],
      ['person-invited', 'ines'],
      ['person-joined', 'uwe'],
    ]);
  });
});

test('whoever invites does not wait for a mail server that has no time, and is told so', async () => {
  const id = await person('wanda');
  busy.refusals.push(...Array.from({ length: 2 }, () => '451 busy, later'));
  const began = performance.now();
  const { status, body } = await invite(id, { email: 'wanda@mail.test' });
  expect(performance.now() - began).toBeLessThan(9_000);
  expect([status, body.mailed]).toEqual([201, false]);
  const gone = () => busy.mails.filter((mail) => mail.includes('To: wanda@mail.test\n')).length;
  expect(gone()).toBe(0);
  // It goes out all the same.
  await expect.poll(gone, { timeout: 20_000, interval: 200 }).toBe(1);
});
