import type { Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { testApi, testPassword } from '../support/api.ts';
import { inviting, linkToken, newPassword } from '../support/inviting.ts';
import { mailbox } from '../support/mails.ts';
import { codeAt } from '../support/one-time-code.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';
import { smallYard } from '../support/small-yard.ts';

const mails = mailbox();
const yard = smallYardApi({ mail: { folder: mails.folder } });
const { api, database } = yard;
const strict = testApi(database, { signInAttempts: 2 });
const screens = testScreens(api);
const { invite, person } = inviting(yard);

const heading = (page: Page, name: string) => page.getByRole('heading', { level: 1, name });
const press = (page: Page, name: string) => page.getByRole('button', { name, exact: true }).click();
const panel = (page: Page, name: string) => page.getByRole('region', { name, exact: true });

async function typeSignIn(page: Page, email: string, password = testPassword): Promise<void> {
  await page.getByLabel('E-mail', { exact: true }).fill(email);
  // A panel may be called so too.
  const field = page.getByLabel('Password', { exact: true }).and(page.locator('input'));
  await field.fill(password);
  await press(page, 'Sign in');
}

/** What can be seen, not what is there. */
const seen = (page: Page): Promise<string> => page.evaluate<string>('document.body.innerText');
const readingsOf = (page: Page): Promise<number> =>
  page.evaluate<number>(`new Promise((resolve, reject) => {
    const asking = indexedDB.open('curewright');
    asking.onerror = () => reject(asking.error);
    asking.onsuccess = () => {
      const count = asking.result.transaction('readings').objectStore('readings').count();
      count.onsuccess = () => { asking.result.close(); resolve(count.result); };
    };
  })`);

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

describe('signing in', () => {
  test('by password leads back to the address that was wanted; a wrong one costs nothing typed', async () => {
    const page = await screens.page({ width: 360 });
    await page.goto('/yards/small/now');
    await heading(page, 'Sign in').waitFor();
    await isFit(page, 'sign-in');
    await typeSignIn(page, people.builder, 'not the password at all');
    await page.getByRole('alert').getByText('The e-mail or the password is wrong').waitFor();
    expect(await page.getByLabel('E-mail', { exact: true }).inputValue()).toBe(people.builder);
    await typeSignIn(page, people.builder);
    await page.getByRole('link', { name: 'bram' }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/yards/small/now');
    await expect.poll(() => heading(page, 'Sign in').count()).toBe(0);
  });

  test('says how long to wait after too many attempts', async () => {
    const page = await screens.page({
      more: { baseURL: strict.url.replace('127.0.0.1', 'localhost') },
    });
    await page.goto('/sign-in');
    for (let k = 0; k < 3; k += 1) {
      await typeSignIn(page, people.owner, `guess number ${String(k)} of many`);
      await page.getByRole('alert').waitFor();
    }
    await page.getByText(/There were too many attempts/).waitFor();
    expect(await page.getByRole('alert').innerText()).toMatch(/Wait \d+ (second|minute)s?/);
  });

  test('leads each to the page that answers their question, and who has several yards to a choice', async () => {
    for (const [email, path] of [
      [people.foreman, '/yards/small/set-up'],
      [people.builder, '/yards/small/now'],
      [people.owner, '/yards/small/my-boat'],
    ] as const) {
      const page = await screens.page();
      await page.goto('/sign-in');
      await typeSignIn(page, email);
      await page.waitForURL(`**${path}`);
    }
    const none = await screens.signedIn(people.stranger);
    await none.goto('/');
    await heading(none, 'You are in no yard yet').waitFor();
    await isFit(none, 'home-none');

    const email = 'several@yard.test';
    await api.addAccount(email);
    const token = await api.signIn(email);
    for (const id of ['first', 'second']) {
      const body = smallYard(id, `The ${id} yard`);
      expect((await api.rest('POST', '/yards', { token, body })).status).toBe(201);
    }
    const several = await screens.signedIn(email);
    await several.goto('/');
    await heading(several, 'Your yards').waitFor();
    await several.getByRole('link', { name: /The second yard/ }).waitFor();
    await isFit(several, 'home-several');
    await several.getByRole('link', { name: /The second yard/ }).click();
    await several.waitForURL('**/yards/second/set-up');
  });

  test('a builder cannot reach what is the foreman’s, by its address or past the page', async () => {
    const page = await screens.signedIn(people.builder);
    for (const path of ['week', 'plans', 'desk', 'set-up', 'set-up/people']) {
      await page.goto(`/yards/small/${path}`);
      await heading(page, 'This page is not for you').waitFor();
    }
    await isFit(page, 'not-yours');
    await page.goto('/yards/of-others/now');
    await heading(page, 'There is no such page').waitFor();
    const csrf = await page.evaluate<string>(
      `fetch('/api/v1/me').then((a) => a.json()).then((me) => me.csrf)`,
    );
    const status = await page.evaluate<number>(
      `fetch('/api/v1/yards/small/plan-runs', { method: 'POST', body: '{}', headers: {
        'content-type': 'application/json', 'x-csrf-token': ${JSON.stringify(csrf)} } })
        .then((answer) => answer.status)`,
    );
    expect(status).toBe(403);
  });
});

describe('a second factor', () => {
  test('is set up by picture and code, asked for at the next sign-in, and a recovery code stands in', async () => {
    const email = 'careful@yard.test';
    await api.addAccount(email);
    const page = await screens.signedIn(email, { width: 360 });
    await page.goto('/account');
    await press(page, 'Set up codes');
    const factor = panel(page, 'Second factor');
    await factor.getByLabel('Your password').fill(testPassword);
    await press(page, 'Go on');
    await page.getByRole('img', { name: /Picture of the secret/ }).waitFor();
    await isFit(page, 'account-codes');
    const secret = /Secret: ([A-Z2-7]+)/.exec(await factor.innerText())?.[1] ?? '';
    await factor.getByLabel('First code').fill('000000');
    await press(page, 'Switch codes on');
    await factor.getByRole('alert').waitFor();
    await factor.getByLabel('First code').fill(codeAt(secret));
    await press(page, 'Switch codes on');
    const codes = panel(page, 'Your recovery codes').getByRole('listitem');
    await codes.first().waitFor();
    expect(await codes.count()).toBe(10);
    const [recovery] = await codes.allInnerTexts();
    await isFit(page, 'account-recovery');
    await press(page, 'I have kept them');
    await factor.getByText('10 recovery codes are left').waitFor();

    await press(page, 'Sign out');
    await heading(page, 'Sign in').waitFor();
    await typeSignIn(page, email);
    await page.getByRole('heading', { name: 'Second factor' }).waitFor();
    expect(await page.evaluate<string>('document.activeElement?.tagName')).toBe('INPUT');
    await isFit(page, 'sign-in-code');
    await page.getByLabel('Code').fill('123456');
    await press(page, 'Sign in with this code');
    await page.getByRole('alert').getByText('The code is wrong or used up').waitFor();
    await page.getByLabel('Code').fill(recovery);
    await press(page, 'Sign in with this code');
    await page.getByText('9 recovery codes are left').waitFor();
  });

  test('is a passkey too: made in the account, and then all that is needed', async () => {
    const email = 'keyed@yard.test';
    await api.addAccount(email);
    const page = await screens.signedIn(email);
    const cdp = await page.context().newCDPSession(page);
    await cdp.send('WebAuthn.enable');
    await cdp.send('WebAuthn.addVirtualAuthenticator', {
      options: {
        protocol: 'ctap2',
        transport: 'internal',
        hasResidentKey: true,
        hasUserVerification: true,
        isUserVerified: true,
        automaticPresenceSimulation: true,
      },
    });
    await page.goto('/account');
    const keys = panel(page, 'Passkeys');
    await press(page, 'Add a passkey');
    await keys.getByLabel('Name for your own list').fill('Shed tablet');
    await keys.getByLabel('Your password').fill('not the password at all');
    await press(page, 'Make the passkey');
    await keys.getByText('it is not your password').first().waitFor();
    await keys.getByLabel('Your password').fill(testPassword);
    await press(page, 'Make the passkey');
    await keys.getByText('Shed tablet').waitFor();
    await press(page, 'Sign out');
    await heading(page, 'Sign in').waitFor();
    await press(page, 'Sign in with a passkey');
    await keys.getByText(/last used/).waitFor();
    await press(page, 'Remove the passkey Shed tablet');
    await keys.getByText('You have none yet.').waitFor();
  });
});

describe('an invitation', () => {
  test('makes an account that comes in at once; its secret leaves the address', async () => {
    const token = linkToken(await invite(await person('loeiza')));
    const page = await screens.page({ width: 360 });
    await page.goto(`/invitation#${token}`);
    await page.getByText('You are invited into Small yard, as loeiza of the yard.').waitFor();
    expect(page.url()).toBe(`${screens.url}/invitation`);
    await isFit(page, 'invitation');
    const fresh = panel(page, 'I am new here');
    await fresh.getByLabel('Your e-mail').fill('loeiza@yard.test');
    await fresh.getByLabel('A password').fill('password');
    await press(page, 'Make an account and come in');
    await fresh.getByRole('alert').waitFor();
    expect(await fresh.getByLabel('Your e-mail').inputValue()).toBe('loeiza@yard.test');
    await fresh.getByLabel('A password').fill(newPassword);
    await press(page, 'Make an account and come in');
    await page.getByText('loeiza of the yard of Small yard. The link is used up.').waitFor();
    await page.getByRole('link', { name: 'Go to your page' }).click();
    await page.waitForURL('**/yards/small/now');
  });

  test('joins an account that signs in for it, and says when a link is worth nothing', async () => {
    const email = 'joiner@yard.test';
    await api.addAccount(email);
    const token = linkToken(await invite(await person('joiner')));
    const page = await screens.page();
    await page.goto(`/invitation#${token}`);
    const known = panel(page, 'I have an account');
    await known.getByLabel('E-mail', { exact: true }).fill(email);
    await known.getByLabel('Password', { exact: true }).fill(testPassword);
    await known.getByRole('button', { name: 'Sign in', exact: true }).click();
    await page.getByText(`You are signed in as ${email}.`).waitFor();
    await isFit(page, 'invitation-join');
    await press(page, 'Come in with this account');
    await page.getByText('joiner of the yard of Small yard. The link is used up.').waitFor();

    const late = await screens.page();
    await late.goto(`/invitation#${token}`);
    await late.getByRole('alert').getByText('The link is used, too old or unknown').waitFor();
    await late.goto('/invitation');
    await late.getByText('The link is not whole').waitFor();
  });
});

describe('a password', () => {
  test('is set by a link that is mailed, once, and ends every session', async () => {
    const email = 'forgetful@yard.test';
    await api.addAccount(email);
    const elsewhere = await screens.signedIn(email);
    await elsewhere.goto('/account');
    await panel(elsewhere, 'You').getByText(email).waitFor();

    const page = await screens.page({ width: 360 });
    await page.goto('/sign-in');
    await page.getByRole('link', { name: /Forgotten/ }).click();
    await heading(page, 'Your password').waitFor();
    await isFit(page, 'password-ask');
    await page.getByLabel('E-mail').fill(email);
    await press(page, 'Send me a link');
    await page.getByText('Look into your mail').waitFor();
    const link = /http:\/\/\S+\/password#\S+/.exec(await mails.wait(email))?.[0] ?? '';
    await page.goto(link);
    await page.getByLabel('New password').waitFor();
    expect(new URL(page.url()).hash).toBe('');
    await isFit(page, 'password-choose');
    await page.getByLabel('New password').fill('short');
    await press(page, 'Set the password');
    await page.getByRole('alert').waitFor();
    await page.getByLabel('New password').fill(newPassword);
    await press(page, 'Set the password');
    await page.getByText('The password is set').waitFor();
    await page.getByRole('link', { name: 'Sign in' }).click();
    await typeSignIn(page, email, newPassword);
    await heading(page, 'You are in no yard yet').waitFor();

    await press(elsewhere, 'Sign out everywhere else');
    await heading(elsewhere, 'Sign in again').waitFor();
  });
});

describe('a session that ends while somebody works', () => {
  const typed = 'Careful words that took a while';

  async function ended(email: string): Promise<Page> {
    await api.addAccount(email);
    const page = await screens.signedIn(email);
    await page.goto('/account');
    const you = panel(page, 'You');
    await you.getByLabel('Name', { exact: true }).fill(typed);
    const token = await api.signIn(email);
    await api.rest('DELETE', '/sessions', { token });
    await you.getByRole('button', { name: 'Save' }).click();
    await heading(page, 'Sign in again').waitFor();
    return page;
  }

  test('covers the page and forgets what was read; the same person finds what they typed', async () => {
    const email = 'worker@yard.test';
    const page = await ended(email);
    expect(await seen(page)).not.toContain(email);
    expect(await seen(page)).not.toContain('worker');
    expect(await readingsOf(page)).toBe(0);
    await isFit(page, 'sign-in-again');
    await typeSignIn(page, email);
    const name = panel(page, 'You').getByLabel('Name', { exact: true });
    await name.waitFor();
    expect(await name.inputValue()).toBe(typed);
    await panel(page, 'You').getByRole('button', { name: 'Save' }).click();
    await page.getByRole('link', { name: typed }).waitFor();
  });

  test('leaves nothing of them to the next person', async () => {
    const page = await ended('before@yard.test');
    await typeSignIn(page, people.stranger);
    const name = panel(page, 'You').getByLabel('Name', { exact: true });
    await name.waitFor();
    expect(await name.inputValue()).toBe('stranger');
    expect(await page.content()).not.toContain('before@yard.test');
  });
});

describe('the account', () => {
  test('keeps units and name, changes the password, and ends sessions one by one or all', async () => {
    const email = 'tidy@yard.test';
    await api.addAccount(email);
    const page = await screens.signedIn(email, { theme: 'dark' });
    await page.goto('/account');
    const you = panel(page, 'You');
    await you.getByLabel('Lengths, areas and weights').selectOption('imperial');
    await you.getByLabel('Temperatures').selectOption('fahrenheit');
    await press(page, 'Save');
    await you.getByText('Saved.').waitFor();
    const { body } = await api.rest('GET', '/me', { token: await api.signIn(email) });
    expect(body).toMatchObject({ units: 'imperial', temperature: 'fahrenheit' });
    await isFit(page, 'account');

    const secret = panel(page, 'Password');
    await secret.getByLabel('The password you have').fill(testPassword);
    await secret.getByLabel('New password').fill(newPassword);
    await press(page, 'Change the password');
    await secret.getByText('all your other sessions are closed').waitFor();
    const other = await api.signIn(email, newPassword);
    await page.reload();
    const sessions = panel(page, 'Where you are signed in');
    await sessions.getByText('this one').waitFor();
    await sessions.getByRole('button', { name: /^Sign out there, on / }).click();
    await expect.poll(() => sessions.getByRole('listitem').count()).toBe(1);
    expect((await api.rest('GET', '/me', { token: other })).status).toBe(401);
    await press(page, 'Sign out everywhere');
    await heading(page, 'Sign in').waitFor();
    expect(await readingsOf(page)).toBe(0);
  });
});
