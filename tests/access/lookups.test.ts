import { createHash, randomUUID } from 'node:crypto';
import { beforeAll, beforeEach, describe, expect, it } from 'vitest';
import * as look from '#persistence/access/lookups.ts';
import { asAccount, inYard, service } from '#persistence/client.ts';
import { saveYard } from '#persistence/yard/store.ts';
import { smallYard } from '#tests/integration/persistence/small-yard.ts';
import { testDatabase } from '#tests/support/database.ts';

const database = testDatabase();
const { owner, service: db } = database;

const hashOf = (secret: string): Uint8Array<ArrayBuffer> =>
  new Uint8Array(createHash('sha256').update(secret).digest());
const minutes = (count: number): Date => new Date(Date.now() + count * 60_000);

const ann = randomUUID();
const zoe = randomUUID();
const idle = 60;

beforeAll(async () => {
  await inYard(db, service('y'), (tx) => saveYard(tx, smallYard('y')));
  await owner.account.createMany({
    data: [
      { id: ann, email: 'ann@yard.test', name: 'Ann', passwordHash: 'hash' },
      { id: zoe, email: 'zoe@yard.test', name: 'Zoe' },
    ],
  });
  await owner.member.update({
    where: { yardId_id: { yardId: 'y', id: 'ann' } },
    data: { accountId: ann },
  });
});

describe('a session', () => {
  const tokenHash = hashOf('session');
  const session = { tokenHash, accountId: ann, createdAt: minutes(-100), expiresAt: minutes(100) };
  beforeEach(() => owner.session.deleteMany());

  it('says whose it is, and who that is in the yard that is named', async () => {
    const { id: sessionId } = await owner.session.create({ data: session });
    const account = { sessionId, accountId: ann, email: 'ann@yard.test', name: 'Ann' };
    const outside = { memberId: null, roles: null, secondFactorRequired: false };
    const plain = { ...account, secondFactorAt: null, expiresAt: session.expiresAt };
    const inY = { memberId: 'ann', roles: ['foreman', 'builder'], secondFactorRequired: false };
    expect(await look.callerOf(db, tokenHash, 'y', idle, true)).toEqual({ ...plain, ...inY });
    expect(await look.callerOf(db, tokenHash, 'z', idle, true)).toEqual({ ...plain, ...outside });
    expect(await look.callerOf(db, tokenHash, null, idle, true)).toEqual({ ...plain, ...outside });
    await owner.yard.update({ where: { id: 'y' }, data: { secondFactorRequired: true } });
    expect(await look.callerOf(db, tokenHash, 'y', idle, true)).toMatchObject({
      secondFactorRequired: true,
    });
    expect(await look.callerOf(db, hashOf('other'), 'y', idle, true)).toBeNull();
  });

  it('has been seen, to the minute, unless it was only looked after', async () => {
    const seenAt = async (): Promise<number> =>
      (await owner.session.findFirstOrThrow()).lastSeenAt.getTime();
    const before = minutes(-5);
    await owner.session.create({ data: { ...session, lastSeenAt: before } });
    expect(await look.callerOf(db, tokenHash, null, idle, false)).not.toBeNull();
    expect(await seenAt()).toBe(before.getTime());
    expect(await look.callerOf(db, tokenHash, null, idle, true)).not.toBeNull();
    const seen = await seenAt();
    expect(seen).toBeGreaterThan(minutes(-1).getTime());
    await look.callerOf(db, tokenHash, null, idle, true);
    expect(await seenAt()).toBe(seen);
  });

  it('is nobody’s once it is over, or was idle too long', async () => {
    await owner.session.create({ data: { ...session, lastSeenAt: minutes(-61) } });
    expect(await look.callerOf(db, tokenHash, null, idle, true)).toBeNull();
    expect(await look.callerOf(db, tokenHash, null, 62, false)).not.toBeNull();
    await owner.session.updateMany({ data: { lastSeenAt: minutes(0), expiresAt: minutes(-1) } });
    expect(await look.callerOf(db, tokenHash, null, idle, true)).toBeNull();
  });
});

