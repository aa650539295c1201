import { dictionary } from '@zxcvbn-ts/language-common';
import { describe, expect, test } from 'vitest';
import { passwordFault } from './password-policy.ts';

const words = ['maelle@demo.invalid', 'Maëlle Kerbrat', 'Chantier du Ponant'];
const told = (password: string): string | undefined => passwordFault(password, words)?.message;

describe('taken', () => {
  test.each([
    ['lantern gravel ochre tuesday'],
    ['Zähes Harz klebt am Dienstag'],
    ['冷たい船体に春の潮が満ちる夜明け前'],
    ['xK4#vQ9-tPz7!mWs2'],
    [`${'long '.repeat(5)}and winding ${'mast '.repeat(17)}`.slice(0, 128)],
  ])('%s', (password) => {
    expect(passwordFault(password, words)).toBeNull();
  });
});

describe('refused, with what to do', () => {
  test.each([
    ['too short', 'xK4#vQ9-tPz7!m', /^14 characters are too few$/],
    ['short in code points, not in units', '🛶🪢⚓🧵🪚🔧', /^6 characters are too few$/],
    ['too long', 'lantern gravel ochre '.repeat(7), /^147 characters are too many$/],
    ['on the list', 'polniypizdec0211', /list of passwords that are tried first/],
    ['on the list, in capitals', 'PolniyPizdec0211', /list of passwords/],
    ['on the list, with something hung on', 'momsanaladventure2026!', /list of passwords/],
    ['on the list, written in full width', 'ｐａｓｓｗｏｒｄｐａｓｓｗｏｒｄ', /list of passwords/],
    ['the e-mail', 'maelle@demo.invalid', /hardly more than your e-mail/],
    ['the name, and a year', 'Maelle.Kerbrat.2026', /hardly more than your e-mail/],
    ['the yard', 'chantier-du-ponant-1', /hardly more than your e-mail/],
    ['the service', 'CurewrightCurewright!', /hardly more than your e-mail/],
    ['one character', 'aaaaaaaaaaaaaaaaaaaa', /repeats itself/],
    ['an alphabet', 'abcdefghijklmnopqrst', /goes through an alphabet/],
    ['a keyboard', 'zxcvbnm,./;lkjhgf', /keys of a keyboard/],
    ['three first words', 'monkeydragonmaster', /words that are tried first/],
  ])('%s', (_what, password, message) => {
    const fault = passwordFault(password, words);
    expect(fault).toMatchObject({ code: 'access.password', path: 'password' });
    expect(fault?.message).toMatch(message);
    expect(fault?.cure).toMatch(/^Take /);
    // The answer may end up in a log.
    expect(JSON.stringify(fault)).not.toContain(password);
  });

  test('every entry of the list that is long enough', () => {
    const long = dictionary['passwords-common'].filter((entry) => entry.length >= 15);
    expect(long.length).toBeGreaterThan(30);
    for (const entry of long) expect(told(entry)).toMatch(/list of passwords/);
  });
});

test('the same text in another normal form is the same password', () => {
  expect(told('é'.normalize('NFD').repeat(8))).toBe('8 characters are too few');
});
