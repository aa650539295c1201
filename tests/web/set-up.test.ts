import type { Locator, Page } from 'playwright-core';
import { describe, expect, test } from 'vitest';
import { testPassword } from '../support/api.ts';
import { axeFaults, shot, sidewaysScroll, testScreens } from '../support/browser.ts';
import { loseAnswer } from '../support/lost-answer.ts';
import { people, smallYardApi } from '../support/small-yard-api.ts';

/** What a foreman enters of the yard, and what the service has of it afterwards. */
const { api, tokens } = smallYardApi();
const screens = testScreens(api);
/** Nothing here is about being out of reach; Playwright says that it keeps the worker away. */
const noWorker = {
  allow: /registration blocked by Playwright/,
  more: { serviceWorkers: 'block' },
} as const;

const at = (room: string): string => `/yards/small/set-up/${room}`;
const open = async (room: string, width = 1440): Promise<Page> => {
  const page = await screens.signedIn(people.foreman, { width, ...noWorker });
  await page.goto(at(room));
  await page.getByRole('heading', { level: 1 }).waitFor();
  return page;
};
const press = (where: Page | Locator, name: string): Promise<void> =>
  where.getByRole('button', { name, exact: true }).click();
const field = (where: Page | Locator, name: string): Locator =>
  where.getByLabel(name, { exact: true });
const group = (where: Page | Locator, name: string): Locator =>
  where.getByRole('group', { name, exact: true });
const saved = (page: Page): Promise<void> => page.getByText('Saved.', { exact: true }).waitFor();
const has = async (path: string): Promise<unknown> =>
  (await api.rest('GET', `/yards/small${path && `/${path}`}`, { token: tokens.foreman })).body;
const change = async (path: string, body: unknown): Promise<void> => {
  const token = tokens.foreman;
  const now = await api.rest('GET', `/yards/small/${path}`, { token });
  const headers = { 'if-match': now.headers.get('etag') ?? '' };
  const answer = await api.rest('PATCH', `/yards/small/${path}`, { token, headers, body });
  expect(answer.status).toBe(200);
};

async function isFit(page: Page, name: string): Promise<void> {
  expect(await axeFaults(page)).toEqual([]);
  expect(await sidewaysScroll(page)).toBe(0);
  await shot(page, name);
}

describe('the rooms', () => {
  test('stand on one page, with what the first plan still needs', async () => {
    const page = await open('');
    const list = page.getByRole('region', { name: 'Before the first plan' });
    await list.waitFor();
    const open_ = list.locator('li', { hasText: 'still to do' });
    expect(await open_.count()).toBe(1);
    expect(await open_.innerText()).toContain('The first plan, made and published');
    const way = list.getByRole('link', { name: 'Make a plan' });
    expect(await way.getAttribute('href')).toBe('/yards/small/plans');
    await page.getByText(/The outdoor table ends on Monday,? 30 November 2026/).waitFor();
    await page.goto(at('no-such-room'));
    await page.getByRole('heading', { level: 1, name: 'There is no such page' }).waitFor();
  });
});