describe('a program key', () => {
  const tokenHash = hashOf('key');
  const key = { yardId: 'y', memberId: 'ann', name: 'Clock', tokenHash, scopes: ['read', 'work'] };

  it('says which member it works for, until it is revoked or over', async () => {
    const { id: keyId } = await owner.programKey.create({
      data: { ...key, createdAt: minutes(-100), expiresAt: minutes(100) },
    });
    expect(await look.callerOfKey(db, tokenHash, true)).toMatchObject({
      keyId,
      yardId: 'y',
      memberId: 'ann',
      accountId: ann,
      email: 'ann@yard.test',
      roles: ['foreman', 'builder'],
      scopes: ['read', 'work'],
    });
    const { lastUsedAt } = await owner.programKey.findFirstOrThrow();
    expect(lastUsedAt?.getTime()).toBeGreaterThan(minutes(-1).getTime());
    expect(await look.callerOfKey(db, hashOf('other'), true)).toBeNull();
    await owner.programKey.updateMany({ data: { expiresAt: minutes(-1) } });
    expect(await look.callerOfKey(db, tokenHash, true)).toBeNull();
    await owner.programKey.updateMany({ data: { expiresAt: minutes(9), revokedAt: new Date() } });
    expect(await look.callerOfKey(db, tokenHash, true)).toBeNull();
  });

  it('is nobody’s where its member has no account any more', async () => {
    await owner.programKey.updateMany({ data: { revokedAt: null } });
    expect(await look.callerOfKey(db, tokenHash, true)).not.toBeNull();
    const where = { yardId_id: { yardId: 'y', id: 'ann' } };
    await owner.member.update({ where, data: { accountId: null } });
    expect(await look.callerOfKey(db, tokenHash, true)).toBeNull();
    await owner.member.update({ where, data: { accountId: ann } });
  });
});

describe('a sign-in', () => {
  it('finds the account by its e-mail in any case, and whether it has a second factor', async () => {
    const found = { accountId: ann, name: 'Ann', passwordHash: 'hash' };
    expect(await look.signInAccount(db, 'Ann@Yard.Test')).toEqual({ ...found, hasTotp: false });
    await owner.totp.create({ data: { accountId: ann, secret: hashOf('sealed') } });
    expect(await look.signInAccount(db, 'ann@yard.test')).toEqual({ ...found, hasTotp: false });
    await owner.totp.updateMany({ data: { confirmedAt: new Date() } });
    expect(await look.signInAccount(db, 'ann@yard.test')).toEqual({ ...found, hasTotp: true });
    expect(await look.signInAccount(db, 'nobody@yard.test')).toBeNull();
  });

  it('that waits for a code takes five, though ten come at once', async () => {
    const tokenHash = hashOf('pending');
    const data = { tokenHash, accountId: ann, agent: 'Browser', expiresAt: minutes(5) };
    await owner.pendingSignIn.create({ data });
    const ten = Array.from({ length: 10 }, () => look.pendingSignInOf(db, tokenHash));
    const taken = (await Promise.all(ten)).filter((one) => one !== null);
    expect(taken.map(({ attempts }) => attempts).sort()).toEqual([1, 2, 3, 4, 5]);
    expect(taken[0]).toMatchObject({ accountId: ann, agent: 'Browser' });
    const past = { createdAt: minutes(-9), expiresAt: minutes(-1), attempts: 0 };
    await owner.pendingSignIn.updateMany({ data: past });
    expect(await look.pendingSignInOf(db, tokenHash)).toBeNull();
  });

  it('by a passkey takes its challenge once, and none that is too old', async () => {
    const passkey = { accountId: ann, name: 'Telephone', counter: 7, transports: ['internal'] };
    await owner.passkey.create({ data: { ...passkey, id: 'credential', publicKey: hashOf('p') } });
    expect(await look.passkeyOf(db, 'credential')).toEqual({
      accountId: ann,
      publicKey: hashOf('p'),
      counter: 7n,
      transports: ['internal'],
    });
    expect(await look.passkeyOf(db, 'other')).toBeNull();
    const fresh = { challenge: 'c', expiresAt: minutes(5) };
    const { id } = await owner.passkeyChallenge.create({ data: fresh });
    const both = await Promise.all([look.takeChallenge(db, id), look.takeChallenge(db, id)]);
    expect(both).toContainEqual({ accountId: null, challenge: 'c' });
    expect(both).toContain(null);
    const old = { ...fresh, accountId: ann, createdAt: minutes(-9), expiresAt: minutes(-1) };
    const { id: late } = await owner.passkeyChallenge.create({ data: old });
    expect(await look.takeChallenge(db, late)).toBeNull();
    expect(await owner.passkeyChallenge.count()).toBe(0);
  });
});

