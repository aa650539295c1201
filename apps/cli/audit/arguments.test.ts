import { describe, expect, it, test } from 'vitest';
import { readArguments } from './arguments.ts';

const hash = 'AB'.repeat(32);

describe('the words of npm run audit', () => {
  it.each([
    [['verify'], { command: 'verify', chain: null, head: null }],
    [['head'], { command: 'head', chain: null, head: null }],
    [['head', '--accounts'], { command: 'head', chain: '', head: null }],
    [['verify', '--yard', 'y'], { command: 'verify', chain: 'y', head: null }],
    [
      ['verify', '--yard', 'y', '--head', hash],
      { command: 'verify', chain: 'y', head: hash.toLowerCase() },
    ],
  ])('%j', (words, expected) => {
    expect(readArguments(words)).toEqual(expected);
  });

  test.each([
    [[], 'What to do is missing'],
    [['check'], '"check" is no command'],
    [['verify', 'y'], 'verify: "y" is too much'],
    [['verify', '--yard', ''], '--yard "" is no yard'],
    [['verify', '--yard', 'y', '--accounts'], 'exclude each other'],
    [['verify', '--head', hash], '--head is of one chain'],
    [['verify', '--yard', 'y', '--head', 'ab'], '--head "ab" is no hash'],
    [['head', '--yard', 'y', '--head', hash], 'leave --head out'],
    [['verify', '--boat', 'x'], "Unknown option '--boat'"],
  ])('%j is refused with the cure', (words, message) => {
    expect(() => readArguments(words)).toThrow(message);
    expect(() => readArguments(words)).toThrow('Usage: npm run audit');
  });
});
