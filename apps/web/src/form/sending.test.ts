import { describe, expect, it } from 'vitest';
import { Problem } from '../api/problem.ts';
import { Sending, type Sent } from './sending.ts';

interface Values {
  readonly name: string;
}

/** A service that does what it is sent once a key; what it says may be lost. */
function service() {
  const done = new Map<string, Sent<Values>>();
  return {
    done,
    hear: async (sent: Sent<Values>): Promise<string> => {
      done.set(sent.key, sent);
      return Promise.resolve(sent.id);
    },
    hearOnly: async (sent: Sent<Values>): Promise<string> => {
      done.set(sent.key, sent);
      return Promise.reject(new TypeError('Failed to fetch'));
    },
    refuse: (status: number) => async (): Promise<string> =>
      Promise.reject(new Problem(status, {})),
  };
}

describe('sending', () => {
  it('does the same values once, whose answer was lost, under the id they had', async () => {
    const { done, hear, hearOnly } = service();
    const sending = new Sending<Values>();
    await expect(sending.send({ name: 'Shed' }, hearOnly, () => 'shed')).rejects.toThrow();
    // Meanwhile the list has it, and another id would be free.
    expect(await sending.send({ name: 'Shed' }, hear, () => 'shed-2')).toBe('shed');
    expect(done.size).toBe(1);
  });

  it('does the same values again once they were answered', async () => {
    const { done, hear } = service();
    const sending = new Sending<Values>();
    await sending.send({ name: 'Shed' }, hear, () => 'shed');
    expect(await sending.send({ name: 'Shed' }, hear, () => 'shed-2')).toBe('shed-2');
    expect(done.size).toBe(2);
  });

  it('finds out what became of other values before', async () => {
    const { done, hear, hearOnly } = service();
    const sending = new Sending<Values>();
    await expect(sending.send({ name: 'Shad' }, hearOnly, () => 'shad')).rejects.toThrow();
    expect(await sending.settle({ name: 'Shed' }, hear)).toBe('shad');
    expect(done.size).toBe(1);
    expect(await sending.settle({ name: 'Shed' }, hear)).toBeUndefined();
  });

  it('goes on where the values before were refused, and not where nobody answers', async () => {
    const { hearOnly, refuse } = service();
    const sending = new Sending<Values>();
    await expect(sending.send({ name: '' }, hearOnly)).rejects.toThrow();
    await expect(sending.settle({ name: 'Shed' }, hearOnly)).rejects.toThrow();
    // Nobody is signed in any more: that says nothing of what was sent before.
    await expect(sending.settle({ name: 'Shed' }, refuse(401))).rejects.toThrow();
    expect(await sending.settle({ name: 'Shed' }, refuse(400))).toBeUndefined();
  });

  it('takes another key after a refusal', async () => {
    const { done, hear, refuse } = service();
    const sending = new Sending<Values>();
    await expect(sending.send({ name: 'Shed' }, refuse(409), () => 'shed')).rejects.toThrow();
    expect(await sending.send({ name: 'Shed' }, hear, () => 'shed-2')).toBe('shed-2');
    expect(done.size).toBe(1);
  });
});