describe('a link for a new password', () => {
  it('is known until it is used, which of two at once one does', async () => {
    const tokenHash = hashOf('reset');
    const data = { tokenHash, accountId: ann, expiresAt: minutes(5) };
    await owner.passwordReset.create({ data });
    expect(await look.passwordResetKnown(db, tokenHash)).toBe(ann);
    expect(await look.passwordResetKnown(db, hashOf('other'))).toBeNull();
    const undone = db.$transaction(async (tx) => {
      expect(await look.passwordResetOf(tx, tokenHash)).toBe(ann);
      throw new Error('the new password is too easy');
    });
    await expect(undone).rejects.toThrow('too easy');
    const both = [look.passwordResetOf(db, tokenHash), look.passwordResetOf(db, tokenHash)];
    expect((await Promise.all(both)).filter((one) => one !== null)).toEqual([ann]);
    expect(await look.passwordResetKnown(db, tokenHash)).toBeNull();
    await owner.passwordReset.updateMany({
      data: { usedAt: null, createdAt: minutes(-9), expiresAt: minutes(-1) },
    });
    expect(await look.passwordResetKnown(db, tokenHash)).toBeNull();
    expect(await look.passwordResetOf(db, tokenHash)).toBeNull();
  });
});

describe('an invitation', () => {
  const tokenHash = hashOf('invitation');
  const invitation = { yardId: 'y', memberId: 'ben', tokenHash, invitedById: 'ann' };
  const accept = (accountId: string): Promise<look.AcceptedInvitation | null> =>
    asAccount(db, accountId, (tx) => look.acceptInvitation(tx, tokenHash, accountId));

  it('leads to its yard and member, and lets one account in, once', async () => {
    const { id } = await owner.invitation.create({
      data: { ...invitation, email: 'ben@yard.test', expiresAt: minutes(60) },
    });
    expect(await look.invitationOf(db, tokenHash)).toMatchObject({
      yardId: 'y',
      yardName: 'Small yard',
      invitationId: id,
      memberId: 'ben',
      memberName: 'Ben',
      email: 'ben@yard.test',
    });
    expect(await look.invitationOf(db, hashOf('other'))).toBeNull();
    // Ann is in the yard already, as somebody else.
    expect(await accept(ann)).toBeNull();
    const both = await Promise.all([accept(zoe), accept(zoe)]);
    expect(both.filter((one) => one !== null)).toEqual([{ yardId: 'y', memberId: 'ben' }]);
    const { accountId } = await owner.member.findFirstOrThrow({
      where: { yardId: 'y', id: 'ben' },
    });
    expect(accountId).toBe(zoe);
    const events = await owner.event.findMany({ where: { kind: 'person-joined' } });
    expect(events).toMatchObject([{ subject: 'person', subjectId: 'ben', byMemberId: 'ben' }]);
    expect(await look.invitationOf(db, tokenHash)).toBeNull();
  });

  it.each([
    ['revoked', { acceptedAt: null, revokedAt: new Date() }],
    ['too old', { acceptedAt: null, createdAt: minutes(-9), expiresAt: minutes(-1) }],
  ])('that is %s lets nobody in', async (_, change) => {
    await owner.member.updateMany({ where: { accountId: zoe }, data: { accountId: null } });
    await owner.invitation.updateMany({ data: change });
    expect(await look.invitationOf(db, tokenHash)).toBeNull();
    expect(await accept(zoe)).toBeNull();
  });
});

describe('the service at its start', () => {
  it('learns whether there are yards, and demo accounts', async () => {
    expect(await look.hasYards(db)).toBe(true);
    expect(await look.demoAccount(db)).toBeNull();
    await owner.account.create({ data: { email: 'ann@demo.invalid', name: 'Ann' } });
    expect(await look.demoAccount(db)).toBe('ann@demo.invalid');
  });

  it('clears away what is over, and nothing else', async () => {
    await owner.session.deleteMany();
    await owner.pendingSignIn.deleteMany();
    await owner.passwordReset.deleteMany();
    const row = (secret: string) => ({ tokenHash: hashOf(secret), accountId: ann });
    const span = (from: number, to: number) => ({
      createdAt: minutes(from),
      expiresAt: minutes(to),
    });
    await owner.session.createMany({
      data: [
        { ...row('live'), ...span(-500, 500) },
        { ...row('over'), ...span(-500, -1) },
        { ...row('idle'), ...span(-500, 500), lastSeenAt: minutes(-61) },
      ],
    });
    await owner.pendingSignIn.createMany({
      data: [
        { ...row('live'), ...span(-1, 5) },
        { ...row('over'), ...span(-9, -1) },
      ],
    });
    await owner.passwordReset.createMany({
      data: [
        { ...row('over today'), ...span(-9, -1) },
        { ...row('over before'), ...span(-9000, -2000) },
      ],
    });
    expect(await look.purgeAccess(db, idle)).toBe(4);
    expect(await owner.session.findMany({ select: { tokenHash: true } })).toEqual([
      { tokenHash: hashOf('live') },
    ]);
    expect(await owner.passwordReset.count()).toBe(1);
  });
});
