import { createHash } from 'node:crypto';
import { beforeAll, describe, expect, test } from 'vitest';
import { z } from 'zod';
import { faultsOf } from '../support/api.ts';
import { invitationsSchema, inviting, linkToken, newPassword } from '../support/inviting.ts';
import { mailbox, tokenIn } from '../support/mails.ts';
import { smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';

/**
 * The links by which people come into a yard. What one has to be (random, single use, expiring,
 * stored as a hash): OWASP Forgot Password Cheat Sheet, "URL Tokens".
 */
const mails = mailbox();
const yard = smallYardApi({ mail: { folder: mails.folder } });
const { api, database, tokens } = yard;
const { rest, person, personOf, invite, invited, open, statesOf, accounts } = inviting(yard);

describe('a link', () => {
  test('is shown once, and stored as a hash', async () => {
    const answer = await invite(await person('cleo'));
    expect(answer.body).toMatchObject({
      personId: 'cleo',
      person: 'cleo of the yard',
      invitedBy: 'Ines',
      email: null,
      state: 'open',
      mailed: false,
    });
    const token = linkToken(answer);
    // 256 random bits.
    expect(Buffer.from(token, 'base64url')).toHaveLength(32);
    const [stored] = await database.owner.invitation.findMany({ where: { memberId: 'cleo' } });
    const sha256 = createHash('sha256').update(token).digest();
    expect(Buffer.from(stored.tokenHash).equals(sha256)).toBe(true);
    const list = await rest('GET', '/yards/small/invitations');
    expect(JSON.stringify(list.body)).not.toContain(token);
    expect(await statesOf('cleo')).toEqual(['open']);
    const days = (stored.expiresAt.getTime() - stored.createdAt.getTime()) / 86_400_000;
    expect(days).toBeCloseTo(7, 2);
  });

  test('tells its holder the yard, the person and its end, and no more', async () => {
    const token = await invited('dora', { days: 1 });
    const { status, body } = await open('preview', { token });
    expect(status).toBe(200);
    expect(body).toEqual({
      yard: 'Small yard',
      person: 'dora of the yard',
      expiresAt: expect.any(String) as string,
      needsEmail: true,
    });
  });

  test('makes an account, signs it in, and is used up', async () => {
    const token = await invited('edda');
    const email = 'Edda@Somewhere.test';
    const answer = await open('accept', { token, email, password: newPassword });
    expect(answer.status).toBe(200);
    expect(answer.body).toMatchObject({ yardId: 'small', personId: 'edda', yard: 'Small yard' });
    const { session } = z
      .object({ session: z.object({ token: z.string(), csrf: z.string() }) })
      .parse(answer.body);
    expect(answer.headers.get('set-cookie')).toMatch(/HttpOnly; SameSite=Lax/);
    const me = await rest('GET', '/me', undefined, session.token);
    expect(me.body).toMatchObject({
      email: 'edda@somewhere.test',
      name: 'edda of the yard',
      memberships: [{ yardId: 'small', memberId: 'edda', roles: ['builder'] }],
    });
    expect((await rest('GET', '/yards/small/ready', undefined, session.token)).status).toBe(200);
    expect(await statesOf('edda')).toEqual(['accepted']);
    expect((await personOf('edda')).body.hasAccount).toBe(true);

    const again = await open('accept', {
      token,
      email: 'other@somewhere.test',
      password: newPassword,
    });
    expect([again.status, again.body.code]).toEqual([404, 'access.link']);
    expect(await accounts('other@somewhere.test')).toBe(0);
  });

  test('asks for all that a new account needs, and is good until it has it', async () => {
    const token = await invited('fritz');
    const bare = await open('accept', { token });
    expect(bare.status).toBe(422);
    expect(faultsOf(bare.body)).toEqual([
      ['email', 'input.field'],
      ['password', 'input.field'],
    ]);
    const email = 'fritz@somewhere.test';
    const weak = await open('accept', { token, email, password: 'fritz of the yard' });
    expect([weak.status, weak.body.code]).toEqual([422, 'access.password']);
    expect(faultsOf(weak.body)).toEqual([['password', 'access.password']]);
    expect(await accounts(email)).toBe(0);
    expect((await open('accept', { token, email, password: newPassword })).status).toBe(200);
  });

  test('is taken by one of two who come at once; the other has no account either', async () => {
    const token = await invited('gesa');
    const emails = ['one@somewhere.test', 'two@somewhere.test'];
    const answers = await Promise.all(
      emails.map((email) => open('accept', { token, email, password: newPassword })),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 404]);
    const made = await database.owner.account.count({ where: { email: { in: emails } } });
    expect(made).toBe(1);
  });

  test('ends when a fresh one is made, however many at once', async () => {
    const first = await invited('hanno');
    const second = linkToken(await invite('hanno'));
    expect((await open('preview', { token: first })).body.code).toBe('access.link');
    expect((await open('preview', { token: second })).status).toBe(200);
    expect(await statesOf('hanno')).toEqual(['open', 'revoked']);
    const many = await Promise.all([1, 2, 3].map(() => invite('hanno')));
    expect(many.map(({ status }) => status)).toEqual([201, 201, 201]);
    const states = await statesOf('hanno');
    expect(states.filter((state) => state === 'open')).toHaveLength(1);
    expect(states).toHaveLength(5);
  });

  test('ends with its time', async () => {
    const token = await invited('ida');
    await database.owner.invitation.updateMany({
      where: { memberId: 'ida' },
      data: { createdAt: new Date(Date.now() - 60_000), expiresAt: new Date(Date.now() - 1) },
    });
    for (const path of ['preview', 'accept']) {
      const { status, body } = await open(path, { token });
      expect([status, body.code]).toEqual([404, 'access.link']);
    }
    expect(await statesOf('ida')).toEqual(['expired']);
    for (const days of [0, 31, 1.5]) {
      expect(faultsOf((await invite('ida', { days })).body)).toEqual([['days', 'input.field']]);
    }
    expect((await invite('ida', { days: 30 })).status).toBe(201);
  });

  test('can be revoked until it is used', async () => {
    const token = await invited('jost');
    const { body } = await rest('GET', '/yards/small/invitations');
    const [{ id }] = invitationsSchema.parse(body).items;
    const revoke = () => rest('DELETE', `/yards/small/invitations/${id}`);
    expect((await revoke()).status).toBe(204);
    expect((await open('accept', { token, password: newPassword })).body.code).toBe('access.link');
    expect(await statesOf('jost')).toEqual(['revoked']);
    expect((await revoke()).status).toBe(204);

    await open('accept', {
      token: linkToken(await invite('jost')),
      email: 'jost@somewhere.test',
      password: newPassword,
    });
    const [accepted] = invitationsSchema.parse(
      (await rest('GET', '/yards/small/invitations')).body,
    ).items;
    const late = await rest('DELETE', `/yards/small/invitations/${accepted.id}`);
    expect([late.status, late.body.code]).toEqual([409, 'record.in-use']);
    expect((await rest('DELETE', '/yards/small/invitations/none')).status).toBe(404);
  });

  test('is not kept for a repetition of the command', async () => {
    await person('klara');
    const headers = { 'idempotency-key': 'klara' };
    const path = '/yards/small/people/klara/invitations';
    const sending = { token: tokens.foreman, headers, body: {} };
    const first = await api.rest('POST', path, sending);
    const token = linkToken(first);
    const again = await api.rest('POST', path, sending);
    expect(again).toMatchObject({ status: 201, body: { ...first.body, link: null } });
    const kept = await database.owner.idempotencyKey.findMany({ where: { key: 'klara' } });
    expect(JSON.stringify(kept.map(({ body }) => body))).toContain('"personId":"klara"');
    expect(JSON.stringify(kept.map(({ body }) => body))).not.toContain(token);
  });
});

