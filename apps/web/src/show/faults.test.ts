import { describe, expect, it } from 'vitest';
import { Problem } from '../api/problem.ts';
import { faultBeside, sentences, told } from './faults.ts';

const fault = (path: string, message: string, cure: string) => ({
  code: 'input.field',
  path,
  message,
  cure,
});
const refused = (...errors: readonly ReturnType<typeof fault>[]): Problem => {
  const [{ path, message, cure }] = errors;
  return new Problem(400, {
    code: 'input.field',
    detail: path === '' ? message : `${path}: ${message}`,
    cure,
    errors: [...errors],
  });
};

describe('what is wrong with a field', () => {
  it('is said in whole sentences, each once', () => {
    expect(sentences(['a name is missing', 'Write one.'])).toBe('a name is missing. Write one.');
    expect(sentences(['It is late.', 'It is late', ''])).toBe('It is late.');
  });

  it('is everything that is wrong with it', () => {
    const problem = refused(
      fault('shifts', 'two overlap', 'Move one.'),
      fault('shifts', 'one is too long', 'End it earlier.'),
    );
    expect(faultBeside(problem, 'shifts')).toBe(
      'two overlap. Move one. one is too long. End it earlier.',
    );
    expect(faultBeside(problem, 'shifts[0]')).toBeUndefined();
    expect(faultBeside(undefined, 'shifts')).toBeUndefined();
  });
});

describe('all that is wrong', () => {
  it('is told once each, with its path where no field stands for it', () => {
    const problem = refused(
      fault('name', 'a name is missing', 'Write one.'),
      fault('steps[0].id', '"a b" is no id', 'Write letters.'),
    );
    faultBeside(problem, 'name');
    expect(told(problem)).toEqual({
      title: null,
      cure: '',
      faults: [
        { path: null, words: 'a name is missing. Write one.' },
        { path: 'steps[0].id', words: '"a b" is no id. Write letters.' },
      ],
    });
  });

  it('keeps what is said of the whole', () => {
    const problem = new Problem(409, {
      detail: 'The shed is in use.',
      cure: 'End that first.',
      errors: [fault('', 'Wren is in it', 'Move her.')],
    });
    expect(told(problem)).toEqual({
      title: 'The shed is in use.',
      cure: 'End that first.',
      faults: [{ path: null, words: 'Wren is in it. Move her.' }],
    });
  });
});
