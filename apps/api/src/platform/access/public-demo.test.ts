import { expect, it } from 'vitest';
import { assertNoDemoAddress } from './public-demo.ts';

const open = {
  host: '0.0.0.0',
  publicUrl: new URL('https://yard.test'),
  allowPublicDemo: false,
};
const local = { ...open, host: '127.0.0.1', publicUrl: new URL('http://localhost:3000') };
const trying = (email: string, config: typeof open) => () => assertNoDemoAddress(email, config);

it('is no place for accounts under domains that nobody can have', () => {
  for (const email of ['kaja@demo.invalid', 'kaja@yard.example']) {
    expect(trying(email, open)).toThrow('email: nobody can have an address there');
    expect(trying(email, { ...open, allowPublicDemo: true })).not.toThrow();
    expect(trying(email, local)).not.toThrow();
  }
  expect(trying('kaja@invalid.yard.test', open)).not.toThrow();
});