describe('a link that is mailed', () => {
  test('arrives, says for whom and how long, and makes an account of its address', async () => {
    const answer = await invite(await person('lene'), { email: 'Lene@mail.test' });
    expect(answer.body).toMatchObject({ mailed: true, email: 'Lene@mail.test' });
    // Sent before the answer, which says so.
    const [mail] = await mails.to('Lene@mail.test');
    const token = tokenIn(mail);
    // What the foreman is shown is the same link without the proof that it was read in the mail.
    expect(token).toMatch(/^[\w-]{43}\.[\w-]{43}$/);
    expect(token.split('.')[0]).toBe(linkToken(answer));
    expect(mail).toMatch(/Hello lene of the yard,/);
    expect(mail).toMatch(/Ines invites you into the yard Small yard\..*\(Europe\/London\)/);

    expect((await open('preview', { token })).body.needsEmail).toBe(false);
    const elsewhere = await open('accept', {
      token,
      email: 'not@mail.test',
      password: newPassword,
    });
    expect(faultsOf(elsewhere.body)).toEqual([['email', 'input.field']]);
    expect(JSON.stringify(elsewhere.body).toLowerCase()).not.toContain('lene@mail.test');
    expect((await open('accept', { token, password: newPassword })).status).toBe(200);
    const where = { email: 'lene@mail.test' };
    const made = await database.owner.account.findUniqueOrThrow({ where });
    expect(made.emailProvedAt).not.toBeNull();
  });

  test.each([
    ['as the foreman is shown it', (link: string) => link],
    ['with a proof made up', (link: string) => `${link}.${'A'.repeat(43)}`],
  ])('shows nothing of the address %s', async (_what, changed) => {
    const id = `nils-${String(changed('').length)}`;
    const email = `${id}@mail.test`;
    const token = changed(linkToken(await invite(await person(id), { email })));
    expect((await open('accept', { token, password: newPassword })).status).toBe(200);
    const made = await database.owner.account.findUniqueOrThrow({ where: { email } });
    expect(made.emailProvedAt).toBeNull();
  });

  test('is refused to what is no address, and to a yard that mails without end', async () => {
    await person('mats');
    expect(faultsOf((await invite('mats', { email: 'mats' })).body)).toEqual([
      ['email', 'input.field'],
    ]);
    const row = await database.owner.invitation.findFirstOrThrow({
      where: { memberId: 'lene' },
      omit: { id: true },
    });
    const many = Array.from({ length: 60 }, (_, n) => ({
      ...row,
      tokenHash: new Uint8Array(createHash('sha256').update(String(n)).digest()),
      acceptedAt: null,
      revokedAt: new Date(),
      createdAt: new Date(),
    }));
    await database.owner.invitation.createMany({ data: many });
    const answer = await invite('mats', { email: 'mats@mail.test' });
    expect([answer.status, answer.body.code]).toEqual([429, 'access.often']);
    expect(answer.headers.get('retry-after')).toBe('3600');
    // The link can still be handed over.
    expect((await invite('mats')).status).toBe(201);
    await database.owner.invitation.deleteMany({ where: { memberId: 'lene', acceptedAt: null } });

    // Nor is another yard of the same foreman a way around.
    await database.owner
      .$executeRaw`UPDATE rate_limit SET points = 120 WHERE key LIKE 'invitations:%'`;
    const mine = { ...smallYard('mine', 'Mine'), people: [], boats: [] };
    expect((await rest('POST', '/yards', mine)).status).toBe(201);
    const guest = { id: 'gast', name: 'Gast', roles: ['builder'] };
    expect((await rest('POST', '/yards/mine/people', guest)).status).toBe(201);
    const path = '/yards/mine/people/gast/invitations';
    const elsewhere = await rest('POST', path, { email: 'gast@mail.test' });
    expect([elsewhere.status, elsewhere.body.code]).toEqual([429, 'access.often']);
    expect((await rest('POST', path, {})).status).toBe(201);
    await database.owner.$executeRaw`DELETE FROM rate_limit WHERE key LIKE 'invitations:%'`;
  });
});