describe('people', () => {
  test('are entered with skills, hours of several days at once, days off and pay', async () => {
    const page = await open('people');
    await page.getByRole('link', { name: 'New person' }).click();
    await field(page, 'Name').fill('Tove Marsk');
    await press(page, 'Add a skill');
    await group(page, 'Skill 1').getByLabel('Skill', { exact: true }).selectOption('Fairing');
    await group(page, 'Skill 1').getByLabel('Level').selectOption('senior');
    const hours = page.getByRole('region', { name: 'Working hours', exact: true });
    await press(hours, 'Add hours');
    const first = group(hours, 'Hours 1');
    await field(first, 'Friday').uncheck();
    await first.getByLabel('From').first().fill('07:30');
    await hours.getByText('34 h a week').waitFor();
    const days = page.getByRole('region', { name: 'Days that are different' });
    await press(days, 'Add days');
    await field(days, 'First day').fill('2026-12-07');
    await days.getByLabel('Last day').fill('2026-12-09');
    await days.getByLabel('Reason').fill('course');
    await press(days, 'Take these days in');
    await days.getByText('Mon 7 Dec – Wed 9 Dec (3 days)').waitFor();
    await field(page, 'An hour costs').fill('31.50');
    await press(page, 'Save');
    await page.waitForURL(`**${at('people/tove-marsk')}`);
    await saved(page);
    await isFit(page, 'set-up-person');
    expect(await has('people/tove-marsk')).toMatchObject({
      name: 'Tove Marsk',
      roles: ['builder'],
      abilities: [{ skill: 'fairing', level: 3, speed: 100 }],
      shifts: [1, 2, 3, 4].map((weekday) => ({
        weekday,
        from: '07:30',
        to: '16:30',
        breaks: [{ from: '12:00', to: '12:30' }],
      })),
      exceptions: ['2026-12-07', '2026-12-08', '2026-12-09'].map((date) => ({
        date,
        shifts: [],
        reason: 'course',
      })),
      hourlyCost: 3150,
    });
  });

  test('nothing typed is lost where it is refused, and the field is named', async () => {
    const before = await has('people/bram');
    const page = await open('people/bram');
    const hours = page.getByRole('region', { name: 'Working hours', exact: true });
    await press(hours, 'Add hours');
    const second = group(hours, 'Hours 2');
    await field(second, 'Tuesday').check();
    await second.getByLabel('From').first().fill('15:00');
    await second.getByLabel('Until').first().fill('18:00');
    await press(page, 'Save');
    await page
      .getByRole('alert')
      .getByText(/overlap/)
      .first()
      .waitFor();
    expect(await second.getByLabel('From').first().inputValue()).toBe('15:00');
    expect(await has('people/bram')).toEqual(before);
    await isFit(page, 'set-up-person-refused');
    await second.getByLabel('From').first().fill('16:00');
    await press(page, 'Save');
    await saved(page);
    const { shifts } = (await has('people/bram')) as { readonly shifts: readonly unknown[] };
    expect(shifts).toHaveLength(6);
  });

  test('are invited by a link that is shown once, and the invitation is withdrawn', async () => {
    const page = await open('people/tove-marsk', 360);
    const panel = page.getByRole('region', { name: 'Signing in' });
    await press(panel, 'Invite');
    await panel.getByText('The link is shown only now:').waitFor();
    expect(await panel.innerText()).toMatch(/\/invitation#\S{20,}/);
    await panel.getByText(/Invited; the link is good until/).waitFor();
    await isFit(page, 'set-up-person-invited');
    await press(panel, 'Withdraw the invitation');
    await panel.getByText('Nobody signs in as Tove Marsk yet.').waitFor();
    expect(await has('invitations')).toMatchObject({ items: [{ state: 'revoked' }] });
  });

  test('lose their access when the foreman says so twice', async () => {
    const page = await open('people/odile');
    await press(page, 'End access');
    await press(page.getByRole('dialog', { name: 'End the access of Odile?' }), 'End access');
    await page.getByText('Nobody signs in as Odile yet.').waitFor();
    const status = await api.rest('GET', '/yards/small', { token: tokens.owner });
    expect(status.status).toBe(404);
  });
});

describe('two foremen at once', () => {
  test('what the other saved is taken over, what was typed here stays and is saved after it', async () => {
    const page = await open('tools/sander');
    await field(page, 'How many there are').fill('3');
    await change('tools/sander', { name: 'Orbital sander' });
    await press(page, 'Save');
    await page.getByText('Somebody else has saved this meanwhile').waitFor();
    expect(await field(page, 'Name').inputValue()).toBe('Orbital sander');
    expect(await field(page, 'How many there are').inputValue()).toBe('3');
    expect(await has('tools/sander')).toMatchObject({ name: 'Orbital sander', count: 2 });
    await press(page, 'Save');
    await saved(page);
    expect(await has('tools/sander')).toMatchObject({ name: 'Orbital sander', count: 3 });
  });

  test('what the other saves is seen at once where nothing is typed', async () => {
    const page = await open('tools/sander');
    await expect.poll(() => field(page, 'Name').inputValue()).toBe('Orbital sander');
    await change('tools/sander', { name: 'Sander' });
    await expect.poll(() => field(page, 'Name').inputValue()).toBe('Sander');
  });
});

describe('what is typed and not saved', () => {
  test('is there again after a look at another room, and overwrites unsaid nothing of another', async () => {
    const page = await open('tools/sander');
    await field(page, 'How many there are').fill('7');
    await page.getByRole('navigation', { name: 'Where you are' }).getByText('Tools').click();
    await page.getByRole('link', { name: 'New tool' }).waitFor();
    await change('tools/sander', { count: 4 });
    await page.getByRole('link', { name: 'Sander' }).click();
    await page.getByText(/What you typed here before is still here/).waitFor();
    expect(await field(page, 'How many there are').inputValue()).toBe('7');
    await press(page, 'Save');
    await page.getByText('Somebody else has saved this meanwhile').waitFor();
    await page.getByText(/Somebody else has just changed this too/).waitFor();
    expect(await field(page, 'How many there are').inputValue()).toBe('7');
    expect(await has('tools/sander')).toMatchObject({ count: 4 });
    await isFit(page, 'set-up-clash');
    await press(page, 'Drop my changes');
    expect(await field(page, 'How many there are').inputValue()).toBe('4');
    await page.getByText(/Somebody else has just changed this too/).waitFor({ state: 'detached' });
  });

  test('is made once, whatever becomes of the answers, and as it was typed last', async () => {
    const page = await open('tools/+');
    await field(page, 'Name').fill('Heat gun');
    await loseAnswer(page, '/tools');
    await press(page, 'Save');
    await page.getByText('The yard cannot be reached').waitFor();
    // A look elsewhere forgets neither what was typed nor that it may be there.
    await page.getByRole('navigation', { name: 'Where you are' }).getByText('Tools').click();
    await page.getByRole('link', { name: 'Heat gun' }).waitFor();
    await page.getByRole('link', { name: 'New tool' }).click();
    await press(page, 'Save');
    await page.waitForURL(`**${at('tools/heat-gun')}`);

    await page.goto(at('tools/+'));
    await field(page, 'Name').fill('Vacum');
    await loseAnswer(page, '/tools');
    await press(page, 'Save');
    await page.getByText('The yard cannot be reached').waitFor();
    await field(page, 'Name').fill('Vacuum pump');
    await press(page, 'Save');
    await page.waitForURL(`**${at('tools/vacum')}`);
    const { items } = (await has('tools')) as { readonly items: readonly { name: string }[] };
    expect(items.map(({ name }) => name).filter((name) => /Heat|Vac/.test(name))).toEqual([
      'Heat gun',
      'Vacuum pump',
    ]);
  });
});

describe('spaces', () => {
  test('show how warm they will be, in the units of whoever looks', async () => {
    const me = await api.rest('GET', '/me', { token: tokens.foreman });
    const headers = { 'if-match': me.headers.get('etag') ?? '' };
    const warm = { temperature: 'fahrenheit' };
    await api.rest('PATCH', '/me', { token: tokens.foreman, headers, body: warm });
    const page = await open('spaces/bay');
    expect(await field(page, 'Held at').inputValue()).toBe('68');
    await page.getByText('Coldest: 68 °F').waitFor();
    await page.getByRole('img', { name: 'Temperature of the air in Bench bay' }).waitFor();
    await page.getByLabel('May this be applied?').selectOption('Slow epoxy');
    await page.getByRole('table', { name: 'When it may be applied' }).waitFor();
    await isFit(page, 'set-up-space');
    await field(page, 'Held at').fill('66');
    await press(page, 'Save');
    await saved(page);
    await page.getByText('Coldest: 66 °F').waitFor();
    const bay = (await has('spaces/bay')) as { climate: { setPoints: { celsius: number }[] } };
    expect(bay.climate.setPoints[0]?.celsius).toBeCloseTo((66 - 32) / 1.8, 5);
  });

  test('dust reaches the new space itself, a heater without a flue is warned of', async () => {
    const page = await open('spaces/+', 360);
    await field(page, 'Name').fill('Paint tent');
    await field(page, 'Bench bay').check();
    await press(page, 'Add a heater, tent or dehumidifier');
    const device = group(page, 'Device 1');
    await field(device, 'Name').fill('Gas blower');
    await field(device, 'Burns in the room without a flue').check();
    await device.getByText(/can leave carbon monoxide/).waitFor();
    await press(page, 'Save');
    await page.waitForURL(`**${at('spaces/paint-tent')}`);
    await isFit(page, 'set-up-space-new');
    expect(await has('spaces/paint-tent')).toMatchObject({
      dustReaches: ['paint-tent', 'bay'],
      changes: [{ name: 'Gas blower', kind: 'heater', unvented: true }],
    });
  });

  test('that are needed cannot be removed, and the page says by what', async () => {
    const page = await open('spaces/bay');
    await press(page, 'Remove Bench bay');
    const asking = page.getByRole('dialog', { name: 'Remove Bench bay?' });
    await press(asking, 'Remove');
    await asking.getByRole('alert').waitFor();
    expect(await has('spaces/bay')).toMatchObject({ id: 'bay' });
  });
});

describe('air', () => {
  test('an hourly table with a gap is not taken, one without is, and is drawn', async () => {
    const page = await open('outdoor');
    const hours = (from: number, to: number): string =>
      Array.from({ length: to - from }, (_, k) => {
        const hour = String((from + k) % 24).padStart(2, '0');
        return `2026-12-0${String(1 + Math.floor((from + k) / 24))} ${hour}:00;${String(4 + (k % 5))},5;80`;
      }).join('\n');
    const paste = page.getByLabel('Or paste it');
    await page.getByLabel('Temperatures are in').selectOption('°C');
    await page.getByLabel('Where it is from').fill('Our own logger');
    await paste.fill(`when;temp;hum\n${hours(0, 6)}\n${hours(12, 30)}\nnonsense;4`);
    await page
      .getByText(/Nothing is said from Tue,? 1 Dec, 06:00 until Tue,? 1 Dec, 12:00/)
      .waitFor();
    await page.getByText('One line cannot be read').waitFor();
    expect(await page.getByRole('button', { name: 'Replace the table' }).isDisabled()).toBe(true);
    await paste.fill(`when;temp;hum\n${hours(0, 48)}`);
    await page.getByText(/48 hours, from Tue,? 1 Dec, 00:00/).waitFor();
    await press(page, 'Replace the table');
    await saved(page);
    await page.getByRole('img', { name: 'Temperature outdoors' }).waitFor();
    expect(await has('outdoor')).toMatchObject({ source: 'Our own logger' });
    await isFit(page, 'set-up-outdoor');
  });

  test('a reading is taken in, one of the future is refused, and one can be removed', async () => {
    const page = await open('readings');
    const adding = page.getByRole('region', { name: 'Add a reading' });
    await field(adding, 'Temperature').fill('50');
    await press(adding, 'Add a reading');
    await adding.getByText('1 reading was taken in.').waitFor();
    const list = page.getByRole('table', { name: 'Readings' });
    await list.getByText('50 °F').waitFor();
    await field(adding, 'Temperature').fill('51');
    await field(adding, 'When').fill('2099-01-01T10:00');
    await press(adding, 'Add a reading');
    await adding.getByRole('alert').waitFor();
    expect(await field(adding, 'Temperature').inputValue()).toBe('51');
    await list.getByRole('button', { name: /^Remove the reading of/ }).click();
    await press(page.getByRole('dialog'), 'Remove');
    await page.getByText('No readings in this time.').waitFor();
    expect(await has('readings')).toMatchObject({ items: [] });
  });
});

describe('how the yard is run', () => {
  test('zone, money, live work and access are changed and saved', async () => {
    const page = await open('yard');
    await page.getByLabel('A calmer plan may cost up to').fill('12.5');
    await press(page, 'Save');
    await saved(page);
    expect(await has('')).toMatchObject({ moneyTolerance: 1250 });
    await field(page, 'Currency').fill('euro');
    await field(page, 'Currency').fill('E1');
    await press(page, 'Save');
    await page
      .getByText(/use three capital letters/)
      .first()
      .waitFor();
    await page.goto(at('live'));
    await page.getByLabel('Work may be taken back for').fill('15');
    await page.getByLabel('Publishing them').selectOption('Publish by itself what moves few tasks');
    await press(page, 'Save');
    await saved(page);
    expect(await has('live-settings')).toMatchObject({ undoMinutes: 15, publishMovesUpTo: 3 });
    await page.goto(at('access'));
    await page.getByLabel('Owners see who works on their boat').check();
    await page.getByLabel('Everybody has to show a second factor').check();
    await page.getByText(/you lock yourself out/).waitFor();
    await page.getByLabel('Everybody has to show a second factor').uncheck();
    await press(page, 'Save');
    await saved(page);
    expect(await has('access-settings')).toMatchObject({
      ownersSeeCrew: true,
      secondFactorRequired: false,
    });
  });

  test('calendars and program keys are given out once, and revoked', async () => {
    const page = await open('calendars');
    await page.getByLabel('For whom').selectOption('Bram');
    await press(page, 'Make an address');
    await page.getByText('The address is shown only now:').waitFor();
    const url = /https?:\S+\.ics/.exec(await page.locator('main').innerText())?.[0] ?? '';
    expect((await fetch(url)).status).toBe(200);
    await page.getByRole('button', { name: /^Revoke / }).click();
    await press(page.getByRole('dialog'), 'Revoke');
    await page.getByText(/revoked/).waitFor();
    expect((await fetch(url)).status).toBe(404);

    await page.goto(at('program-keys'));
    await page.getByLabel('What it is for').fill('Wall screen');
    await page.getByLabel('Your password, again').fill('wrong password here');
    await press(page, 'Make a key');
    await page.getByRole('alert').waitFor();
    expect(await page.getByLabel('What it is for').inputValue()).toBe('Wall screen');
    await page.getByLabel('Your password, again').fill(testPassword);
    await press(page, 'Make a key');
    await page.getByText('The key is shown only now:').waitFor();
    await isFit(page, 'set-up-key');
    await press(page, 'Revoke Wall screen');
    await press(page.getByRole('dialog'), 'Revoke');
    await page.getByText(/revoked/).waitFor();
  });
});

describe('by keyboard', () => {
  test('a skill is named, saved, and another one after it', async () => {
    const page = await open('skills/+');
    await field(page, 'Name').focus();
    await page.keyboard.type('Joinery');
    const tabTo = async (name: string): Promise<void> => {
      for (let k = 0; k < 5; k += 1) {
        await page.keyboard.press('Tab');
        const text = await page.evaluate<string>('document.activeElement?.textContent ?? ""');
        if (text === name) return;
      }
      throw new Error(`the keyboard does not reach ${name}`);
    };
    await tabTo('Save and add another');
    await page.keyboard.press('Enter');
    await saved(page);
    await expect
      .poll(() => page.evaluate<string>('document.activeElement?.tagName ?? ""'))
      .toBe('INPUT');
    await page.keyboard.type('Joinery');
    await page.keyboard.press('Enter');
    await page.waitForURL(`**${at('skills/joinery-2')}`);
    expect(await has('skills/joinery')).toMatchObject({ name: 'Joinery' });
  });
});

test('each kind of thing can be entered, on a phone', async () => {
  const page = await screens.signedIn(people.foreman, {
    width: 360,
    theme: 'dark',
    ...noWorker,
  });
  const enter = async (room: string, name: string): Promise<void> => {
    await page.goto(at(`${room}/+`));
    await field(page, 'Name').fill(name);
  };
  await enter('stocks', 'Gel coat');
  await page.getByLabel('How much there is').fill('9.5');
  await press(page, 'Save');
  await page.waitForURL(`**${at('stocks/gel-coat')}`);
  await enter('deliveries', 'Foam core');
  await page.getByLabel('Expected').fill('2026-12-04T09:30');
  await press(page, 'Save');
  await page.waitForURL(`**${at('deliveries/foam-core')}`);
  expect(await has('deliveries/foam-core')).toMatchObject({ expected: '2026-12-04T09:30:00Z' });
  await enter('slot-lists', 'Mobile crane');
  await press(page, 'Add a slot');
  await page.getByLabel('Price, once').fill('480');
  await press(page, 'Save');
  await page.waitForURL(`**${at('slot-lists/mobile-crane')}`);
  await isFit(page, 'set-up-slots');
  expect(await has('slot-lists/mobile-crane')).toMatchObject({
    kind: 'crane',
    slots: [{ price: 48_000, noticeHours: 24, booked: false }],
  });
  await enter('barriers', 'Sheet');
  await press(page, 'Add a way');
  await press(page, 'Save');
  await page.waitForURL(`**${at('barriers/sheet')}`);
  expect(await has('barriers/sheet')).toMatchObject({
    blocks: [{ from: 'paint-tent', to: 'bay' }],
  });
});