describe('over GraphQL', () => {
  const ask = async (query: string, variables: object, token?: string): Promise<unknown> => {
    const { body } = await api.graphql(query, variables, token === undefined ? {} : { token });
    expect(body.errors).toBeUndefined();
    const { data } = z.object({ data: z.record(z.string(), z.unknown()) }).parse(body);
    return Object.values(data)[0];
  };
  let token = '';
  beforeAll(async () => {
    await person('vito');
    const made = await ask(
      'mutation { invite(yardId: "small", personId: "vito", input: {}) { link state mailed } }',
      {},
      tokens.foreman,
    );
    const { link } = z.object({ link: z.string(), state: z.literal('OPEN') }).parse(made);
    token = new URL(link).hash.slice(1);
  });

  test('is invited, looked at, accepted, and ended', async () => {
    const preview =
      'query ($token: String!) { invitationPreview(input: { token: $token }) { person } }';
    expect(await ask(preview, { token })).toEqual({ person: 'vito of the yard' });
    const accept = `mutation ($input: InvitationAcceptanceInput!) {
      acceptInvitation(input: $input) { personId session { token } }
    }`;
    const input = { token, email: 'vito@somewhere.test', password: newPassword };
    const { session } = z
      .object({ session: z.object({ token: z.string() }) })
      .parse(await ask(accept, { input }));
    expect((await rest('GET', '/yards/small', undefined, session.token)).status).toBe(200);

    const list = 'query { invitations(yardId: "small", first: 1) { items { personId state } } }';
    expect(await ask(list, {}, tokens.foreman)).toEqual({
      items: [{ personId: 'vito', state: 'ACCEPTED' }],
    });
    const { revision } = (await personOf('vito')).body;
    const end =
      'mutation ($revision: Int!) { endAccess(yardId: "small", id: "vito", revision: $revision) }';
    expect(await ask(end, { revision }, tokens.foreman)).toBe(true);
    expect((await rest('GET', '/yards/small', undefined, session.token)).status).toBe(404);

    await invite('vito');
    const { body } = await rest('GET', '/yards/small/invitations?first=1');
    const [{ id }] = invitationsSchema.parse(body).items;
    const revoke = 'mutation ($id: ID!) { revokeInvitation(yardId: "small", id: $id) }';
    expect(await ask(revoke, { id }, tokens.foreman)).toBe(true);
    expect(await statesOf('vito')).toEqual(['revoked', 'accepted']);
  });
});
